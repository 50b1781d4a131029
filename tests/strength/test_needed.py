"""What would be needed now is the chance of a set turned round."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tracker.errors import BadInputError
from tracker.strength.estimator import LiftModel
from tracker.strength.needed import load_for, reps_with
from tracker.strength.records import SetRecord

DAY = date(2026, 3, 2)


@pytest.fixture(scope="module")
def model():
    return LiftModel.of([SetRecord(DAY - timedelta(weeks=week), 80.0, 5, 2) for week in range(8)])


@pytest.mark.parametrize("reps", [1, 3, 5, 12])
@pytest.mark.parametrize("chance", [0.05, 0.5, 0.8, 0.99])
def test_the_load_has_just_that_chance(model, reps, chance):
    load = load_for(model, reps, chance, DAY)
    assert model.chance(load, reps, day=DAY) == pytest.approx(chance, abs=1e-6)


def test_more_repetitions_or_more_chance_want_less_load(model):
    loads = [load_for(model, reps, 0.8, DAY) for reps in range(1, 13)]
    assert loads == sorted(loads, reverse=True)
    assert load_for(model, 3, 0.9, DAY) < load_for(model, 3, 0.8, DAY)


def test_repetitions_and_load_agree(model):
    for reps in (1, 3, 5, 8):
        load = load_for(model, reps, 0.8, DAY)
        assert reps_with(model, load * 0.9999, 0.8, DAY) == reps
        assert reps_with(model, load * 1.0001, 0.8, DAY) == reps - 1
    assert reps_with(model, 1.0, 0.8, DAY) == 12
    assert reps_with(model, 500.0, 0.8, DAY) == 0


def test_what_cannot_be_answered_is_refused(model):
    for reps, chance in ((0, 0.8), (13, 0.8), (3, 0.0), (3, 1.0), (3, float("nan"))):
        with pytest.raises(BadInputError):
            load_for(model, reps, chance, DAY)
    for load in (0.0, -5.0, float("nan")):
        with pytest.raises(BadInputError):
            reps_with(model, load, 0.8, DAY)
