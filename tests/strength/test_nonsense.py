"""Nonsense in, no nonsense out: wide or flagged answers with their reason, never NaN, never a crash."""

from __future__ import annotations

from datetime import date, timedelta
from math import isfinite, log

import pytest

from tracker.errors import BadInputError
from tracker.strength.estimator import LiftModel
from tracker.strength.records import Estimate, SetRecord

START = date(2026, 1, 5)


def s(week: float, load: float, reps: int, rir: float | None = None, *, order: int = 0, **more: str) -> SetRecord:
    return SetRecord(START + timedelta(days=round(7 * week)), load, reps, rir, order=order, **more)  # type: ignore[arg-type]


def season(weeks: int = 8) -> list[SetRecord]:
    return [s(week, 80 + week, 5, 2.0, order=k) for week in range(weeks) for k in range(3)]


def sound(records: list[SetRecord]) -> Estimate:
    """Return the last estimate, having looked at all of them."""
    model = LiftModel.of(records)
    for point in model.trend():
        assert point.smoothed
        for band in [*point.filtered.rep_max.values(), *point.smoothed.rep_max.values()]:
            assert all(isfinite(value) and value > 0 for value in (band.estimate, band.low80, band.high80))
            assert band.low80 < band.estimate < band.high80
    for load in (0.5, 50, 5000):
        assert 0 <= model.chance(load, 5, day=model.last_day) <= 1
    return model.estimate(model.last_day)


def width(estimate: Estimate, reps: int = 1) -> float:
    return log(estimate.rep_max[reps].high80 / estimate.rep_max[reps].low80)


NONSENSE = {
    "one set": [s(0, 60, 5)],
    "one set with reserve": [s(0, 60, 5, 2.0)],
    "a single missed": [s(0, 100, 0, outcome="missed")],
    "all missed": [s(week, 100, 0, outcome="missed", order=k) for week in range(5) for k in range(3)],
    "all ramp": [s(week, 40 + 5 * k, 5, kind="ramp", order=k) for week in range(6) for k in range(4)],
    "all cut": [s(week, 60, 3, outcome="cut") for week in range(6)],
    "thirty repetitions": [s(week, 40, 30, 1.0) for week in range(4)],
    "two hundred repetitions": [s(0, 20, 200, 0.0)],
    "far more reserve than there is": [s(week, 60, 5, 60.0) for week in range(4)],
    "a tiny load": [s(0, 0.01, 5, 2.0), s(1, 0.01, 5, 2.0)],
    "ten years later": [s(0, 80, 5, 2.0), s(520, 80, 5, 2.0)],
    "made and missed at once": [s(0, 100, 5), s(0, 80, 0, outcome="missed", order=1), s(0, 120, 10, order=2)],
    "up and down": [s(week, 60 if week % 2 else 120, 5, 1.0) for week in range(8)],
    "fifty sets in a day": [s(0, 60, 5, 3.0, order=k) for k in range(50)],
}


@pytest.mark.parametrize("name", NONSENSE)
def test_no_history_gives_nan_or_an_empty_band(name: str):
    sound(NONSENSE[name])


@pytest.mark.parametrize("name", ["one set", "all ramp", "all cut", "thirty repetitions"])
def test_little_knowledge_gives_a_wide_band(name: str):
    assert width(sound(NONSENSE[name])) > 0.12
    assert width(sound(season())) < width(sound(NONSENSE[name]))


@pytest.mark.parametrize("name", ["one set", "all ramp", "all cut"])
def test_nothing_but_bounds_is_said_so(name: str):
    assert any('"at least this"' in flag.words for flag in LiftModel.of(NONSENSE[name]).flags)


@pytest.mark.parametrize("factor", [10, 0.1])
@pytest.mark.parametrize("week", [0, 1, 4, 7])
def test_a_load_of_ten_times_or_a_tenth_is_pointed_at_and_hardly_counts(factor: float, week: int):
    records = season()
    at = 3 * week + 1
    slip = records[at]
    wrong = SetRecord(slip.day, slip.load_kg * factor, slip.reps, slip.rir, order=slip.order)
    model = LiftModel.of([*records[:at], wrong, *records[at + 1 :]])
    flags = [flag for flag in model.flags if flag.record == wrong]
    assert flags
    assert f"{slip.load_kg:g} kg" in flags[0].words, "the load that was probably meant"
    clean = LiftModel.of(records).estimate(model.last_day).one_rm.estimate
    assert model.estimate(model.last_day).one_rm.estimate == pytest.approx(clean, rel=0.02)


def test_a_slip_in_the_very_first_set_is_not_for_ever():
    records = [s(0, 800, 5, 2.0), *season()[3:]]
    model = LiftModel.of(records)
    clean = LiftModel.of(season()[3:]).estimate(model.last_day).one_rm.estimate
    assert model.estimate(model.last_day).one_rm.estimate == pytest.approx(clean, rel=0.03)
    assert any(flag.record == records[0] for flag in model.flags)


def test_a_contradictory_set_is_flagged():
    records = [*season(), s(8, 88, 8, 3.0), s(8, 70, 0, outcome="missed", order=1)]
    assert any(flag.record == records[-1] and "contradicts" in flag.words for flag in LiftModel.of(records).flags)


def test_a_clean_history_has_no_flag():
    assert LiftModel.of(season()).flags == ()


@pytest.mark.parametrize(
    "bad",
    [s(0, 0, 5), s(0, -20, 5), s(0, float("nan"), 5), s(0, float("inf"), 5), s(0, 50, -1), s(0, 50, 5, float("nan"))],
)
def test_a_set_that_can_not_be_is_refused_with_its_day(bad: SetRecord):
    with pytest.raises(BadInputError, match="2026-01-05"):
        LiftModel.of([*season(), bad])


def test_no_set_at_all_is_refused():
    with pytest.raises(BadInputError, match="no set"):
        LiftModel.of([])


def test_a_set_of_an_earlier_day_makes_the_model_that_it_would_have_made_then():
    late = [*season(), s(0, 60, 5)]
    assert LiftModel.of(season()).renewed(late).trend() == LiftModel.of(late).trend()


def test_an_estimate_that_begins_anew_is_centred_on_the_days_that_made_it_do_so():
    """Once the starts of the first belief were joined, it was centred a quarter below them, and sure of it."""
    old = [s(week, 80 + 5 * k, 5, 3.0 - k, order=k) for week in range(20) for k in range(3)]
    new = [s(20 + week, 130 + 7.5 * k, 5, 3.0 - k, order=k) for week in range(2) for k in range(3)]
    model = LiftModel.of([*old, *new])
    assert [day.fresh for day in model.days[-2:]] == ["", "anew"]
    found, alone = (each.estimate(model.last_day).rep_max[5].estimate for each in (model, LiftModel.of(new)))
    assert found == pytest.approx(alone, rel=0.03)
