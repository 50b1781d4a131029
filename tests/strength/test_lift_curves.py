"""A lift's own prior of the curve, held against what is published of it."""

from __future__ import annotations

from datetime import date
from math import log

import pytest

from tracker.strength.curve import Curve
from tracker.strength.estimator import LiftModel
from tracker.strength.lift_curves import parameters_of
from tracker.strength.parameters import DEFAULT
from tracker.strength.records import SetRecord


def to_failure(lift: str, percent: float) -> float:
    """Whole repetitions at a share of the 1RM: the curve stands half a repetition further on than what is made."""
    curve = Curve.through(parameters_of(lift).curve_at_eight, 8, 1.0)
    return float(curve.reps(-log(percent / 100))) - 0.5


def test_a_leg_press_has_the_repetitions_that_are_cited_of_it():
    """Nuzzo et al. 2024: 13.1 at 80 %, 19.0 (14.2 to 25.5) at 70 % (cited); more than the bench press (published)."""
    assert to_failure("leg press, machine", 80) == pytest.approx(13.1, abs=0.1)
    assert 14.2 < to_failure("Leg press", 70) < 25.5
    assert to_failure("leg press", 80) > to_failure("bench press", 80)


def test_bench_press_and_squat_lie_within_what_is_known_of_them():
    """Bench 8.8 (7.7 to 10.1) at 80 % (cited); squat 16 +- 4 at 70 % (Zourdos et al. 2021, published)."""
    assert 7.7 < to_failure("bench press, barbell", 80) < 10.1
    assert 12 < to_failure("back squat, barbell", 70) < 20
    assert parameters_of("back squat, barbell") is DEFAULT


def test_twelve_repetitions_of_a_leg_press_promise_less_than_those_of_a_bench_press():
    sets = [SetRecord(date(2026, 1, 5), 100, 12, outcome="missed")]
    bench, press = (LiftModel.of(sets, parameters_of(lift)).estimate(sets[0].day) for lift in ("bench", "leg press"))
    assert press.one_rm.estimate < 0.95 * bench.one_rm.estimate
    assert press.rep_max[12].estimate == pytest.approx(bench.rep_max[12].estimate, rel=0.01)
