"""A load that was changed stands on the next card too, and a lift is ended at any of its sets, each by one touch."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, tap, words
from tests.pages.squats import done, squatting
from tracker.desk.day import log_set, today
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log


@pytest.fixture
def viggo(log: Log) -> MemberRecord:
    return squatting(log, "Viggo")


def do(log: Log, member: MemberRecord, load: str) -> None:
    line = today.day_plan(log, member.id, this_day()).next_line
    assert line is not None
    new = NewSet(
        line.lift.id,
        kg(load),
        5,
        planned_set_id=line.planned.id,
        planned_round=line.number,
        member_step_id=line.step_id,
    )
    log_set.log_set(log, member.id, this_day(), new)


def test_less_goes_on_and_what_was_asked_is_one_touch_away(log: Log, viggo: MemberRecord, show: Open):
    do(log, viggo, "65")
    at = show(log)
    assert at.button(key="log_as_asked").label == "Done: 5 × 65 kg"
    assert "70 kg was asked; you went on with 65 kg." in words(at)
    tap(at, "carry_on")
    assert at.button(key="log_as_asked").label == "Done: 5 × 70 kg"


def test_more_is_asked_about_and_a_lift_is_ended_at_any_set(log: Log, viggo: MemberRecord, show: Open):
    do(log, viggo, "75")
    at = show(log)
    assert at.button(key="log_as_asked").label == "Done: 5 × 70 kg"
    assert at.button(key="carry_on").label == "Go on with 75 kg"
    tap(at, "carry_on")
    assert at.button(key="log_as_asked").label == "Done: 5 × 75 kg"
    tap(at, "enough_of_it")
    assert "Back squat is ended for today." in words(at)
    assert len(done(log, viggo.id)) == 1
    lift = today.day_plan(log, viggo.id, this_day()).sets[0].lift
    tap(at, f"go_on_{lift.id}")
    assert today.day_plan(log, viggo.id, this_day()).next_line is not None
