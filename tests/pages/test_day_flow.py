"""From the last set over the piece, its score and the rating to what is next: each page leads on to the right thing."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from streamlit.testing.v1 import AppTest

from tests.day import this_day
from tests.pages.conftest import Open, opened, tap, words
from tests.situations import WARM_UP, Gym
from tests.undoing import undo_newest
from tests.with_pieces import put_into_step
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.day import log_set, today
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.log import waves as log_waves
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass

LADDER = Piece("Lantern ladder", "as many as possible", (Task("kettlebell swing", Steady(3, 3)),), cap_s=720)
OTHER = Piece("Aqueduct", "for time", (Task("burpee", Steady(5)),), rounds=3)  # the first of all by its name


@pytest.fixture
def ladder(log: Log, anna: MemberRecord) -> PieceRow:
    """A session of today of one set and a piece, beside it one a week ago and one in a week."""
    conditioning.add_piece(log, OTHER)
    lift = people.add_lift(log, "back squat", "barbell")
    with log.act("a wave", anna.id) as act:
        planned = [NewPlannedSet(lift.id, 1, 5, load=Mass(Decimal(70), "kg"))]
        steps = [NewStep(f"Squat, week {n}", 7 * n, planned) for n in (1, 2, 3)]
        log_waves.start_wave(act, anna.id, log_waves.add_wave(act, "Spring", steps), this_day() - timedelta(days=14))
    row = conditioning.add_piece(log, LADDER)
    put_into_step(log, today.steps(log, anna.id)[1].step_id, row.id)
    return row


def labels(at: AppTest) -> list[str]:
    return [each.label for each in at.button]


def query_of(at: AppTest, label: str) -> dict[str, str]:
    """What a link to another page carries."""
    link = next(each for each in at.get("page_link") if each.proto.label == label)
    return dict(part.split("=") for part in link.proto.query_string.split("&"))


def test_after_the_last_set_the_piece_of_the_session_is_next_and_the_way_to_it_names_it(
    log: Log, anna: MemberRecord, ladder: PieceRow, show: Open
):
    at = tap(show(log), "log_as_asked")
    for again in (at, show(log)):  # and after a reload
        assert "Lantern ladder" in words(again)
        assert "is done" not in words(again)
        step = today.day_plan(log, anna.id, this_day()).step
        assert step is not None
        asked = query_of(again, "Clock and score")
        assert (asked["member"], asked["piece"], asked["session"]) == (anna.id, ladder.id, step.id)
    page = show(log, "conditioning", **asked)
    assert page.selectbox(key="kept_piece").value == ladder.id
    tap(page, "clock_start")
    tap(page, "clock_away")  # leads back to the day, to the same session
    assert page.title[0].value == "Squat, week 2"
    assert page.query_params["session"] == step.id
    assert "Lantern ladder" in words(page)


def test_without_an_address_too_the_page_of_pieces_opens_on_what_is_open(
    log: Log, anna: MemberRecord, ladder: PieceRow, show: Open
):
    tap(show(log), "log_as_asked")
    page = show(log, "conditioning", anna.id)
    assert page.selectbox(key="kept_piece").value == ladder.id
    tap(page, "clock_start")
    page = show(log, "conditioning", anna.id)
    assert page.selectbox(key="kept_piece").value == ladder.id
    tap(page, "clock_away")
    assert page.title[0].value == "Squat, week 2"


def test_from_the_score_on_to_the_rating_and_to_what_is_next(
    log: Log, anna: MemberRecord, ladder: PieceRow, show: Open
):
    asked = query_of(tap(show(log), "log_as_asked"), "Clock and score")
    page = show(log, "conditioning", **asked)
    next(each for each in page.get("button_group") if each.key.endswith("_way")).set_value("In words").run()
    next(each for each in page.text_input if each.key.endswith("_words")).set_value("through the 9s").run()
    tap(page, "score_log")
    back = query_of(page, "Back to the day: how was the session?")
    at = show(log, "today", **back)
    assert "All of Squat, week 2 is done" in words(at)
    step = today.day_plan(log, anna.id, this_day()).step
    at.button_group(key=f"rate_{step.id}").set_value(7).run()  # a touch on the number logs it
    assert "Saved: Squat, week 2 was 7 of 10" in words(at)
    assert today.day_plan(log, anna.id, this_day()).session.rating == 7
    assert "Squat, week 3" in words(at)
    tap(at, "menu_begin")
    for again in (at, show(log)):  # and after a reload
        assert again.title[0].value == "Squat, week 3"
        assert "Done: 5 × 70 kg" in labels(again)
    assert "All of Squat, week 3 is done" in words(tap(at, "log_as_asked"))


def test_what_was_missed_stands_beside_and_is_done_now_or_left_out(
    log: Log, anna: MemberRecord, ladder: PieceRow, show: Open
):
    at = show(log)
    assert at.title[0].value == "Squat, week 2"
    assert "Missed" in [each.value for each in at.header]
    old = today.day_plan(log, anna.id, this_day()).missed[0]
    tap(at, f"missed_now_{old.id}")
    for again in (at, show(log, session=old.id)):
        assert again.title[0].value == "Squat, week 1"
    tap(at, "frame_undo")
    assert at.title[0].value == "Squat, week 2"
    tap(at, f"missed_skip_{old.id}")
    assert "Missed" not in [each.value for each in at.header]
    assert today.steps(log, anna.id)[0].state == "skipped"


def test_that_was_it_ends_the_session_and_it_can_be_gone_on_with(log: Log, anna: MemberRecord, show: Open):
    lift = people.add_lift(log, "back squat", "barbell")
    with log.act("a wave", anna.id) as act:
        steps = [NewStep("Squat", 0, [NewPlannedSet(lift.id, 3, 5, load=Mass(Decimal(70), "kg"))])]
        log_waves.start_wave(act, anna.id, log_waves.add_wave(act, "Spring", steps), this_day())
    at = tap(show(log), "log_as_asked")
    at.session_state["session_menu"] = True
    tap(at.run(), "menu_finish")
    for again in (at, show(log)):
        assert "ended with what was done" in words(again)
        assert "log_as_asked" not in [each.key for each in again.button]
    tap(at, "menu_go_on")
    assert "Set 2 of 3" in words(at)


def test_a_body_mass_that_came_with_a_set_goes_with_it(log: Log, anna: MemberRecord, show: Open):
    people.add_lift(log, "pull-up", "body")
    at = show(log)
    key = next(each.key for each in at.text_input if each.key.endswith("_body"))
    tap(at, key.replace("_body", "_hint"))
    at.text_input(key=key).set_value("81,5")
    at.number_input(key=key.replace("_body", "_reps")).set_value(0)
    tap(at, key.replace("_body", "_log"))
    assert people.body_masses(log, anna.id) == ()
    at.number_input(key=key.replace("_body", "_reps")).set_value(4)
    tap(at, key.replace("_body", "_log"))
    assert [str(mass) for _, mass in people.body_masses(log, anna.id)] == ["81.5 kg"]
    tap(at, "frame_undo")
    assert people.body_masses(log, anna.id) == ()
    assert not today.day_plan(log, anna.id, this_day()).sets


def test_a_note_that_is_too_long_is_refused_and_still_stands_in_its_field(log: Log, anna: MemberRecord, show: Open):
    lift = people.add_lift(log, "back squat", "barbell")
    row = log_set.log_set(log, anna.id, this_day(), NewSet(lift.id, Mass(Decimal(70), "kg"), 5))
    at = show(log)
    note = at.text_area(key=f"end_{row.session_id}_note").set_value("x" * 2001)
    next(each for each in at.button if each.label == "Save").click().run()
    assert "2,001 letters" in words(at)
    assert note.value == at.text_area(key=f"end_{row.session_id}_note").value == "x" * 2001
    assert today.day_plan(log, anna.id, this_day()).session.note == ""


def test_a_test_takes_attempts_until_the_member_ends_it_and_leads_on_to_the_piece(
    log: Log, anna: MemberRecord, show: Open
):
    lift = people.add_lift(log, "back squat", "barbell")
    log_set.log_set(log, anna.id, this_day() - timedelta(days=3), NewSet(lift.id, Mass(Decimal(100), "kg"), 1))
    with log.act("a wave", anna.id) as act:
        steps = [NewStep("Test", 0, [NewPlannedSet(lift.id, 1, 1, test=True)])]
        log_waves.start_wave(act, anna.id, log_waves.add_wave(act, "Test", steps), this_day())
    put_into_step(log, today.steps(log, anna.id)[0].step_id, conditioning.add_piece(log, LADDER).id)
    at = show(log)
    assert "Attempt 1: back squat" in words(at)
    assert "end_test" not in [each.key for each in at.button]

    def attempt(load: str, *, made: bool) -> None:
        def of(kind: str, ending: str):
            return next(each for each in at.get(kind) if each.key.startswith("line_") and each.key.endswith(ending))

        if load in at.button(key="attempt_made").label:  # as proposed: one touch
            tap(at, "attempt_made" if made else "attempt_missed_0")
            return
        tap(at, "change_it")
        of("text_input", "_load").set_value(load).run()
        if not made:
            of("button_group", "_outcome").set_value("missed").run()
            assert of("number_input", "_reps").value == 0  # a missed single made none
        tap(at, of("button", "_log").key)

    assert "Safety arms or a spotter?" in words(at)
    assert "attempt_made" not in [each.key for each in at.button]  # asked first
    tap(at, "safety_arms")
    assert "just below the lowest point" in words(at)
    for load, made in (("105", True), ("110", True), ("112.5", False), ("112.5", False)):
        attempt(load, made=made)
    made, missed = at.button(key="attempt_made"), at.button(key="attempt_missed_0")
    assert (made.label, missed.label) == ("Made: 1 × 112.5 kg", "Missed: 112.5 kg")
    assert "Attempt 5: back squat" in words(at)
    assert "So far: 1 × 105 kg; 1 × 110 kg; 112.5 kg, the 1st missed; 112.5 kg, the 1st missed" in words(at)
    assert "Two attempts missed" in words(at)
    at = show(log)  # after a reload the test is still on
    tap(at, "end_test")
    assert "Tested 1RM: 110 kg. Missed: 112.5 kg, 112.5 kg." in words(at)
    for again in (at, show(log)):
        assert "Next: the piece" in words(again)
        assert "What next?" not in words(again)  # the wave is over when its last piece is
    kinds = [(str(row.load.amount), row.outcome, row.kind) for row in today.day_plan(log, anna.id, this_day()).sets]
    assert kinds == [
        ("105", "done", "work"),
        ("110", "done", "test"),
        ("112.5", "missed", "test"),
        ("112.5", "missed", "test"),
    ]


def test_a_piece_that_was_left_open_yesterday_is_done_now_or_left_out(log: Log, show: Open):
    gym = Gym(log)
    gym.plan("Old", -1, pieces=("Quay",))
    gym.do("Old", days=-1)
    at = show(log, "today", gym.who)
    assert "its piece is still open" in words(at)
    labels = {each.label: each.key for each in at.button}
    tap(at, labels["Do it now"])
    assert "Next piece: Quay" in words(at) or "Quay" in words(at)
    undo_newest(log, gym.who)
    at = show(log, "today", gym.who)
    tap(at, {each.label: each.key for each in at.button}["Leave it out"])
    assert "its piece is still open" not in words(at)


def test_a_warm_up_can_be_left_out_on_the_page(log: Log, show: Open):
    gym = Gym(log)
    gym.plan("Now", text=WARM_UP)
    at = tap(show(log, "today", gym.who), "warm_up_out")
    assert "Warm-up: left out" in [each.label for each in at.expander]


def test_a_session_from_memory_is_one_touch_then_asks_how_hard_and_how_long(log: Log, show: Open):
    gym = Gym(log)
    gym.plan("Now", sets=5)
    at = show(log, "today", gym.who)
    tap(at, "all_as_planned")
    assert "Logged Now as planned: 5 sets" in words(at)
    assert 'class="rest"' not in words(at)
    step = gym.step("Now").id
    at.number_input(key=f"rate_{step}_minutes").set_value(55).run()
    next(each for each in at.get("button_group") if each.key == f"rate_{step}").set_value(7).run()
    assert not at.exception
    (row,) = [entry.session for entry in journal.sessions(log, gym.who)]
    assert (row.rating, row.minutes) == (7, 55)


def test_done_yesterday_as_planned_goes_on_there_and_leaves_today_alone(log: Log, show: Open):
    gym = Gym(log)
    gym.plan("Saturday", pieces=("Quay",))
    at = tap(opened(show(log, "today", gym.who), "session_menu"), "menu_yesterday")
    assert at.query_params["day"] == (gym.day - timedelta(days=1)).isoformat()
    assert "Date: **yesterday**" in words(at)
    assert "Quay" in words(at)
