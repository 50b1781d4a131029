"""The day's page: one touch logs what was asked, a second way says how it went; bad input writes nothing."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from sqlalchemy import func, select

from tests.day import this_day
from tests.pages.conftest import Open, cards, field, opened, tap, words
from tests.pages.squats import done, squatting
from tests.readings import begun
from tracker.desk.day import log_set, today
from tracker.desk.people import people, places
from tracker.log import waves as log_waves
from tracker.log.models import Change, LiftedSet, RepMax
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass


@pytest.fixture
def anna(log: Log) -> MemberRecord:
    return squatting(log, "Anna")


def rows(log: Log) -> tuple[int, int, int]:
    """How many records and acts there are: what must not change when something is refused."""
    with log.reading() as session:
        counts = [session.scalar(select(func.count()).select_from(model)) or 0 for model in (LiftedSet, RepMax, Change)]
    return counts[0], counts[1], counts[2]


def test_the_next_set_stands_on_top_with_load_discs_and_what_it_is_a_part_of(log: Log, anna: MemberRecord, show: Open):
    at = show(log)
    text = words(at)
    assert "5 × 70 kg" in text
    assert "25 kg a side, on the 20 kg bar" in text
    assert "70 % of your 5RM = 70 kg. Tested 5RM 100 kg, 2 weeks ago." in text
    assert [each["set"]["discs"] for each in cards(at)] == [[["25", "kg", 25.0]]]


def test_one_touch_logs_the_set_as_prescribed_and_the_next_one_comes_up(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "log_as_asked")
    (row,) = done(log, anna.id)
    assert (row.reps, str(row.load), row.outcome, row.rir, row.planned_round) == (5, "70 kg", "done", None, 1)
    assert "Saved: 5 × 70 kg" in words(at)
    assert "Set 2 of 2" in words(at)
    tap(at, "log_as_asked")
    assert today.day_plan(log, anna.id, this_day()).step.state == "done"


def test_the_page_begins_few_transactions_and_no_more_with_more_lifts(log: Log, anna: MemberRecord, show: Open):
    at = show(log)
    with begun() as drawn_again:
        at.run()
    with begun() as touched:
        tap(at, "log_as_asked")
    # Nothing was written: only the newest entry of the history is asked for. After a touch: is it logged already, the act,
    # the marks before it; then the history's newest entry, members, places, two readings of the history, what was put
    # away, waves that ended, goals that were reached, and the day itself, in one however many lifts it has.
    assert (len(drawn_again), len(touched)) == (1, 12)


def test_how_many_were_left_is_one_touch_more(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "log_as_asked")
    left = next(each for each in at.get("button_group") if each.key.startswith("left_"))
    left.set_value("2").run()
    assert done(log, anna.id)[0].rir == 2
    assert "Saved: 5 × 70 kg, 2 left" in words(at)


def test_change_it_opens_load_reps_reserve_and_outcome_in_four_touches(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "change_it")
    field(at, "number_input", "_reps", "line_").set_value(4).run()
    field(at, "button_group", "_rir", "line_").set_value("1").run()
    tap(at, field(at, "button", "_log", "line_").key)
    (row,) = done(log, anna.id)
    assert (row.reps, str(row.load), row.rir) == (4, "70 kg", 1)


@pytest.mark.parametrize(("said", "kept"), [("0", 0), ("5", 5), ("6+", 6)])
def test_reps_left_are_logged_with_the_set_in_one_touch(log: Log, anna: MemberRecord, show: Open, said: str, kept: int):
    at = show(log)
    field(at, "button_group", "_with_left", "line_").set_value(said).run()
    assert not at.exception
    (row,) = done(log, anna.id)
    assert (row.outcome, row.rir) == ("done", kept)  # in the log six means six or more, and five is five


def test_plus_and_minus_go_to_the_loads_that_the_kit_makes(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "change_it")
    plus = field(at, "button", "_heavier", "line_")
    assert plus.label == "+ 2.5"
    tap(at, plus.key)
    assert field(at, "text_input", "_load", "line_").value == "72.5"
    tap(at, field(at, "button", "_lighter", "line_").key)
    tap(at, field(at, "button", "_lighter", "line_").key)
    assert field(at, "text_input", "_load", "line_").value == "67.5"


def test_a_missed_set_says_after_how_many(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "missed_it")
    field(at, "number_input", "_reps", "line_").set_value(3).run()
    tap(at, field(at, "button", "_log", "line_").key)
    (row,) = done(log, anna.id)
    assert (row.outcome, row.reps) == ("missed", 3)
    assert "70 kg, 3 made, the 4th missed" in words(at)
    assert "70 kg, 3 made, the 4th missed" in words(show(log, "journal", anna.id))
    assert "logged back squat, barbell: 70 kg, 3 made, the 4th missed" in words(
        show(log, "journal", anna.id, view="acts")
    )


BAD_LOADS = {
    "nan": "is not a number",
    "inf": "is not a number",
    "-20": "can't be",
    "0": "can't be",
    "1e3": "is not a number",
    "1001": "more than anyone lifts",
    "70 stone": "is not a number",
    "": "is not a number",
}


def test_a_load_that_cannot_be_gives_one_message_and_writes_nothing(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "change_it")
    before = rows(log)
    for typed, wrong in BAD_LOADS.items():
        field(at, "text_input", "_load", "line_").set_value(typed).run()
        tap(at, field(at, "button", "_log", "line_").key)
        assert words(at).count("Not saved.") == 1, typed
        assert wrong in words(at), typed
        assert rows(log) == before, typed
        assert field(at, "text_input", "_load", "line_").value == typed  # it still stands there, to be mended


def test_a_comma_and_a_unit_of_its_own_are_taken(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "change_it")
    field(at, "text_input", "_load", "line_").set_value("155 lb").run()
    tap(at, field(at, "button", "_log", "line_").key)
    at = tap(at, "change_it")
    field(at, "text_input", "_load", "line_").set_value("71,5").run()
    tap(at, field(at, "button", "_log", "line_").key)
    assert [str(row.load) for row in done(log, anna.id)] == ["155 lb", "71.5 kg"]


def test_a_set_done_with_no_repetitions_is_refused(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "change_it")
    before = rows(log)
    field(at, "number_input", "_reps", "line_").set_value(0).run()
    tap(at, field(at, "button", "_log", "line_").key)
    assert "say missed" in words(at)
    assert rows(log) == before


def test_a_slip_of_the_unit_is_asked_about_and_the_answer_logs_it(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "log_as_asked")
    at = tap(at, "change_it")
    field(at, "text_input", "_load", "line_").set_value("154").run()
    tap(at, field(at, "button", "_log", "line_").key)
    assert "Not saved yet" in words(at)
    assert len(done(log, anna.id)) == 1
    tap(at, "frame_other")
    assert [str(row.load) for row in done(log, anna.id)] == ["70 kg", "154 lb"]


def test_a_done_set_can_be_mended_and_removed_and_both_undone(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "log_as_asked")
    set_id = done(log, anna.id)[0].id
    at = tap(at, f"mend_{set_id}")
    field(at, "number_input", "_reps", "mending_").set_value(6).run()
    tap(at, field(at, "button", "_log", "mending_").key)
    assert done(log, anna.id)[0].reps == 6
    tap(at, f"mend_{set_id}")
    tap(at, f"remove_{set_id}")
    assert not done(log, anna.id)
    tap(at, "frame_undo")
    assert done(log, anna.id)[0].reps == 6
    tap(at, "frame_undo")
    assert done(log, anna.id)[0].reps == 5


def test_another_set_can_be_done_first(log: Log, anna: MemberRecord, show: Open):
    at = show(log)
    second = today.day_plan(log, anna.id, this_day()).lines[1]
    tap(at, f"take_{second.key}")
    tap(at, "log_as_asked")
    assert done(log, anna.id)[0].planned_round == 2
    assert "Set 1 of 2" in words(at)


def test_ramp_sets_are_offered_and_logged_as_such(log: Log, anna: MemberRecord, show: Open):
    at = tap(opened(show(log), "ramp"), "log_ramp_0")
    assert done(log, anna.id)[0].kind == "ramp"
    assert "Set 1 of 2" in words(at)


def test_the_session_can_wait_be_easier_or_be_left_out(log: Log, anna: MemberRecord, show: Open):
    at = tap(opened(show(log), "session_menu"), "menu_ease")
    assert "5 × 62.5 kg" in words(at)
    tap(at, "menu_full")
    assert "5 × 70 kg" in words(at)
    tap(at, "menu_postpone_2")
    step = today.steps(log, anna.id)[0]
    assert step.due == this_day() + timedelta(days=2)
    assert "Begin it now" in [each.label for each in at.button]
    assert ", moved from today" in words(at)
    tap(at, "menu_begin")
    assert "5 × 70 kg" in words(at)
    tap(opened(at, "session_menu"), "menu_skip")
    assert today.steps(log, anna.id)[0].state == "skipped"


def test_a_session_is_ended_with_what_was_done_and_rated(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "log_as_asked")
    tap(opened(at, "session_menu"), "menu_finish")
    opened(at, "session_end")
    key = f"end_{today.day_plan(log, anna.id, this_day()).session.id}"
    at.button_group(key=f"{key}_rating").set_value(7)
    at.number_input(key=f"{key}_minutes").set_value(55)
    at.text_area(key=f"{key}_note").set_value("felt quick")
    next(each for each in at.button if each.label == "Save").click().run()
    session = today.day_plan(log, anna.id, this_day()).session
    assert (session.rating, session.minutes, session.note) == (7, 55, "felt quick")


def test_a_note_that_was_begun_is_not_lost_when_its_box_is_closed(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "log_as_asked")
    key = f"end_{today.day_plan(log, anna.id, this_day()).session.id}_note"
    assert key not in {each.key for each in at.text_area}  # not drawn before somebody asks for it
    opened(at, "session_end")
    at.session_state["session_end"] = False
    at.run()
    assert key in {each.key for each in at.text_area}  # the browser keeps what stands in a field as long as it is drawn


def test_of_many_sets_the_earlier_ones_are_said_and_mended_when_asked_for(log: Log, anna: MemberRecord, show: Open):
    squat = next(each for each in people.lifts(log) if each.implement == "barbell")
    for reps in range(1, 6):
        log_set.log_set(log, anna.id, this_day(), NewSet(squat.id, Mass(Decimal(40), "kg"), reps))
    at = show(log)
    first = today.day_plan(log, anna.id, this_day()).sets[0]
    earlier = at.button_group(key="done_earlier").options
    said = words(at) + "".join(str(each) for each in earlier)
    assert all(f"{reps} × 40 kg" in said for reps in range(1, 6))
    assert len([each for each in at.button if each.label == "Edit"]) == 3
    at.button_group(key="done_earlier").set_value(first.id).run()  # a touch on it
    at.number_input(key=f"mending_{first.id}_reps").set_value(8)
    tap(at, f"mending_{first.id}_log")
    assert today.day_plan(log, anna.id, this_day()).sets[0].reps == 8


def test_a_missing_reference_max_is_asked_for_and_then_the_loads_stand_there(log: Log, show: Open):
    member = people.add_member(log, "Bo")
    lift = people.add_lift(log, "press", "barbell")
    with log.act("a wave", member.id) as act:
        wave = log_waves.add_wave(act, "W", [NewStep("Press", 0, [NewPlannedSet(lift.id, 1, 5, Decimal(75), 5)])])
        log_waves.start_wave(act, member.id, wave, this_day())
    at = show(log)
    assert "No 5RM of press, barbell is known yet" in words(at)
    before = rows(log)
    assert at.radio(key="ask_max_how").value is None
    at.text_input(key="ask_max_load").set_value("lots")
    next(each for each in at.button if each.label == "Work out my loads").click().run()
    assert "'lots' is not a number" in words(at)
    assert "Say whether it was tested or guessed" in words(at)  # both at once
    assert rows(log) == before
    at.text_input(key="ask_max_load").set_value("60")
    at.radio(key="ask_max_how").set_value("tested")
    next(each for each in at.button if each.label == "Work out my loads").click().run()
    assert "Day of the test" in words(at)
    assert rows(log) == before
    at.date_input(key="ask_max_day").set_value(this_day() - timedelta(days=35))
    next(each for each in at.button if each.label == "Work out my loads").click().run()
    assert "5 × 45 kg" in words(at)
    assert "Tested 5RM 60 kg, 5 weeks ago" in words(at)


def test_a_day_in_words_is_written_as_english_writes_it(log: Log, anna: MemberRecord, show: Open):
    past = this_day() - timedelta(days=9)
    at = show(log, "today", anna.id, day=past.isoformat())
    assert f"{past:%a} {past.day} {past:%b}" in [each.proto.popover.label for each in at.get("popover")]


def test_a_planned_set_by_feel_is_not_logged_at_what_its_kind_begins_with(log: Log, anna: MemberRecord, show: Open):
    lift = people.add_lift(log, "row", "barbell")
    with log.act("a wave", anna.id) as act:
        steps = [NewStep("Row", 0, [NewPlannedSet(lift.id, 1, 8)])]
        log_waves.start_wave(act, anna.id, log_waves.add_wave(act, "Rows", steps), this_day())
    step = next(each for each in today.steps(log, anna.id) if each.title == "Row")
    at = show(log, "today", anna.id, session=step.id)
    assert field(at, "text_input", "_load", "line_").value == ""
    tap(at, field(at, "button", "_log", "line_").key)
    assert "is not a number" in words(at)
    assert not done(log, anna.id)
    tap(at, field(at, "button", "_hint", "line_").key)
    tap(at, field(at, "button", "_log", "line_").key)
    assert [str(row.load) for row in done(log, anna.id)] == ["20 kg"]


def test_the_load_of_a_heavy_single_is_not_filled_in_for_fives(log: Log, anna: MemberRecord, show: Open):
    lift = people.add_lift(log, "row", "barbell")
    log_set.log_set(log, anna.id, this_day(), NewSet(lift.id, Mass(Decimal("147.5"), "kg"), 1))
    with log.act("a wave", anna.id) as act:
        steps = [NewStep("Row", 0, [NewPlannedSet(lift.id, 2, 5)])]  # by feel, of the best of the day
        log_waves.start_wave(act, anna.id, log_waves.add_wave(act, "Rows", steps), this_day())
    step = next(each for each in today.steps(log, anna.id) if each.title == "Row")
    at = show(log, "today", anna.id, session=step.id)
    assert field(at, "text_input", "_load", "line_").value == ""
    assert "147.5" not in field(at, "button", "_hint", "line_").label


def test_another_bar_changes_the_discs(log: Log, anna: MemberRecord, show: Open):
    from dataclasses import replace

    from tracker.log.records import KitItemRecord

    place = places.places(log)[0]
    bars = (*place.items, KitItemRecord("", "bar", "light bar", Mass(Decimal(15), "kg"), 1))
    places.change_place(log, replace(place, items=bars))
    at = show(log)
    light = next(each for each in places.places(log)[0].of_kind("bar") if each.label == "light bar")
    at.radio(key="where_bar_id").set_value(light.id).run()
    assert "on the light bar of 15 kg" in words(at)


def test_cautions_are_put_away_for_the_day_and_stop_signs_stay(log: Log, anna: MemberRecord, show: Open):
    with log.act("a heavy wave", anna.id) as act:
        lift = people.lifts(log)[0].id
        planned = [NewPlannedSet(lift, 1, 5, percent=Decimal(70), of_reps=5, rep_out=True)]
        log_waves.start_wave(act, anna.id, log_waves.add_wave(act, "Out", [NewStep("Rep-out", 0, planned)]), this_day())
    today.skip(log, anna.id, today.steps(log, anna.id)[0])
    at = show(log)
    assert "5 or more × 70 kg" in words(at)
    assert "spotter, or with pins" in words(at)
    tap(at, "cautions_seen")
    assert "spotter, or with pins" not in words(at)
    assert "Call emergency help at once" in words(at)
    assert "In a pregnancy stop at these as well" in words(at)
    assert "bleeding or leaking fluid" in words(at)
    again = show(log)  # a reload, or another phone
    assert "spotter, or with pins" not in words(again)
    assert "put cautions away" not in words(again)  # no act that one wants to take back between two sets
    tap(again, "cautions_again")
    assert "spotter, or with pins" in words(again)
    assert "spotter, or with pins" in words(show(log))


def test_a_max_that_no_longer_holds_shows_both_loads_and_the_choice_changes_the_next_set(
    log: Log, anna: MemberRecord, show: Open
):
    lift = people.lifts(log)[0]
    for ago in (15, 11, 8, 5, 2):  # five repetitions with 85 kg are now all there is
        new = NewSet(lift.id, Mass(Decimal(85), "kg"), 5, outcome="missed")
        log_set.log_set(log, anna.id, this_day() - timedelta(days=ago), new)
    at = show(log)
    choice = next((each for each in at.get("button_group") if each.key == "prefer_now"), None)
    assert choice is not None, words(at)
    assert "5 × 70 kg" in words(at)
    offered = {each.content for each in choice.proto.options}
    assert offered == {"tested max: 70 kg", "estimated max: 60 kg"}, offered
    choice.set_value("estimated").run()
    assert "Estimated 5RM" in words(at)
    assert "5 × 60 kg" in words(at)


@pytest.mark.parametrize("member", ["Mirela", "Ondrej", "Sunniva", "Tobin", "Wren"])
def test_the_demo_shows_every_member_a_next_set(demo_log: Log, show: Open, member: str):
    who = next(each for each in people.members(demo_log) if each.name == member)
    at = show(demo_log, member=who.id)
    if member == "Ondrej":  # five weeks away: first how he starts
        at = tap(at, "start_as_asked")
    tap(at, "log_as_asked")
    assert len(done(demo_log, who.id)) == 1


def test_ten_years_of_sets_change_nothing(ten_years: Log, show: Open):
    at = show(ten_years)
    assert "5 × 72.5 kg" in words(at) or "5 × 70 kg" in words(at)
    tap(at, "log_as_asked")
    assert len(done(ten_years, people.members(ten_years)[0].id)) == 1


def test_a_max_of_two_dumbbells_is_said_of_each(demo_log: Log, show: Open):
    mirela = next(each for each in people.members(demo_log) if each.name == "Mirela")
    at = show(demo_log, member=mirela.id)
    line = today.day_plan(demo_log, mirela.id, this_day()).next_line
    assert line is not None
    assert line.lift.implements == 2
    assert line.reference is not None
    said = next(each for each in words(at).splitlines() if "% of your" in each)
    assert f"{line.reference.reps}RM" in said
    assert " kg each" in said.partition("% of your")[2]


def test_no_number_beside_what_was_left_logs_a_set(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "change_it")
    assert not [each for each in at.get("button_group") if "_fewer" in str(each.key)]


def test_a_miss_is_two_touches(log: Log, anna: MemberRecord, show: Open):
    at = tap(show(log), "missed_it")
    pills = next(each for each in at.get("button_group") if str(each.key).endswith("_fewer"))
    pills.set_value(3).run()
    assert not at.exception
    row = done(log, anna.id)[0]
    assert (row.reps, row.outcome, str(row.load)) == (3, "missed", "70 kg")
    assert at.button(key="log_as_asked").label.startswith("Done: 5")
