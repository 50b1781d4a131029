"""The trial of curves pooled over lifts: its people are what they are called, and its prior is the normal one given another."""

from __future__ import annotations

from dataclasses import replace
from math import log, sqrt

import numpy as np
import pytest

from tracker.strength.backtest import pooled
from tracker.strength.estimator import LiftModel
from tracker.strength.grid import grid_of
from tracker.strength.parameters import DEFAULT


@pytest.mark.parametrize("alike", [0.0, pooled.ALIKE])
def test_lifts_of_one_person_share_a_part_of_the_curve(alike: float):
    drops: list[tuple[float, float]] = []
    for number in range(1500):
        rng = np.random.default_rng([3, number])
        drops.append(pooled._two_lifts(rng, alike)[2])
    together = np.corrcoef(np.array(drops).T)[0, 1]
    assert together == pytest.approx(alike, abs=4 * (1 - alike**2) / sqrt(1500))


def test_people_are_the_same_from_the_same_seed_and_both_rep_maxes_are_asked_of_the_same_sets():
    one, again = next(pooled.invent(1, 5)), next(pooled.invent(1, 5))
    assert one == again
    five, ten = one.second
    assert five.records == ten.records
    assert (five.reps, ten.reps) == pooled.ASKED
    assert all(ten.truth[day] < five.truth[day] for day in five.truth)
    assert {record.reps for record in five.records if record.outcome == "done"} == {5}
    assert {1, 3, 5, 8, 10} <= {record.reps for record in one.first}


def test_the_prior_is_the_conditional_normal_of_two_that_correlate():
    middle, own = log(DEFAULT.curve_at_eight), DEFAULT.steepness_sd
    nothing = pooled.given(middle, own**2)  # nothing was learnt of the other lift
    assert nothing.curve_per_rep == pytest.approx(DEFAULT.curve_per_rep)
    assert nothing.steepness_sd == pytest.approx(own)
    sure = pooled.given(middle + 0.2, 0.0)
    assert log(sure.curve_at_eight) == pytest.approx(middle + pooled.ALIKE * 0.2)
    assert sure.steepness_sd == pytest.approx(own * sqrt(1 - pooled.ALIKE**2))


def test_steepness_of_a_belief_is_read_in_logarithms():
    pair = next(pooled.invent(1, 5))
    mean, var = pooled.steepness(LiftModel.of(pair.first).days[-1].belief)
    assert abs(mean - log(DEFAULT.curve_at_eight)) < 3 * DEFAULT.steepness_sd
    assert 0 < var < DEFAULT.steepness_sd**2
    one = replace(DEFAULT, steepness=(1.0,), shapes=(1.0,), shape_weights=(1.0,))
    assert len(grid_of(one).curves) == 1
    alone = pooled.steepness(LiftModel.of(pair.first, one).days[-1].belief)
    assert alone == pytest.approx((log(DEFAULT.curve_at_eight) + DEFAULT.steepness_sd, 0), abs=1e-9)
