"""Strength on a clock: the rest is what the clock leaves, and the clock is the coach's interval."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import log_set, on_clock, resting, today
from tracker.desk.day.today import DayPlan
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.models import LiftedSet
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.pocket.plan import plan_of


@pytest.fixture
def jorunn(log: Log) -> MemberRecord:
    member = people.add_member(log, "Jorunn")
    lift = people.add_lift(log, "deadlift", "barbell")
    rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=7), 2, kg(130), tested=True)
    sheets.take_sheet(log, [member.id], "Deadlift every 2:00 x 5: 2 @ 85 % of 2RM\n\nDeadlift 2x8 @ 60 kg", this_day())
    return member


def plan(log: Log, member: MemberRecord) -> DayPlan:
    return today.day_plan(log, member.id, this_day())


def set_done(log: Log, member: MemberRecord, after_s: int, began: datetime) -> None:
    """Log the next set as touched so many seconds after a moment."""
    line = plan(log, member).next_line
    assert line is not None
    new = NewSet(
        line.lift.id, kg(110), line.reps, planned_set_id=line.planned.id, planned_round=line.number, member_step_id=line.step_id
    )  # fmt: skip
    row = log_set.log_set(log, member.id, this_day(), new, sure=True)
    with log.act("moves the touch") as act:
        found = act.session.get(LiftedSet, row.id)
        assert found is not None
        found.logged_at = began + timedelta(seconds=after_s)


def start(log: Log, member: MemberRecord) -> datetime:
    line = plan(log, member).next_line
    assert line is not None
    on_clock.start(log, member.id, line.step_id, line.lift.id, this_day())
    clock = plan(log, member).clock
    assert clock is not None
    assert clock.started is not None
    return clock.started


def test_the_interval_is_read_from_the_sheet_and_the_clock_is_offered(log: Log, jorunn: MemberRecord):
    clock = plan(log, jorunn).clock
    assert clock is not None
    assert (clock.every_s, clock.sets, clock.started) == (120, 5, None)
    assert clock.words == "every 2:00, 5 sets"


def test_without_the_clock_the_rest_is_about_what_the_interval_leaves(log: Log, jorunn: MemberRecord):
    set_done(log, jorunn, 0, datetime.now(UTC))
    rest = plan(log, jorunn).rest
    assert rest is not None
    assert rest.source == "clock"
    assert rest.seconds == 110  # 2:00 less two repetitions of some five seconds
    assert "every 2:00" in rest.words


def test_with_the_clock_the_rest_ends_with_the_interval(log: Log, jorunn: MemberRecord):
    began = start(log, jorunn)
    set_done(log, jorunn, 21, began)
    rest = plan(log, jorunn).rest
    assert rest is not None
    assert rest.ends == began + timedelta(seconds=120)
    assert rest.seconds == 99
    # A set that went into the next interval starts with the one after it.
    set_done(log, jorunn, 250, began)
    rest = plan(log, jorunn).rest
    assert rest is not None
    assert rest.ends == began + timedelta(seconds=360)


def test_after_the_last_set_on_the_clock_and_beside_it_rest_is_as_ever(log: Log, jorunn: MemberRecord):
    began = start(log, jorunn)
    for number in range(5):
        set_done(log, jorunn, 120 * number + 20, began)
    found = plan(log, jorunn)
    assert found.rest is not None
    assert (found.rest.source, found.rest.seconds) == ("usual", 180)
    assert found.clock is None


def test_a_clock_that_was_started_by_mistake_is_taken_back(log: Log, jorunn: MemberRecord):
    start(log, jorunn)
    undo_newest(log, jorunn.id)
    clock = plan(log, jorunn).clock
    assert clock is not None
    assert clock.started is None


def test_it_is_started_anew_and_the_newest_start_holds(log: Log, jorunn: MemberRecord):
    first = start(log, jorunn)
    assert start(log, jorunn) >= first


def test_a_phone_s_plan_has_the_interval_and_its_rest(log: Log, jorunn: MemberRecord):
    first, *_, last = plan_of(log, jorunn.id, this_day())["sessions"][0]["lines"]
    assert (first["rest_s"], first["every_s"]) == (110, 120)
    assert (last["rest_s"], last["every_s"]) == (120, None)


def test_a_rest_of_the_members_own_stays_for_sets_beside_the_clock(log: Log, jorunn: MemberRecord):
    line = plan(log, jorunn).next_line
    assert line is not None
    resting.rest_for(log, jorunn.id, line.lift.id, 60)
    set_done(log, jorunn, 0, datetime.now(UTC))
    rest = plan(log, jorunn).rest
    assert rest is not None
    assert rest.source == "clock"
