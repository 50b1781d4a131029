"""After a wave: the day's page offers what may follow with its reason, and does nothing unasked."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.pages.conftest import Open, words
from tracker.desk.day import today, training
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.keeper import Log
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass


@pytest.fixture
def finished(log: Log):
    """A member who has just done a wave of one session, two in reserve each time."""
    member = people.add_member(log, "Anna")
    lift = people.add_lift(log, "back squat", "barbell")
    load = Mass(Decimal(100), "kg")
    training.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=20), 5, load, tested=True)
    training.log_set(log, member.id, this_day() - timedelta(days=3), NewSet(lift.id, Mass(Decimal(80), "kg"), 5))
    with log.act("a wave", member.id) as act:
        step = NewStep("Squat", 0, [NewPlannedSet(lift.id, 1, 5, percent=Decimal(70), of_reps=5)])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, "Spring", [step]), this_day())
    line = today.day_plan(log, member.id, this_day()).lines[0]
    new = NewSet(
        lift.id, line.made.load, 5, Decimal(2), planned_set_id=line.planned.id, planned_round=1,
        member_step_id=line.step_id,
    )  # fmt: skip
    training.log_set(log, member.id, this_day(), new)
    return member


def test_offers_stand_with_reason_and_source_and_nothing_has_happened(log, finished, show: Open):
    at = show(log, "today", finished.id)
    said = words(at)
    assert "Spring is over" in said
    assert "Raise by 2 to 10 %" in said
    assert "American College of Sports Medicine" in said
    assert all(step.state == "done" for step in today.steps(log, finished.id))


def test_one_touch_starts_the_wave_again_and_undo_takes_it_back(log, finished, show: Open):
    at = show(log, "today", finished.id)
    next(each for each in at.button if each.key.startswith("wave_end_again")).click().run()
    assert not at.exception
    (step,) = today.steps(log, finished.id)
    assert (step.state, step.due) == ("planned", this_day() + timedelta(days=7))
    assert "Spring is over" not in words(at)
    at.button(key="frame_undo").click().run()
    assert "Spring is over" in words(at)
