"""From what a forecast sets out: the level of today, a gain that is known as far as the sets say, and what was lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.strength import outset as room
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import forecast
from tracker.strength.motion import SIZE
from tracker.strength.outset import Assumed, outset
from tracker.strength.records import SetRecord

MONDAY = date(2026, 1, 5)


def fives(weeks: int, *, gain: float = 0.0, rested: tuple[int, int] = (0, 0), back: float = 1.0) -> list[SetRecord]:
    """A test of the 5RM each fourth week and three sets at 85 % in the others; from a rest on, times `back`."""
    found: list[SetRecord] = []
    for week in range(weeks):
        if rested[0] <= week < rested[1]:
            continue
        level = 100 * (1 + gain) ** week * (back if week >= rested[1] > 0 else 1.0)
        day = MONDAY + timedelta(weeks=week)
        if week % 4 == 0:
            found += [SetRecord(day, level, 5, None, "done", "test", 0), SetRecord(day, 1.025 * level, 4, None, "missed", "test", 1)]  # fmt: skip
        else:
            found += [SetRecord(day, 0.85 * level, 5, 3.0, "done", "work", order) for order in range(3)]
    return found


def gain_of(model: LiftModel) -> tuple[float, float]:
    """Mean and standard deviation of the gain from which a forecast sets out, in per cent a week."""
    belief = outset(model, model.last_day)
    weight = np.exp(belief.log_weight) / np.exp(belief.log_weight).sum()
    mean = float(weight @ belief.mean[1])
    spread = float(weight @ (belief.cov.reshape(SIZE, SIZE, -1)[1, 1] + (belief.mean[1] - mean) ** 2))
    return 100 * mean, 100 * spread**0.5


@pytest.fixture(scope="module")
def known() -> LiftModel:
    return LiftModel.of(fives(40, gain=0.005))


def test_the_level_of_the_day_is_the_filters(known: LiftModel):
    assert outset(known, known.last_day).level()[0] == pytest.approx(known.belief(known.last_day).level()[0], rel=1e-9)


def test_a_gain_that_was_shown_is_kept_and_one_of_a_short_history_is_open(known: LiftModel):
    short = LiftModel.of(fives(3, gain=0.005))
    (shown, sure), (_, open_to) = gain_of(known), gain_of(short)
    flat, _ = gain_of(LiftModel.of(fives(40)))
    assert flat < 0.15 < 0.2 < shown
    assert sure < 0.8 * open_to


@given(st.floats(-0.004, 0.012), st.floats(0.0005, 0.01))
def test_it_is_what_the_rule_for_two_normals_gives_when_people_differ_more(seen: float, noise: float):
    """Conjugate normals (any textbook of statistics): the belief after one observation, under the wider assumption."""
    model = LiftModel.of(fives(1))
    belief = model.belief(model.last_day)
    pace = np.array(model.parameters.paces)[belief.active.pace_of]
    gain, own = pace[:, 0], pace[:, 1] ** 2
    var = 1 / (1 / own + 1 / noise**2)
    mean, cov = belief.mean.copy(), belief.cov.copy()
    mean[1], cov[SIZE + 1] = var * (gain / own + seen / noise**2), var
    heard = noise**2 / room.HEARD
    people = room.GAIN_SD**2 + room.EARLY_SD**2
    told = room._opened(replace(belief, mean=mean, cov=cov), Assumed.first(model.parameters))
    settled = belief.active.pace_of == 0
    assert told.mean[1][settled] == pytest.approx((gain[settled] / people + seen / heard) / (1 / people + 1 / heard))
    assert told.cov[SIZE + 1][settled] == pytest.approx(1 / (1 / people + 1 / heard))
    assert told.mean[1][~settled] == pytest.approx(mean[1][~settled])


def test_what_a_lift_gained_while_it_rested_is_not_foretold_to_go_again():
    others = [MONDAY + timedelta(days=day) for day in range(0, 7 * 30, 3)]
    model = LiftModel.of(fives(23, rested=(12, 22), back=1.06), elsewhere=others)
    now, then = model.estimate(model.last_day).rep_max[5].estimate, forecast(model, model.last_day, 4)[-1].rep_max[5]
    assert then.estimate > 0.998 * now
    assert then.high80 - then.low80 > 0.9 * (model.estimate(model.last_day).rep_max[5].high80 - model.estimate(model.last_day).rep_max[5].low80)  # fmt: skip


def test_what_a_lay_off_took_comes_back():
    model = LiftModel.of(fives(21, rested=(12, 20), back=0.95))
    now, then = model.estimate(model.last_day).rep_max[5].estimate, forecast(model, model.last_day, 6)[-1].rep_max[5]
    assert then.estimate > 1.01 * now


def test_who_tested_lately_has_a_gain_that_is_known_better_than_the_same_history_half_a_year_later(known: LiftModel):
    belief, assumed = known.belief(known.last_day), Assumed.first(known.parameters)
    settled = belief.active.pace_of == 0
    lately, long_ago = (room._opened(belief, assumed, proved=each).cov[SIZE + 1][settled] for each in (True, False))
    assert (lately < long_ago).all()
