"""After a wave: the day's page offers what may follow with its reason, and does nothing unasked."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.pages.conftest import Open, words
from tracker.desk.day import log_set, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass


@pytest.fixture
def finished(log: Log):
    """A member who has just done the last session of a wave, two in reserve each time."""
    member = people.add_member(log, "Anna")
    lift = people.add_lift(log, "back squat", "barbell")
    load = Mass(Decimal(100), "kg")
    rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=20), 5, load, tested=True)
    log_set.log_set(log, member.id, this_day() - timedelta(days=3), NewSet(lift.id, Mass(Decimal(80), "kg"), 5))
    with log.act("a wave", member.id) as act:
        planned = [NewPlannedSet(lift.id, 1, 5, percent=Decimal(70), of_reps=5)]
        wave = log_waves.add_wave(act, "Spring", [NewStep("Squat", 0, planned), NewStep("Squat again", 7, planned)])
        log_waves.start_wave(act, member.id, wave, this_day() - timedelta(days=7))
    today.skip(log, member.id, today.steps(log, member.id)[0])
    line = today.day_plan(log, member.id, this_day()).lines[0]
    new = NewSet(
        lift.id, line.made.load, 5, Decimal(2), planned_set_id=line.planned.id, planned_round=1,
        member_step_id=line.step_id,
    )  # fmt: skip
    log_set.log_set(log, member.id, this_day(), new)
    return member


def test_offers_stand_with_reason_and_source_and_nothing_has_happened(log, finished, show: Open):
    at = show(log, "today", finished.id)
    said = words(at)
    assert "Spring is over" in said
    assert "Raise by 2 to 10 %" in said
    assert "American College of Sports Medicine" in said
    assert [step.state for step in today.steps(log, finished.id)] == ["skipped", "done"]


def test_one_touch_starts_the_wave_again_and_undo_takes_it_back(log, finished, show: Open):
    at = show(log, "today", finished.id)
    next(each for each in at.button if each.key.startswith("wave_end_again")).click().run()
    assert not at.exception
    step, _ = today.steps(log, finished.id)
    assert (step.state, step.due) == ("planned", this_day() + timedelta(days=7))
    assert "Spring is over" not in words(at)
    at.button(key="frame_undo").click().run()
    assert "Spring is over" in words(at)
