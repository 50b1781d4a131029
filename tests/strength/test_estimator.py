"""The estimator's promises that hold for any version of it."""

import math
from dataclasses import replace
from datetime import date, timedelta

import pytest

from tracker.errors import BadInputError
from tracker.strength.estimator import LiftModel
from tracker.strength.holds import still_holds
from tracker.strength.records import REP_MAXES, SetRecord

START = date(2026, 3, 2)


def week(number: int, load: float, reps: int, rir: float | None = None, **more: object) -> SetRecord:
    return SetRecord(START + timedelta(weeks=number), load, reps, rir, **more)  # type: ignore[arg-type]


def history() -> list[SetRecord]:
    return [week(number, 80 + number, 5, 2.0, order=k) for number in range(10) for k in range(3)]


def test_later_sets_never_move_what_was_known_before():
    records = history()
    whole, part = LiftModel.of(records), LiftModel.of(records[:15])
    assert [point.filtered for point in whole.trend()[:5]] == [point.filtered for point in part.trend()]


def test_a_step_more_gives_the_same_as_all_at_once():
    records = history()
    assert LiftModel.of(records[:27]).renewed(records).trend() == LiftModel.of(records).trend()


def test_a_mended_history_is_the_same_as_one_made_anew():
    records = history()
    model = LiftModel.of(records)
    mended = [*records[:16], replace(records[16], load_kg=70.0), *records[17:]]
    for changed in (mended, records[:14], [*records, week(20, 85, 3)], records[1:], records):
        assert model.renewed(changed).trend() == LiftModel.of(changed).trend()
    assert model.renewed(mended).days[:5] == model.days[:5]


def test_a_band_is_ordered_and_falls_with_repetitions():
    estimate = LiftModel.of(history()).estimate(START + timedelta(weeks=12))
    for reps in REP_MAXES:
        band = estimate.rep_max[reps]
        assert 0 < band.low80 < band.estimate < band.high80 < math.inf
    middles = [estimate.rep_max[reps].estimate for reps in REP_MAXES]
    assert middles == sorted(middles, reverse=True)


def test_a_heavier_load_and_more_repetitions_are_less_likely():
    model, day = LiftModel.of(history()), START + timedelta(weeks=9)
    chances = [model.chance(load, 5, day=day) for load in (70, 80, 90, 100, 110)]
    assert chances == sorted(chances, reverse=True)
    assert model.chance(90, 3, day=day) > model.chance(90, 6, day=day)


def test_a_much_lower_and_a_much_higher_max_no_longer_hold():
    model, day = LiftModel.of(history()), START + timedelta(weeks=9)
    now = model.estimate(day).rep_max[5].estimate
    assert still_holds(model, 5, now * 0.7, day).above > 0.95
    assert still_holds(model, 5, now * 1.4, day).below > 0.95
    h = still_holds(model, 5, now, day)
    assert h.above + h.within + h.below == pytest.approx(1)
    assert h.words


def test_a_day_before_the_first_set_is_refused():
    with pytest.raises(BadInputError, match="no set up to"):
        LiftModel.of(history()).estimate(START - timedelta(days=1))
