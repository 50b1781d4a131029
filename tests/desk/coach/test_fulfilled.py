"""A result that a member sends fulfils the session that was planned for them, so that nobody is asked for it again."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from tests.day import this_day
from tests.desk.ladders import LADDER, TIMED
from tests.loads import kg
from tests.readings import newest
from tests.with_pieces import put_into_step
from tracker.conditioning.words import parse_score
from tracker.desk.coach.give_back import take_back
from tracker.desk.coach.take_results import take_file, take_results
from tracker.desk.day import log_set, today
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.exchange.result import Result, ResultSet
from tracker.exchange.result_file import write_file
from tracker.exchange.result_line import write_line
from tracker.log import waves as log_waves
from tracker.log.waves import NewPlannedSet, NewStep

AS_OF = datetime(2026, 3, 2, 18, tzinfo=UTC)


def lifted(lift, *loads, held="barbell", **more):
    return tuple(ResultSet(lift, held, kg(load), 3, **more) for load in loads)


@pytest.fixture
def planned(log, ana):
    """Ana's session of today in the coach's log: five squats, two presses, a ladder; another one in a week."""
    squat, press = (people.add_lift(log, name, "barbell") for name in ("back squat", "press"))
    sets = [
        NewPlannedSet(squat.id, 2, 3, load=kg("60")), NewPlannedSet(squat.id, 3, 3, load=kg("80")),
        NewPlannedSet(press.id, 2, 3, load=kg("40"), block=1),
    ]  # fmt: skip
    with log.act("a wave") as act:
        wave = log_waves.add_wave(act, "Tide", [NewStep("Squat and press", 0, sets), NewStep("Squat again", 7, sets)])
        log_waves.start_wave(act, ana.id, wave, this_day())
    ladder = conditioning.add_piece(log, LADDER)
    put_into_step(log, today.steps(log, ana.id)[0].step_id, ladder.id)
    return ana


SQUATS, PRESSES = lifted("back squat", "60", "60", "80", "80", "80"), lifted("press", "40", "40")


@pytest.fixture
def score():
    return parse_score(LADDER, this_day(), "through the 9s")


@pytest.fixture
def everything(score):
    return Result("Ana", this_day(), AS_OF, (*SQUATS, *PRESSES), (score,), 7, 55)


def plan(log, member, day=None):
    return today.day_plan(log, member.id, day or this_day())


@pytest.mark.parametrize("way", ["line", "file"])
def test_a_result_of_the_day_fulfils_the_session_and_says_so(log, planned, way, everything):
    taken = (
        take_results(log, write_line(everything))
        if way == "line"
        else take_file(log, "ana.json", write_file(everything))
    )
    day = plan(log, planned)
    assert (day.step.title, day.step.state, day.next_line, day.whole) == ("Squat and press", "done", None, True)
    assert [line.done.load for line in day.lines] == [kg(each) for each in (60, 60, 80, 80, 80, 40, 40)]
    assert taken.taken[0].fulfils == "fulfils Squat and press"
    assert "a session fulfilled" in taken.words
    take_back(log, taken)
    assert (plan(log, planned).step.state, plan(log, planned).next_line.number) == ("planned", 1)


def test_the_same_result_again_fulfils_nothing_twice(log, planned, everything):
    take_results(log, write_line(everything))
    before = newest(log)
    again = take_results(log, write_line(everything))
    assert (again.taken[0].changed, again.acts, newest(log)) == (False, (), before)
    assert again.taken[0].fulfils == "fulfils Squat and press"


def test_a_result_with_less_in_it_fulfils_what_it_holds_and_says_what_is_left(log, planned, score):
    taken = take_results(log, write_line(Result("Ana", this_day(), AS_OF, SQUATS[:4])))
    assert taken.taken[0].fulfils == "4 of 7 sets of Squat and press"
    day = plan(log, planned)
    assert (day.step.state, day.next_line.planned.position, day.next_line.number) == ("planned", 1, 3)
    newer = Result("Ana", this_day(), AS_OF + timedelta(hours=1), (*SQUATS[:4], *SQUATS[4:], *PRESSES), (score,))
    assert take_results(log, write_line(newer)).taken[0].fulfils == "fulfils Squat and press"


def test_sets_without_the_piece_say_that_it_is_open(log, planned):
    taken = take_results(log, write_line(Result("Ana", this_day(), AS_OF, (*SQUATS, *PRESSES))))
    assert taken.taken[0].fulfils == "all sets of Squat and press, without its piece"
    assert [row.piece.title for row in plan(log, planned).open_pieces] == ["Lantern ladder"]


def test_another_day_another_lift_or_another_piece_fulfils_nothing(log, planned):
    conditioning.add_piece(log, TIMED)
    other = parse_score(TIMED, this_day(), "4:10")
    for result in (
        Result("Ana", this_day() - timedelta(days=1), AS_OF, SQUATS),
        Result("Ana", this_day(), AS_OF, lifted("front squat", "60", "60")),
        Result("Ana", this_day(), AS_OF, lifted("back squat", "30", held="dumbbells"), (other,)),
    ):
        taken = take_results(log, write_line(result))
        assert (taken.broken, taken.taken[0].fulfils) == ((), "")
    day = plan(log, planned)
    assert (day.step.state, day.next_line.number, len(day.open_pieces)) == ("planned", 1, 1)


def test_what_the_coach_logged_by_hand_stays_and_the_result_fills_the_rest(log, planned, everything):
    line = plan(log, planned).lines[0]
    from tracker.log.sets import NewSet

    new = NewSet(
        line.lift.id, kg("60"), 3, planned_set_id=line.planned.id, planned_round=1, member_step_id=line.step_id
    )
    log_set.log_set(log, planned.id, this_day(), new)
    take_results(log, write_line(everything))  # holds the same first set, which is known
    assert (plan(log, planned).step.state, len(plan(log, planned).sets)) == ("done", 7)


def test_a_session_of_nothing_but_a_piece_is_fulfilled_by_its_score(log, ana, score):
    row = conditioning.add_piece(log, LADDER)
    with log.act("a wave") as act:
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Pieces", [NewStep("Ladder day", 0, [])]), this_day())
    put_into_step(log, today.steps(log, ana.id)[0].step_id, row.id)
    taken = take_results(log, write_line(Result("Ana", this_day(), AS_OF, (), (score,))))
    assert taken.taken[0].fulfils == "fulfils Ladder day"
    assert today.steps(log, ana.id)[0].state == "done"


def test_the_attempts_of_a_test_end_it(log, ana):
    squat = people.add_lift(log, "back squat", "barbell")
    with log.act("a wave") as act:
        steps = [NewStep("Test", 0, [NewPlannedSet(squat.id, 1, 1, test=True)])]
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Test", steps), this_day())
    sets = (
        ResultSet("back squat", "barbell", kg("100"), 1), ResultSet("back squat", "barbell", kg("105"), 1, kind="test"),
        ResultSet("back squat", "barbell", kg("110"), 0, outcome="missed", kind="test"),
    )  # fmt: skip
    assert take_results(log, write_line(Result("Ana", this_day(), AS_OF, sets))).taken[0].fulfils == "fulfils Test"
    assert (plan(log, ana).next_line, plan(log, ana).step.state) == (None, "done")
    assert len(plan(log, ana).lines[0].attempts) == 3
    kinds = [row.kind for row in plan(log, ana).sets]
    assert kinds == ["work", "test", "test"]


def test_another_implement_that_the_coach_allows_fulfils_its_block(log, ana):
    bar, bells = people.add_lift(log, "back squat", "barbell"), people.add_lift(log, "back squat", "dumbbells")
    sets = [NewPlannedSet(bar.id, 2, 3, load=kg("60")), NewPlannedSet(bells.id, 2, 3, way=1, rule="same")]
    with log.act("a wave") as act:
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Tide", [NewStep("Squat", 0, sets)]), this_day())
    result = Result("Ana", this_day(), AS_OF, lifted("back squat", "20", "20", held="dumbbells"))
    assert take_results(log, write_line(result)).taken[0].fulfils == "fulfils Squat"
    assert today.steps(log, ana.id)[0].state == "done"
