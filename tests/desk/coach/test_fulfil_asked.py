"""A result that does not fit a plan cleanly is not laid by itself: the coach is asked, and a touch lays it."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.desk.coach.test_fulfilled import AS_OF, PRESSES, SQUATS, lifted
from tests.desk.ladders import LADDER
from tests.loads import kg
from tracker.conditioning.words import parse_score
from tracker.desk.coach import fulfil_asked
from tracker.desk.coach.take_results import take_results
from tracker.desk.day import today
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.errors import BadInputError
from tracker.exchange.result import Result
from tracker.exchange.result_line import write_line
from tracker.log import waves as log_waves
from tracker.log.waves import NewPlannedSet, NewStep


@pytest.fixture
def tomorrow(log, ana):
    """Ana's session of tomorrow in the coach's log: two squats, two presses, a ladder; another one in nine days."""
    squat, press = (people.add_lift(log, name, "barbell") for name in ("back squat", "press"))
    sets = [NewPlannedSet(squat.id, 2, 3, load=kg("60")), NewPlannedSet(press.id, 2, 3, load=kg("40"), block=1)]
    with log.act("a wave") as act:
        wave = log_waves.add_wave(act, "Tide", [NewStep("Squat and press", 1, sets), NewStep("Squat again", 10, sets)])
        log_waves.start_wave(act, ana.id, wave, this_day())
    conditioning.put_into_step(log, today.steps(log, ana.id)[0].step_id, conditioning.add_piece(log, LADDER).id)
    return ana


def take(log, *sets, scores=()):
    takings = take_results(log, write_line(Result("Ana", this_day(), AS_OF, sets, scores)))
    (taken,) = takings.taken
    return taken


def test_a_session_done_the_day_before_is_asked_about_and_laid_in_a_touch(log, tomorrow):
    taken = take(log, *SQUATS[:2], *PRESSES, scores=(parse_score(LADDER, this_day(), "through the 9s"),))
    assert (taken.fulfils, taken.member_id) == ("", tomorrow.id)
    (ask,) = fulfil_asked.asked(log, tomorrow.id, this_day())
    due = this_day() + timedelta(days=1)
    assert ask.words == (
        f"Squat and press, planned for {due.isoformat()}: 4 of its 4 sets and its piece {LADDER.title}"
    )
    assert fulfil_asked.say_it_was(log, tomorrow.id, this_day(), ask.member_step_id) == "fulfils Squat and press"
    assert next(each for each in today.steps(log, tomorrow.id) if each.id == ask.member_step_id).state == "done"
    assert fulfil_asked.asked(log, tomorrow.id, this_day()) == ()


def test_another_implement_on_the_day_is_asked_about(log, ana):
    squat = people.add_lift(log, "back squat", "barbell")
    with log.act("a wave") as act:
        step = NewStep("Squats", 0, [NewPlannedSet(squat.id, 3, 3, load=kg("60"))])
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Tide", [step]), this_day())
    assert take(log, *lifted("back squat", "20", "20", held="dumbbells")).fulfils == ""
    (ask,) = fulfil_asked.asked(log, ana.id, this_day())
    assert ask.words == "Squats, planned for that day, with another implement: 2 of its 3 sets"
    assert fulfil_asked.say_it_was(log, ana.id, this_day(), ask.member_step_id) == "2 of 3 sets of Squats"
    plan = today.day_plan(log, ana.id, this_day())
    assert plan.next_line is not None
    assert plan.next_line.number == 3


def test_what_fits_is_not_asked_about_and_neither_is_what_fits_nowhere(log, tomorrow):
    take(log, *lifted("bench press", "50"))
    assert fulfil_asked.asked(log, tomorrow.id, this_day()) == ()
    with pytest.raises(BadInputError) as told:
        fulfil_asked.say_it_was(log, tomorrow.id, this_day(), today.steps(log, tomorrow.id)[0].id)
    assert "Nothing of the result fits" in str(told.value)
    with pytest.raises(BadInputError):
        fulfil_asked.say_it_was(log, tomorrow.id, this_day(), "none")


def test_it_is_taken_back_as_any_act(log, tomorrow):
    take(log, *SQUATS[:2])
    (ask,) = fulfil_asked.asked(log, tomorrow.id, this_day())
    fulfil_asked.say_it_was(log, tomorrow.id, this_day(), ask.member_step_id)
    act = journal.acts(log, tomorrow.id)[0]
    assert act.words == f"laid the result of {this_day().isoformat()} against Squat and press"
    journal.undo_act(log, act.act_id)
    assert [each.member_step_id for each in fulfil_asked.asked(log, tomorrow.id, this_day())] == [ask.member_step_id]
