"""Does the tested max still hold, how likely is a set, and what moves a level while nobody trains."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tracker.strength.estimator import LiftModel
from tracker.strength.holds import still_holds
from tracker.strength.records import SetRecord

START = date(2026, 1, 5)


def s(week: float, load: float, reps: int, rir: float | None = None, *, order: int = 0, **more: str) -> SetRecord:
    return SetRecord(START + timedelta(days=round(7 * week)), load, reps, rir, order=order, **more)  # type: ignore[arg-type]


def after_a_test() -> LiftModel:
    return LiftModel.of([
        *[s(week, 80, 5, 4.0 if week % 2 else 3.0, order=k) for week in range(4) for k in range(3)],
        s(4, 100, 3, kind="test"), s(4, 102.5, 2, kind="test", outcome="missed", order=1),
    ])  # fmt: skip


def test_a_fresh_test_holds_and_says_so():
    model = after_a_test()
    holds = still_holds(model, 3, 101, model.last_day)
    assert holds.within > max(holds.above, holds.below)
    assert holds.above + holds.within + holds.below == pytest.approx(1)
    assert "holds" in holds.words


def test_probabilities_agree_with_the_band():
    model = after_a_test()
    band = model.estimate(model.last_day).rep_max[3]
    assert model.below(band.low80, 3, model.last_day) == pytest.approx(0.1, abs=1e-3)
    assert model.below(band.estimate, 3, model.last_day) == pytest.approx(0.5, abs=1e-3)
    assert model.below(band.high80, 3, model.last_day) == pytest.approx(0.9, abs=1e-3)


def test_a_doubtful_max_says_what_would_settle_it():
    model = LiftModel.of([s(0, 70, 5), s(1, 72.5, 5)])
    holds = still_holds(model, 3, model.estimate(model.last_day).rep_max[3].estimate, model.last_day)
    assert max(holds.above, holds.within, holds.below) < 0.8
    assert "3RM" in holds.settle
    assert "reserve" in holds.settle


def test_what_is_settled_asks_for_nothing():
    holds = still_holds(after_a_test(), 3, 60, START + timedelta(weeks=4))
    assert holds.above > 0.99
    assert holds.settle == ""


def test_two_weeks_off_cost_nothing_and_eight_cost_some_and_widen_the_band():
    model = after_a_test()
    now, two, eight = (model.estimate(model.last_day + timedelta(weeks=w)).rep_max[3] for w in (0, 2, 8))
    assert two.estimate == pytest.approx(now.estimate, rel=0.01)
    assert 0.92 * now.estimate < eight.estimate < 0.985 * now.estimate
    assert eight.high80 - eight.low80 > two.high80 - two.low80 > now.high80 - now.low80


def test_what_was_lost_comes_back_faster_than_it_was_gained():
    before = [s(week, 80, 5, 2.0, order=k) for week in range(10) for k in range(3)]
    back = [s(18 + week, 74 + 1.5 * week, 5, 2.0, order=k) for week in range(3) for k in range(3)]
    model = LiftModel.of([*before, *back])
    ahead = [model.belief(model.last_day + timedelta(weeks=w)).level()[0].mean() for w in (0, 1)]
    steady = LiftModel.of(before)
    usual = [steady.belief(steady.last_day + timedelta(weeks=w)).level()[0].mean() for w in (0, 1)]
    assert ahead[1] - ahead[0] > usual[1] - usual[0]


def test_a_chance_falls_with_load_repetitions_and_sets_before():
    model, day = after_a_test(), START + timedelta(weeks=4)
    loads = [model.chance(load, 3, day=day) for load in (80, 90, 100, 110, 120)]
    assert loads == sorted(loads, reverse=True)
    assert loads[0] > 0.97
    assert loads[-1] < 0.05
    reps = [model.chance(92, n, day=day) for n in (1, 3, 5, 8, 12)]
    assert reps == sorted(reps, reverse=True)
    assert model.chance(97, 3, day=day, sets_before=6) < model.chance(97, 3, day=day)


def test_a_chance_at_the_median_is_even_and_the_form_of_the_day_flattens_it():
    model = after_a_test()
    band = model.estimate(model.last_day).rep_max[3]
    assert model.chance(band.estimate, 3, day=model.last_day) == pytest.approx(0.5, abs=0.03)
    assert model.chance(band.low80, 3, day=model.last_day) < 0.9
