"""A coach's sheet in the log: taken for members, in other ways where the kit is another, changed without touching what is done."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import func, select

from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import log_set, today
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.desk.pieces.conditioning import piece_day
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError
from tracker.log import sheets as log_sheets
from tracker.log import waves as log_waves
from tracker.log.models import Change, LiftedSet, MemberStep, WaveStep
from tracker.log.records import KitItemRecord, MemberRecord, MemberStepRow
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.prescription.sheet import SheetErrors
from tracker.units import Mass

DAY = date(2026, 3, 2)  # a Monday
SHEET = """\
Title: Millrace
Week 1, day 1: Squat
Warm-up: 500 m row

Front squat, barbell, % of 3RM, rest 3:00
1 x 5 @ 70 %
2 x 3 @ 80 % (stay tall)
or dumbbells, twice the repetitions

Piece: Mill wheel
2 rounds for time, cap 9:00
10 burpee
Week 1, day 4: Press
Press, barbell
3 x 5 @ 40 kg, tempo 3110
Week 2, day 1
Front squat, barbell, % of 3RM
1 x 3+ @ 85 %
find a 3RM in 20:00
"""


def item(kind: str, mass: int, number: int | None = None) -> KitItemRecord:
    return KitItemRecord("", kind, f"{mass}", kg(mass), number)  # type: ignore[arg-type]


@pytest.fixture
def wren(log: Log) -> MemberRecord:
    gym = places.add_place(log, "Gym", "kg")
    home = places.add_place(log, "Home", "kg", [item("dumbbell", 12, 2), item("dumbbell", 20, 2)])
    member = people.add_member(log, "Wren")
    people.go_to_place(log, member.id, gym.id)
    squat = people.add_lift(log, "front squat", "barbell")
    rep_maxes.add_rep_max(log, member.id, squat.id, DAY - timedelta(days=7), 3, kg(100), tested=True)
    assert home.items
    return people.member(log, member.id) or member


def home(log: Log) -> str:
    return next(each.id for each in places.places(log) if each.name == "Home")


def plan(log: Log, member: MemberRecord, day: date = DAY) -> today.DayPlan:
    return today.day_plan(log, member.id, day)


def do_next(log: Log, member: MemberRecord, day: date = DAY) -> None:
    now = plan(log, member, day)
    line = now.next_line
    assert line is not None
    load = line.made.load if line.made else kg(12)
    new = NewSet(
        line.lift.id,
        load,
        line.reps,
        planned_set_id=line.planned.id,
        planned_round=line.number,
        member_step_id=line.step_id,
    )
    log_set.log_set(log, member.id, day, new, sure=True)


def count(log: Log, table: type) -> int:
    with log.reading() as session:
        return session.scalar(select(func.count()).select_from(table)) or 0


def test_a_sheet_is_said_back_with_its_new_lifts_before_anything_is_written(log: Log, wren: MemberRecord) -> None:
    before = count(log, Change)
    preview = sheets.read_sheet(log, SHEET)
    assert preview.new_lifts == ("front squat, dumbbells", "press, barbell")
    assert "1 set of 5 repetitions at 70 % of your 3RM" in "\n".join(preview.said)
    assert (preview.earlier, preview.changes) == (None, ())
    assert count(log, Change) == before


def test_a_sheet_that_is_taken_is_there_with_loads_and_its_pieces(log: Log, wren: MemberRecord) -> None:
    """By hand: 70 % of 100 kg is 70 kg, 80 % is 80 kg, both made exactly with a 20 kg bar."""
    taken = sheets.take_sheet(log, [wren.id], SHEET, DAY)
    assert taken.words == "taken for Wren from 2026-03-02"
    now = plan(log, wren)
    assert now.step is not None
    assert (now.step.title, now.step.text) == ("Squat", "Warm-up: 500 m row")
    assert [(line.reps, line.made and line.made.load) for line in now.lines] == [(5, kg(70)), (3, kg(80)), (3, kg(80))]
    assert now.lines[1].notes == ("Stay tall.",)
    assert now.lines[0].planned.rest_s == 180
    assert now.ahead is not None
    assert (now.ahead.title, now.ahead.due) == ("Press", DAY + timedelta(days=3))
    assert [row.piece.title for row in piece_day(log, wren.id, DAY).planned] == ["Mill wheel"]
    last = today.steps(log, wren.id)[-1]
    assert (last.title, last.due, [each.test for each in last.sets]) == (
        "Millrace, week 2, day 1",
        DAY + timedelta(days=7),
        [False, True],
    )
    assert last.sets[1].words == "within 20:00"


NOTED = """\
Title: Noted
Front squat, barbell, % of 3RM
2 x 5 @ 70 %
1 x 3 @ 80 % (stay tall)
or dumbbells, twice the repetitions
Note: pause at the bottom
Note: elbows up
Press, barbell
1 x 5 @ 40 kg
"""


def test_a_note_of_a_lift_belongs_to_each_of_its_sets_and_stands_in_the_log_once(log: Log, wren: MemberRecord) -> None:
    """It landed on the first set alone, and two of them ran together."""
    sheets.take_sheet(log, [wren.id], NOTED, DAY)
    lines = plan(log, wren).lines
    of_squat = ("Pause at the bottom.", "Elbows up.")
    assert [line.notes for line in lines] == [of_squat, of_squat, (*of_squat, "Stay tall."), ()]
    step = today.steps(log, wren.id)[0]
    assert [each.lift_notes for each in step.sets] == [("pause at the bottom", "elbows up"), (), ()]
    assert [each.own_words for each in step.sets] == ["", "stay tall", ""]
    people.go_to_place(log, wren.id, home(log))
    assert plan(log, wren).lines[0].notes[:2] == of_squat  # with another implement too


def test_words_of_a_log_from_before_stay_with_their_set(log: Log, wren: MemberRecord) -> None:
    squat = people.lifts(log)[0]
    with log.act("wrote a wave") as act:
        old = NewPlannedSet(squat.id, 1, 5, Decimal(70), 3, words="pause; in turn with the lift above")
        step = NewStep("A", 0, [old, NewPlannedSet(squat.id, 1, 5, Decimal(70), 3)])
        log_waves.start_wave(act, wren.id, log_waves.add_wave(act, "Old", [step]), DAY)
    assert [line.notes for line in plan(log, wren).lines] == [("Pause; in turn with the lift above.",), ()]


def test_a_fixed_load_is_made_with_the_kit(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], "Title: A\nPress, barbell\n1 x 5 @ 41 kg, tempo 3110", DAY)
    (line,) = plan(log, wren).lines
    assert line.made is not None
    assert (line.made.load, line.planned.tempo) == (kg(40), "3-1-1-0")


def test_a_reserve_becomes_a_load_of_the_members_own_estimate_and_none_without_one(
    log: Log, wren: MemberRecord
) -> None:
    sheets.take_sheet(
        log, [wren.id], "Title: A\nFront squat, barbell\n1 x 3 @ RPE 8\nPress, barbell\n1 x 3 @ 2 in reserve", DAY
    )
    squat, press = plan(log, wren).lines
    assert squat.notes[:2] == ("RPE 8.", "A load of your own estimate for that reserve; change it by feel.")
    assert squat.made is not None
    assert 80 <= squat.made.load.amount < 100  # a 5RM of someone with a 3RM of 100 kg
    assert (press.made, press.notes, press.planned.reserve) == (None, (), 2)


def test_a_percentage_of_another_lift_is_of_that_lifts_max(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], "Title: A\nPause squat, barbell\n1 x 5 @ 60 % of 3RM front squat", DAY)
    (line,) = plan(log, wren).lines
    assert line.made is not None
    assert line.made.load == kg(60)


def test_where_no_bar_stands_the_coachs_other_way_is_on(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], SHEET, DAY)
    people.go_to_place(log, wren.id, home(log))
    lines = plan(log, wren).lines
    assert [(line.lift.title, line.reps, line.made) for line in lines] == [
        ("front squat, dumbbells", 10, None), ("front squat, dumbbells", 6, None), ("front squat, dumbbells", 6, None)
    ]  # fmt: skip
    assert (
        "10 instead of 5 (common practice): take a load that leaves about 3, and log it for an estimate."
        in lines[0].notes
    )


def test_the_coachs_rule_for_another_implement_goes_before_an_exchange_of_ours(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], SHEET, DAY)
    people.go_to_place(log, wren.id, home(log))
    squat = people.add_lift(log, "front squat", "dumbbells")
    rep_maxes.add_rep_max(log, wren.id, squat.id, DAY - timedelta(days=2), 3, kg(25), tested=True)
    second = plan(log, wren).lines[1]
    assert second.reps == 6  # the sheet says double, whatever a max of ours would make of it
    assert second.made is not None
    assert second.made.load == kg(20)  # what the member's own sets with it say of nine repetitions, three of them left
    assert "6 instead of 3, as the sheet says; by your own sets with it this leaves about 3." in second.notes


def test_a_step_is_done_when_it_was_done_in_its_other_way(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], SHEET, DAY)
    people.go_to_place(log, wren.id, home(log))
    for _ in range(3):
        do_next(log, wren)
    assert [step.state for step in today.steps(log, wren.id)] == ["done", "planned", "planned"]


def test_a_way_that_was_begun_stays_after_a_change_of_place(log: Log, wren: MemberRecord) -> None:
    gym = wren.place_id
    sheets.take_sheet(log, [wren.id], SHEET, DAY)
    people.go_to_place(log, wren.id, home(log))
    do_next(log, wren)
    people.go_to_place(log, wren.id, gym)
    assert {line.lift.implement for line in plan(log, wren).lines} == {"dumbbells"}


def test_taking_a_sheet_is_one_act_and_is_taken_back_whole(log: Log, wren: MemberRecord) -> None:
    sheets.take_sheet(log, [wren.id], SHEET, DAY)
    assert undo_newest(log, wren.id) == "took the sheet Millrace for Wren"
    assert today.steps(log, wren.id) == ()
    assert count(log, WaveStep) == 0
    sheets.take_sheet(log, [wren.id], SHEET, DAY)
    assert len(today.steps(log, wren.id)) == 3


def test_several_members_do_one_wave_and_a_later_one_joins(log: Log, wren: MemberRecord) -> None:
    tobin, ana = people.add_member(log, "Tobin"), people.add_member(log, "Ana")
    first = sheets.take_sheet(log, [wren.id, tobin.id], SHEET, DAY)
    later = sheets.take_sheet(log, [ana.id], SHEET, DAY + timedelta(days=7))
    assert first.wave_id == later.wave_id
    assert today.steps(log, ana.id)[0].due == DAY + timedelta(days=7)
    with pytest.raises(BadInputError, match="Tobin is on this sheet already"):
        sheets.take_sheet(log, [tobin.id], SHEET, DAY)


CHANGED = SHEET.replace("1 x 5 @ 70 %", "1 x 5 @ 72.5 %").replace("3 x 5 @ 40 kg, tempo 3110", "3 x 5 @ 42.5 kg")
CHANGED = CHANGED.partition("Week 2, day 1")[0] + "Week 3, day 1: Deadlift\nDeadlift, barbell, % of 5RM\n1 x 5 @ 70 %\n"


def test_a_changed_sheet_says_what_changes_by_session(log: Log, wren: MemberRecord) -> None:
    taken = sheets.take_sheet(log, [wren.id], SHEET, DAY)
    found = sheets.changes(log, taken.wave_id, CHANGED)
    assert [(change.kind, change.words) for change in found] == [
        ("changed", "Week 1, day 1: Squat"), ("changed", "Week 1, day 4: Press"), ("added", "Week 3, day 1: Deadlift"), ("removed", "Week 2, day 1")
    ]  # fmt: skip
    assert "70 %" in found[0].before[1]
    assert "72.5 %" in found[0].after[1]
    assert sheets.read_sheet(log, CHANGED).changes == found
    with pytest.raises(BadInputError, match="earlier sheet Millrace"):
        sheets.take_sheet(log, [wren.id], CHANGED, DAY)


def test_a_change_touches_nothing_that_is_begun_or_done(log: Log, wren: MemberRecord) -> None:
    tobin = people.add_member(log, "Tobin")
    taken = sheets.take_sheet(log, [wren.id, tobin.id], SHEET, DAY)
    do_next(log, wren)
    before = plan(log, wren)
    assert sheets.changes(log, taken.wave_id, CHANGED)[0].kept == 1
    sheets.take_changes(log, taken.wave_id, CHANGED, by=wren.id)
    after = plan(log, wren)
    assert [line.planned for line in after.lines] == [line.planned for line in before.lines]
    assert after.lines[0].done == before.lines[0].done
    steps = today.steps(log, wren.id)
    assert [(step.title, step.due, step.state) for step in steps] == [
        ("Squat", DAY, "planned"),
        ("Press", DAY + timedelta(days=3), "planned"),
        ("Millrace, week 2, day 1", DAY + timedelta(days=7), "skipped"),
        ("Deadlift", DAY + timedelta(days=14), "planned"),
    ]
    assert steps[1].sets[0].load == kg("42.5")
    (other,) = [step for step in today.steps(log, tobin.id) if step.title == "Squat"]
    assert other.sets[0].percent == Decimal("72.5")
    assert sheets.changes(log, taken.wave_id, CHANGED) == ()


def test_a_change_is_one_act_and_is_taken_back_whole(log: Log, wren: MemberRecord) -> None:
    taken = sheets.take_sheet(log, [wren.id], SHEET, DAY)
    do_next(log, wren)
    before, sets = today.steps(log, wren.id), count(log, LiftedSet)
    sheets.take_changes(log, taken.wave_id, CHANGED, by=wren.id)
    assert undo_newest(log, wren.id) == "changed the sheet Millrace"
    assert today.steps(log, wren.id) == before
    assert (count(log, LiftedSet), count(log, MemberStep)) == (sets, 3)
    assert sheets.changes(log, taken.wave_id, SHEET) == ()


def test_a_change_of_a_change_is_against_the_newest(log: Log, wren: MemberRecord) -> None:
    taken = sheets.take_sheet(log, [wren.id], SHEET, DAY)
    sheets.take_changes(log, taken.wave_id, CHANGED, by=wren.id)
    sheets.take_changes(log, taken.wave_id, SHEET, by=wren.id)
    assert [(step.title, step.state) for step in today.steps(log, wren.id)] == [
        ("Squat", "planned"), ("Press", "planned"), ("Millrace, week 2, day 1", "skipped"),
        ("Millrace, week 2, day 1", "planned"), ("Deadlift", "skipped"),
    ]  # fmt: skip
    with pytest.raises(BadInputError, match="says the same as the earlier one"):
        sheets.take_changes(log, taken.wave_id, SHEET, by=wren.id)


@pytest.mark.parametrize(
    ("text", "start", "told"),
    [
        ("-- \n", DAY, "There is nothing in it."),
        ("Title: A\nPress, barbell\n3 x 5", None, "Nobody said when it begins."),
        ("Title: A\nWeek 1, Wednesday\nPress, barbell\n3 x 5", DAY, "such as 2026-03-04"),
    ],
)
def test_what_is_missing_is_told_and_nothing_is_written(
    log: Log, wren: MemberRecord, text: str, start: date | None, told: str
) -> None:
    before = count(log, Change)
    with pytest.raises(BadInputError) as caught:
        sheets.take_sheet(log, [wren.id], text, start)
    assert told in str(caught.value)
    assert count(log, Change) == before


def test_a_sheet_with_nothing_in_it_is_refused_and_nothing_is_written(log: Log, wren: MemberRecord) -> None:
    before = count(log, Change)
    with pytest.raises(SheetErrors):
        sheets.take_sheet(log, [wren.id], "\n ... \n", DAY)
    assert count(log, Change) == before


def test_a_sheet_without_a_title_is_known_by_its_session_and_taken_once(log: Log, wren: MemberRecord) -> None:
    tobin = people.add_member(log, "Tobin")
    text = "Monday\nPress, barbell\n3 x 5"
    first = sheets.take_sheet(log, [wren.id], text, DAY)
    assert sheets.take_sheet(log, [tobin.id], text, DAY).wave_id == first.wave_id
    with pytest.raises(BadInputError, match="Tobin is on this sheet already"):
        sheets.take_sheet(log, [tobin.id], text, DAY)
    other = sheets.take_sheet(log, [wren.id], "Monday\nPress, barbell\n5 x 3", DAY)
    assert other.wave_id != first.wave_id
    assert [step.sets[0].reps for step in today.steps(log, wren.id)] == [5, 3]


def test_a_message_in_any_hand_becomes_sets_and_a_piece_that_can_be_done(log: Log, wren: MemberRecord) -> None:
    """By hand: 70 % of 100 kg is 70 kg; a training max of 90 % makes 63 kg of it, 62.5 kg can be made with 1.25 kg discs."""
    text = "Title: Any\nfront squat 2x5 @ 70% of 3RM\nfront squat 1x3 @ 70% of 90% training max of 3RM\n\nAMRAP 12\n12/9 cal row\n10 thrusters 43/30 kg"
    sheets.take_sheet(log, [wren.id], text, DAY)
    loads = [line.made and line.made.load for line in plan(log, wren).lines]
    assert loads == [kg(70), kg(70), kg("62.5")]
    (piece,) = [row.piece for row in piece_day(log, wren.id, DAY).planned]
    assert piece.title == "AMRAP: row, thruster"
    row, thruster = piece.tasks  # whose side of a pair it is, is for the member to say
    assert (row.sides, thruster.load) == ((12, 9), (kg(43), kg(30)))
    assert piece.side == ""


def test_nobody_and_unknown_members_are_refused(log: Log, wren: MemberRecord) -> None:
    for members in ([], [wren.id, "nobody"]):
        with pytest.raises(BadInputError, match="Nobody is chosen"):
            sheets.take_sheet(log, members, SHEET, DAY)


def test_a_wave_that_is_no_sheet_keeps_its_title(log: Log, wren: MemberRecord) -> None:
    from tracker.log.waves import add_wave

    with log.act("a wave") as act:
        add_wave(act, "Millrace", [], text="Up in load for three weeks.")
    taken = sheets.take_sheet(log, [wren.id], SHEET, DAY)  # a sheet of that title is another one
    assert taken.title == "Millrace, 2026-03-02"
    with log.reading() as session:
        assert [each.name for each in log_sheets.waves_of_title(session, "Millrace")] == [
            "Millrace, 2026-03-02",
            "Millrace",
        ]


def test_a_wave_of_three_weeks_on_a_pound_bar_at_home_has_the_loads_made_by_hand(log: Log) -> None:
    """The loads of tests/prescription/test_wave_by_hand.py, from the sheet's text to the member's day."""
    from tests.prescription.test_wave_by_hand import NEAREST
    from tests.prescription.test_wave_by_hand import SHEET as NEAP

    discs = [
        KitItemRecord("", "disc", mass, Mass(Decimal(mass), "lb"), pairs)
        for mass, pairs in (("45", 1), ("25", 1), ("10", 2), ("5", 1), ("2.5", 1))
    ]
    home = places.add_place(log, "Home", "lb", [KitItemRecord("", "bar", "bar", Mass(Decimal(45), "lb"), 1), *discs])
    tobin = people.add_member(log, "Tobin", "lb")
    people.go_to_place(log, tobin.id, home.id)
    squat = people.add_lift(log, "front squat", "barbell")
    rep_maxes.add_rep_max(log, tobin.id, squat.id, DAY - timedelta(days=7), 3, Mass(Decimal(155), "lb"), tested=True)
    sheets.take_sheet(log, [tobin.id], NEAP, DAY)
    for week, loads in NEAREST.items():
        day = DAY + timedelta(days=7 * (week - 1))
        lines = plan(log, tobin, day).lines
        assert [line.made and line.made.load for line in lines] == [Mass(Decimal(load), "lb") for load in loads]
        for _ in lines:
            do_next(log, tobin, day)
    assert {step.state for step in today.steps(log, tobin.id)} == {"done"}


def test_a_test_stays_one_of_as_many_repetitions_with_another_implement(log: Log, wren: MemberRecord) -> None:
    people.go_to_place(log, wren.id, home(log))
    sheets.take_sheet(
        log, [wren.id], "Title: A\nFront squat, barbell\nfind a 3RM\nor dumbbells, twice the repetitions", DAY
    )
    (line,) = plan(log, wren).lines
    assert (line.lift.title, line.planned.test, line.reps) == ("front squat, dumbbells", True, 3)


def changed(log: Log, member: MemberRecord, step: MemberStepRow) -> str:
    return today.day_plan(log, member.id, step.due, member_step_id=step.id).changed


def test_who_had_begun_a_session_is_told_what_changed_of_it(log: Log, wren: MemberRecord) -> None:
    tobin, ivo = people.add_member(log, "Tobin"), people.add_member(log, "Ivo")
    taken = sheets.take_sheet(log, [wren.id, tobin.id, ivo.id], SHEET, DAY)
    do_next(log, tobin)
    begun = next(step for step in today.steps(log, tobin.id) if step.title == "Squat")
    assert changed(log, tobin, begun) == ""
    sheets.take_changes(log, taken.wave_id, CHANGED, by=wren.id)
    said = changed(log, tobin, begun)
    assert said.startswith("your coach changed Millrace, Week 1, day 1: Squat, which you had begun: now ")
    assert said.index("72.5 %") < said.index("; before ") < said.index("70 %")
    assert journal.acts(log, tobin.id)[0].words == said
    assert "Wren" not in said
    not_begun = next(step for step in today.steps(log, ivo.id) if step.title == "Squat")
    assert changed(log, ivo, not_begun) == ""
    assert not any(each.words.startswith("your coach changed") for each in journal.acts(log, ivo.id))
    undo_newest(log, wren.id)
    assert changed(log, tobin, begun) == ""
