"""Speed of the estimator beside a general reference: statsmodels' local level fitted to the same daily series.

Run on demand: python -m pytest tests/benchmarks/test_strength.py --benchmark-only -n 0 -o addopts="". Compare the rows:
ten years should take at most twice the fit, one session more a twentieth of it, and ten years about ten times one.
"""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest
import statsmodels.api as sm

from tracker.strength.estimator import LiftModel
from tracker.strength.records import SetRecord

START = date(2015, 1, 5)


def history(sessions: int) -> list[SetRecord]:
    """One session of five sets a week, most of them with repetitions in reserve."""
    dice, found = np.random.default_rng(7), []
    for week in range(sessions):
        reach = 4.6 + 0.0008 * week + dice.normal(0, 0.02)
        for order in range(5):
            reps, load = int(dice.integers(3, 7)), 2.5 * round(40 * np.exp(reach - 4.6) * (0.72 + 0.03 * order))
            had = int(1 + (np.exp(reach) / load - 1) / 0.03 + dice.normal(0, 0.3))
            rir = (
                None if dice.uniform() < 0.4 else float(np.clip(round(0.8 * (had - reps) + dice.normal(0, 0.6)), 0, 6))
            )
            missed = had < reps
            found.append(
                SetRecord(START + timedelta(weeks=week), load, max(0, min(had, reps)), None if missed else rir,
                          "missed" if missed else "done", order=order)
            )  # fmt: skip
    return found


def test_reference_fit_of_ten_years_of_days(benchmark):
    weekly = np.log([max(r.load_kg for r in history(520)[5 * w : 5 * w + 5]) for w in range(520)])
    daily = np.full(519 * 7 + 1, np.nan)
    daily[::7] = weekly
    benchmark(lambda: sm.tsa.UnobservedComponents(daily, level="llevel").fit(disp=False))


@pytest.mark.parametrize("years", [1, 3, 10])
def test_whole_history(benchmark, years: int):
    records = history(52 * years)
    benchmark(lambda: LiftModel.of(records).estimate(records[-1].day))


def test_one_session_more_after_ten_years(benchmark):
    records = history(520)
    model = LiftModel.of(records[:-5])
    benchmark(lambda: model.renewed(records).estimate(records[-1].day))


def test_trend_of_ten_years_with_hindsight(benchmark):
    model = LiftModel.of(history(520))
    benchmark(lambda: LiftModel(model.days).trend())
