"""The forecast's own record: from nothing that came later, without overlap, and about as often right as it says."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import pytest

from tracker.strength.backtest.athletes import KINDS, invent
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import forecast
from tracker.strength.forecast_record import forecast_record
from tracker.strength.records import SetRecord

MONDAY = date(2026, 1, 5)


def lift(days):
    return tuple(SetRecord(MONDAY + timedelta(days=day), 80.0, 5, 1) for day in days)


def test_each_fourth_week_is_foretold_from_what_was_known_then():
    records = lift(range(0, 161, 7))
    found = forecast_record(LiftModel.of(records), 5)
    assert [(each.day - each.asked).days for each in found.weeks] == [28] * len(found.weeks)
    assert all(later.asked == earlier.day for earlier, later in pairwise(found.weeks))
    assert found.weeks[-1].day == records[-1].day
    first = found.weeks[0]
    alone = LiftModel.of([each for each in records if each.day <= first.asked])
    assert first.band == pytest.approx(forecast(alone, first.asked, 4)[-1].rep_max[5])
    assert found.words == f"Of 5 weeks foretold four weeks ahead with 80 %, {sum(e.held for e in found.weeks)} held."


def test_weeks_after_a_rest_are_left_out_and_so_is_what_is_too_short():
    rested = forecast_record(LiftModel.of(lift([*range(0, 100, 7), *range(140, 240, 7)])), 5)
    assert rested.weeks
    for each in rested.weeks:
        assert not MONDAY + timedelta(days=98) <= each.asked < MONDAY + timedelta(days=140)
    short = forecast_record(LiftModel.of(lift([0, 7])), 5)
    assert (short.weeks, short.tests) == ((), ())
    assert "No week could be foretold yet" in short.words
    few = forecast_record(LiftModel.of(lift(range(0, 70, 7))), 5)
    assert "too few to judge by" in few.words


def test_of_invented_athletes_about_four_in_five_hold_and_tests_too():
    weeks, tests = [], []
    for invented in invent(5, 41, tuple(kind for kind in KINDS if kind.name in ("regular", "two lifts", "rep-outs"))):
        found = forecast_record(LiftModel.of(invented.records), invented.reps)
        weeks += [each.held for each in found.weeks]
        tests += [each.held for each in found.tests]
    assert len(weeks) > 25
    assert len(tests) > 8
    # what hindsight says of a week has the week's own sets in it, as the truth would not: a little oftener within
    assert 0.65 < sum(weeks) / len(weeks) <= 1
    assert 0.6 < sum(tests) / len(tests) <= 1
