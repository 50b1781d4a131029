"""Lifts that a coach has done in turn: set by set on the day, no rest within a round."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set, today
from tracker.desk.day.in_turn import goes_on_at_once
from tracker.desk.day.next import whats_next
from tracker.desk.sheet import sheets
from tracker.log.sets import NewSet
from tracker.pocket.plan import plan_of

SHEET = "A1. Bench press 3x5 @ 60 kg, rest 2:00\nA2. Barbell row 2x8 @ 50 kg\nB. Curl, barbell 2x10 @ 20 kg"


@pytest.fixture
def session(log, ana):
    sheets.take_sheet(log, [ana.id], SHEET, this_day())
    return ana


def order(log, member):
    return [(line.lift.name, line.number) for line in today.day_plan(log, member.id, this_day()).lines]


def test_the_sets_of_a_superset_stand_in_turn_and_the_other_lift_behind_them(log, session):
    assert order(log, session) == [
        ("bench press", 1), ("bent over row", 1), ("bench press", 2), ("bent over row", 2), ("bench press", 3), ("biceps curl", 1), ("biceps curl", 2),
    ]  # fmt: skip


def test_the_next_set_is_of_the_other_lift_and_the_rest_comes_at_the_end_of_the_round(log, session):
    found = whats_next(log, session.id, this_day())
    assert (found.title, found.which) == ("bench press, barbell", "set 1 of 3, in turn")
    line = found.line
    assert line is not None
    assert goes_on_at_once(line, found.plan.lines)
    for load, reps, rests in (("60", 5, False), ("50", 8, True), ("60", 5, False)):
        line = whats_next(log, session.id, this_day()).line
        assert line is not None
        new = NewSet(
            line.lift.id, kg(load), reps, planned_set_id=line.planned.id, planned_round=line.number, member_step_id=line.step_id,
        )  # fmt: skip
        log_set.log_set(log, session.id, this_day(), new, sure=True)
        assert (whats_next(log, session.id, this_day()).plan.rest is not None) is rests, load


def test_a_phone_takes_the_same_order_along_and_rests_at_the_end_of_a_round(log, session):
    lines = plan_of(log, session.id, this_day())["sessions"][0]["lines"]
    assert [(line["title"].split(",")[0], line["rest_s"] == 0) for line in lines][:5] == [
        ("bench press", True), ("bent over row", False), ("bench press", True), ("bent over row", False), ("bench press", False),
    ]  # fmt: skip
    assert len({line["turn"] for line in lines[:5]}) == 1
    assert [line["turn"] for line in lines[5:]] == [None, None]
