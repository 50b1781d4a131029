"""What a test would tell: more the less is known, never more than there is, and as much as tests that are drawn do tell."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from tracker.strength.bands import shape_of
from tracker.strength.estimator import LiftModel
from tracker.strength.records import SetRecord
from tracker.strength.when_to_test import QUIET_DAYS, quiet_until, would_tell

DAY = date(2026, 3, 2)


def lift(rir):
    return LiftModel.of([SetRecord(DAY - timedelta(weeks=week), 80.0, 5, rir) for week in range(12)])


@pytest.fixture(scope="module")
def told():
    return lift(1)


@pytest.fixture(scope="module")
def silent():
    return lift(None)


def test_a_test_tells_more_where_less_is_known_and_more_the_longer_one_waits(told, silent):
    known, unknown = would_tell(told, 5, 2.5, DAY), would_tell(silent, 5, 2.5, DAY)
    assert [each.day for each in known] == [DAY + timedelta(weeks=week) for week in (0, 4, 8, 12)]
    for sure, unsure in zip(known, unknown, strict=True):
        assert unsure.moves > sure.moves > 0
        assert 0 < sure.narrows < unsure.narrows < 1
    assert known[-1].narrows > known[0].narrows


def test_it_tells_as_much_as_a_drawn_test_does(silent):
    """Draws members from the belief, lets each test in steps of 2.5 kg, and reads the result with the whole model."""
    (asked,) = would_tell(silent, 5, 2.5, DAY + timedelta(days=3), (0,))
    shape, dice = shape_of(silent.belief(asked.day)), np.random.default_rng(8)
    widths, moves = [], []
    for _ in range(60):
        part = dice.choice(len(shape.weight), p=shape.weight)
        level = dice.normal(shape.mean[part], np.sqrt(shape.var[part])) + dice.normal(0, silent.parameters.form_sd)
        made = float(np.floor(np.exp(level) / 2.5) * 2.5)
        tests = (
            SetRecord(asked.day, made, 5, kind="test", order=0),
            SetRecord(asked.day, made + 2.5, 4, outcome="missed", kind="test", order=1),
        )
        records = [each for day in silent.days for each in day.records]
        band = silent.renewed([*records, *tests]).estimate(asked.day).rep_max[5]
        widths.append(band.high80 - band.low80)
        moves.append(band.estimate - asked.without.estimate)
    assert np.mean(widths) == pytest.approx(asked.width, rel=0.2)
    assert np.sqrt(np.mean(np.square(moves))) == pytest.approx(asked.moves, rel=0.3)


def test_three_weeks_after_a_test_are_quiet():
    until = quiet_until([DAY - timedelta(days=90), DAY], DAY)
    assert until == DAY + timedelta(days=QUIET_DAYS + 1)
    assert quiet_until([DAY], DAY + timedelta(days=QUIET_DAYS)) == until
    assert quiet_until([DAY], until) is None
    assert quiet_until([], DAY) is None
    assert quiet_until([DAY + timedelta(days=1)], DAY) is None  # nothing that is yet to come
