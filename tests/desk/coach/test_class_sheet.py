"""The load sheet of a class: loads in each member's unit, missing maxes, what to look out for, partners, other implements."""

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.many import NAMES, class_of, gym
from tests.loads import kg
from tests.with_pieces import put_into_step
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.coach import class_sheet
from tracker.desk.coach.class_print import MISSING, SPEAK_FIRST, page_of, print_sheet
from tracker.desk.coach.partners import AtBar, suggest_partners
from tracker.desk.day import singly, today
from tracker.desk.people import people, places
from tracker.desk.pieces import conditioning
from tracker.desk.sheet import sheets
from tracker.desk.sheet.sheet_words import parts_of
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.records import KitItemRecord
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.prescription.kit import STANDARD_KIT
from tracker.units import Mass


def lb(amount):
    return Mass(Decimal(amount), "lb")


def sheet_of(log, step, members, **options):
    return class_sheet.class_sheet(log, step.id, [each.id for each in members], this_day(), **options)


def test_each_row_is_in_the_members_unit_with_discs_of_the_gym(log):
    step, members = class_of(log, NAMES[:6])
    sheet = sheet_of(log, step, members, place_id=gym(log).id)
    rows = {row.member.name: row for row in sheet.rows}
    first, _, _, press = rows["Aldis"].lines
    # By hand: 60 kg x 0.72 = 43.2 kg; 20 kg bar with 10 + 1.25 a side is 42.5, the next up is 45 kg.
    assert (first.made.load, first.made.per_side) == (kg("42.5"), (kg("10"), kg("1.25")))
    assert press.made.words == "2 x 12.5 kg"
    # By hand: 225 lb x 0.82 = 184.5 lb; 45 lb bar with 45 + 25 a side is 185.
    third = rows["Fennimore"].lines[2]
    assert (third.made.load, third.made.per_side) == (lb("185"), (lb("45"), lb("25")))


def test_a_missing_max_has_no_load_and_says_what_to_do(log):
    step, members = class_of(log, NAMES[:8])
    row = next(row for row in sheet_of(log, step, members).rows if row.member.name == "Halvard")
    assert row.lines[0].missing
    assert row.lines[0].made is None
    assert row.lines[0].to_do.startswith("No 3RM is known")


def test_without_a_gym_each_is_at_their_own_place_and_alone_counts(log):
    step, members = class_of(log, NAMES[:2])
    garage = places.add_place(log, "Garage", "kg", (KitItemRecord("", "bar", "15 kg bar", kg(15), 1), KitItemRecord("", "disc", "10", kg(10), 2)))  # fmt: skip
    people.prefer(
        log, members[0].id, name="Aldis", unit="kg", place_id=garage.id, no_heavy=False, minor=False, alone=True
    )
    own = sheet_of(log, step, members[:1]).rows[0].lines[2].made
    # By hand: 60 x 0.82 = 49.2; the garage makes 15, 35 and 55 kg, and alone it goes down.
    assert own.load == kg("35")
    assert sheet_of(log, step, members[:1], place_id=gym(log).id).rows[0].lines[2].made.load == kg("50")


def test_a_test_is_held_back_from_those_who_asked_for_none_and_the_printed_page_tells_nobody_why(log):
    step, members = class_of(log, NAMES[:2])
    squat = people.lifts(log)[0]
    people.prefer(log, members[0].id, name="Aldis", unit="kg", place_id=None, no_heavy=True, minor=True, alone=False)
    with log.act("tests") as act:
        log_waves.add_wave(act, "Tests", [NewStep("Test", 0, (NewPlannedSet(squat.id, 1, 3, test=True),))])
    step = next(each for each in class_sheet.sessions(log) if each.wave == "Tests")
    sheet = sheet_of(log, step, members)
    assert sheet.rows[0].lines[0].held.key == "own switch"
    assert sheet.rows[1].lines[0].held is None
    page = page_of(sheet)
    assert SPEAK_FIRST in page.rows[0].below
    assert SPEAK_FIRST in page.rows[0].cells[0].detail
    assert page.rows[1].cells[0].detail == "up to today's max"
    assert "18" not in f"{page.rows} {page.foot}"


WHOLE = """\
Title: Whole
Warm-up: 500 m row, easy
Note: Bring a rope tomorrow.
Front squat, barbell, % of 3RM
2 x 5 @ 70 % (stay tall)
or dumbbells, twice the repetitions
Note: pause at the bottom
Note: elbows up

Piece: Mill wheel
3 rounds for time
10 wall ball shot, 9 kg
or goblet squat
or 20 air squat
5 burpee
Note: partners wait outside
Note: no dropping
Cool-down: walk 5 min
"""


def test_the_load_sheet_and_its_print_hold_all_that_the_coach_wrote(log):
    """Options, notes and warm-up were missing from both."""
    _, members = class_of(log, NAMES[:2])
    sheets.take_sheet(log, [members[0].id], WHOLE, this_day())
    step = next(each for each in class_sheet.sessions(log) if each.wave == "Whole")
    sheet = sheet_of(log, step, members[:1], place_id=gym(log).id)
    page = page_of(sheet)
    said = ("Warm-up: 500 m row, easy", "Bring a rope tomorrow.")
    notes = ("Pause at the bottom", "Elbows up", "Or front squat, dumbbells, twice the repetitions")
    lines = (*said, *notes)
    assert page.said == said
    assert page.notes == (notes,)  # below the name of their lift
    assert page.closing == ("Cool-down: walk 5 min",)
    assert page.columns == (("front squat, barbell", "2 × 5 at 70 % of 3RM, stay tall"),)
    assert page.pieces[0][0] == "Mill wheel"
    piece = page.pieces[0][1]
    assert "10 wall ball shots, 9 kg (or goblet squat; or 20 air squats)" in piece
    assert piece.endswith("partners wait outside; no dropping")
    html = print_sheet(sheet)
    assert all(html.count(line) == 1 for line in (*lines, "partners wait outside", "or 20 air squats", *page.closing))
    places_in_it = [html.index(each) for each in (lines[0], lines[1], "<table>", "Mill wheel", page.closing[0])]
    assert places_in_it == sorted(places_in_it)  # in the coach's order: the cool-down comes last
    assert [line.why for line in sheet.rows[0].lines] == [()]  # the coach's words are in the heading


def test_what_follows_the_cool_down_stays_behind_it_and_a_warm_up_never_does():
    text = "Warm-up: row\neasy\n\nBring a rope.\nCool-down: walk\n5 min\nSee you on Monday."
    assert parts_of(text) == (
        ("Warm-up: row", "easy", "Bring a rope."),
        ("Cool-down: walk", "5 min", "See you on Monday."),
    )
    assert parts_of("Cool-down: walk\nWarm-up: row") == (("Warm-up: row",), ("Cool-down: walk",))
    assert parts_of("") == ((), ())


def test_a_member_who_has_begun_the_wave_keeps_what_was_eased_off(log):
    step, members = class_of(log, NAMES[:1])
    with log.act("begin") as act:
        log_waves.start_wave(act, members[0].id, step.wave_id, this_day())
        mine = log_waves.member_steps(act.session, members[0].id)[0]
        log_waves.set_ease(act, mine.id, Decimal(10))
    # By hand: 60 x 0.72 x 0.9 = 38.88, next is 40 kg down to 37.5: 38.88 lies nearer to 40.
    assert sheet_of(log, step, members).rows[0].lines[0].made.load == kg("40")


def test_where_the_place_has_no_bar_the_class_names_what_the_member_s_own_day_offers(log):
    step, members = class_of(log, NAMES[:1])
    kitchen = places.add_place(log, "Kitchen", "kg", (KitItemRecord("", "dumbbell", "12", kg(12), 2),))
    line = sheet_of(log, step, members, place_id=kitchen.id).rows[0].lines[0]
    assert (line.made, line.instead) == (None, None)  # no repetitions are made up where the coach gave no rule
    people.go_to_place(log, members[0].id, kitchen.id)
    with log.act("begin") as act:
        log_waves.start_wave(act, members[0].id, step.wave_id, this_day())
    plan = today.day_plan(log, members[0].id, this_day())
    offered = [each.name for each in singly.others(plan, plan.lines[0])]
    assert line.others
    assert list(line.others) == offered[: len(line.others)]
    cell = page_of(sheet_of(log, step, members, place_id=kitchen.id)).rows[0].cells[0]
    assert (cell.load, cell.detail) == ("", f"{MISSING} {' or '.join(line.others)}: by feel, leave 3")


def test_the_coachs_own_other_way_stands_across_the_headings_of_its_block(log):
    _, members = class_of(log, NAMES[:2])
    squat, thruster = people.lifts(log)[0], people.add_lift(log, "thruster", "dumbbells")
    planned = (
        NewPlannedSet(squat.id, 1, 4, Decimal(72), 3), NewPlannedSet(squat.id, 3, 4, Decimal(82), 3),
        NewPlannedSet(thruster.id, 3, 10, way=1, load=kg(12)),
    )  # fmt: skip
    with log.act("ways") as act:
        log_waves.add_wave(act, "Ways", [NewStep("Squat", 0, planned)])
    step = next(each for each in class_sheet.sessions(log) if each.wave == "Ways")
    kitchen = places.add_place(log, "Kitchen", "kg", (KitItemRecord("", "dumbbell", "12", kg(12), 2),))
    people.go_to_place(log, members[0].id, kitchen.id)
    page = page_of(sheet_of(log, step, members))
    assert len(page.columns) == 2
    (other,) = page.rows[0].cells
    assert (other.load, other.detail, other.span) == ("2 × 12 kg", "thruster, dumbbells, 3 × 10 at 12 kg", 2)
    assert [cell.span for cell in page.rows[1].cells] == [1, 1]


def test_partners_are_those_with_the_fewest_discs_to_change_and_nobody_twice():
    members = [AtBar(name, "squat", STANDARD_KIT, (kg(load),) * 3) for name, load in (("A", 60), ("B", 100), ("C", 60), ("D", 102.5), ("E", 180))]  # fmt: skip
    found = suggest_partners(members)
    assert {frozenset((pair.first, pair.second)) for pair in found} == {frozenset("AC"), frozenset("BD")}
    assert next(pair for pair in found if "A" in (pair.first, pair.second)).changes == 0
    # B and D, by hand: 25 + 15 a side and 1.25 more; six sets, five changes of one disc on each side.
    assert next(pair for pair in found if "B" in (pair.first, pair.second)).changes == 10


def test_different_bars_are_not_shared(log):
    step, members = class_of(log, NAMES[:6])
    pairs = sheet_of(log, step, members, place_id=gym(log).id).partners
    assert pairs
    assert all("Fennimore" not in (pair.first, pair.second) for pair in pairs)  # the only one with a pound bar


def test_the_pieces_of_the_session_are_said_with_it(log):
    step, members = class_of(log, NAMES[:1])
    swings = Piece("Lantern ladder", "as many as possible", (Task("kettlebell swing", Steady(3, 3)),), cap_s=720)
    put_into_step(log, step.id, conditioning.add_piece(log, swings).id)
    page = page_of(sheet_of(log, step, members))
    assert page.pieces == (("Lantern ladder", "as many reps as possible in 12:00: 3, then 3 more each round; kettlebell swing"),)  # fmt: skip


@pytest.mark.parametrize("missing", ["step", "member", "place", "nobody"])
def test_what_is_gone_is_told(log, missing):
    step, members = class_of(log, NAMES[:1])
    ids = [] if missing == "nobody" else ["gone" if missing == "member" else members[0].id]
    with pytest.raises(BadInputError) as told:
        class_sheet.class_sheet(
            log,
            "gone" if missing == "step" else step.id,
            ids,
            this_day(),
            place_id="gone" if missing == "place" else None,
        )
    assert told.value.mend


def test_back_after_a_break_is_said_to_the_coach_and_rounded_down(log):
    step, members = class_of(log, NAMES[:19])
    sheet = sheet_of(log, step, members[18:])
    (row,) = sheet.rows
    assert row.member.name == "Sigrid"
    assert {"return", "stale"} <= {caution.key for caution in row.cautions}
    # By hand: 90 x 0.72 = 64.8 kg, 10 % lower after weeks away 58.3, down to 57.5 kg (nearest would be 57.5 or 60).
    assert row.lines[0].made.load == kg("57.5")
    assert SPEAK_FIRST in page_of(sheet).rows[0].below


def test_the_class_that_comes_next_is_that_of_the_day_and_not_an_older_one_that_was_missed(log):
    ana, today = people.add_member(log, "Ana"), this_day()
    text = f"{today - timedelta(days=1)}\nBack squat 5x5 @ 60 kg\n\n{today}\nDeadlift 3x5 @ 80 kg\n"
    taken = sheets.take_sheet(log, [ana.id], text, today - timedelta(days=1))
    assert taken
    step, members = class_sheet.likely_class(log, today)
    found = next(each for each in class_sheet.sessions(log) if each.id == step)
    assert (found.title, members) == (f"{today}", (ana.id,))
    earlier, _ = class_sheet.likely_class(log, today - timedelta(days=1))
    assert earlier != step
    later, _ = class_sheet.likely_class(
        log, today + timedelta(days=3)
    )  # nothing is of that day: the first that is left
    assert later == earlier


def test_sessions_are_dated_those_of_the_day_first_then_the_coming_then_the_past(log):
    ana, bo, day = people.add_member(log, "Ana"), people.add_member(log, "Bo"), this_day()
    for days, who in ((-2, (ana,)), (3, (ana, bo)), (0, (bo,)), (1, (ana,)), (-9, (ana,))):
        text = f"Title: T{days}\nBack squat 5x5 @ 60 kg\n"
        sheets.take_sheet(log, [each.id for each in who], text, day + timedelta(days=days))
    nobody = class_of(log, NAMES[:1])[0]
    found = class_sheet.dated_sessions(log, day)
    assert [(each.step.wave, each.day and (each.day - day).days) for each in found] == [
        ("T0", 0), ("T1", 1), ("T3", 3), ("T-2", -2), ("T-9", -9), (nobody.wave, None),
    ]  # fmt: skip
    assert set(found[2].member_ids) == {ana.id, bo.id}
