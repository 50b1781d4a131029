"""Weeks ahead: the model's own motion, wider with each week, from nothing that came later, and never a promise."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import numpy as np
import pytest

from tracker.errors import BadInputError
from tracker.strength.bands import shape_of
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import beliefs, chance_then, forecast, reach, usual_gap
from tracker.strength.motion import Gap
from tracker.strength.outset import onward, outset
from tracker.strength.records import SetRecord

MONDAY = date(2026, 1, 5)


def lift(days, *, kind="work", load=80.0):
    return tuple(
        SetRecord(MONDAY + timedelta(days=day), load, 5, None if kind == "test" else 1, "done", kind) for day in days
    )


@pytest.fixture(scope="module")
def weekly():
    return LiftModel.of(lift(range(0, 140, 7)))


def test_it_widens_week_by_week_and_the_middle_moves_no_faster_than_published_gains(weekly):
    now, told = weekly.estimate(weekly.last_day), forecast(weekly, weekly.last_day, 104)
    assert [each.day for each in told] == [weekly.last_day + timedelta(weeks=week) for week in range(1, 105)]
    widths = [np.log(each.rep_max[5].high80 / each.rep_max[5].low80) for each in (now, *told)]
    assert all(later > earlier for earlier, later in pairwise(widths))
    gains = [
        np.log(later.rep_max[5].estimate / earlier.rep_max[5].estimate) for earlier, later in pairwise((now, *told))
    ]
    # settled people gain 0.1 to 0.7 % a week (Latella et al. 2020, computed: tracker/strength/parameters.py)
    assert 0 <= min(gains) <= max(gains) < 0.007


def test_a_week_ahead_is_the_motion_of_the_model_and_the_same_whatever_is_asked_beside_it(weekly):
    day = weekly.last_day
    step = outset(weekly, day).ahead(Gap(7, 0), onward(weekly.parameters))
    (_, first), *_ = beliefs(weekly, day, 1)
    assert first.mean == pytest.approx(step.mean)
    assert first.cov == pytest.approx(step.cov)
    assert forecast(weekly, day, 26, (4, 26)) == tuple(forecast(weekly, day, 26)[week - 1] for week in (4, 26))


def test_what_came_later_is_not_used():
    early = lift(range(0, 70, 7))
    later = tuple(SetRecord(MONDAY + timedelta(days=day), 120.0, 5, 0) for day in range(70, 140, 7))
    day = early[-1].day
    whole, alone = forecast(LiftModel.of(early + later), day, 8), forecast(LiftModel.of(early), day, 8)
    assert [each.rep_max[5] for each in whole] == [each.rep_max[5] for each in alone]


def test_after_a_rest_training_is_taken_up_again_and_what_was_lost_comes_back(weekly):
    back = weekly.last_day + timedelta(weeks=8)
    told = forecast(weekly, back, 12)
    assert weekly.estimate(back).rep_max[5].estimate < weekly.estimate(weekly.last_day).rep_max[5].estimate
    assert told[11].rep_max[5].estimate > weekly.estimate(back).rep_max[5].estimate
    assert told[3].rep_max[5].estimate > weekly.estimate(back + timedelta(weeks=4)).rep_max[5].estimate


def test_a_lift_goes_on_as_often_as_it_was_done(weekly):
    assert usual_gap(weekly.days) == usual_gap(weekly.days[:1]) == Gap(7, 0)
    every = LiftModel.of(lift(range(0, 350, 35)), elsewhere=[MONDAY + timedelta(days=day) for day in range(0, 350, 7)])
    assert usual_gap(every.days) == Gap(35, 7)
    told = forecast(every, every.last_day, 20)
    assert len(told) == 20
    # on the day of the next set, five weeks ahead, it is what the gap alone would leave, carried by a forecast's numbers
    (*_, (_, fifth)) = beliefs(every, every.last_day, 5)
    assert fifth.mean == pytest.approx(outset(every, every.last_day).ahead(Gap(35, 7), onward(every.parameters)).mean)


def test_of_tests_alone_the_next_one_is_foretold_as_the_estimate_of_its_day():
    meets = LiftModel.of(tuple(SetRecord(MONDAY + timedelta(weeks=week), 100.0, 1, kind="test") for week in (0, 40)))
    then = meets.last_day + timedelta(weeks=45)
    told = forecast(meets, meets.last_day, 45)[-1]
    assert told.rep_max[1].estimate == pytest.approx(meets.estimate(then).rep_max[1].estimate)


def test_how_likely_a_load_is_agrees_with_the_band(weekly):
    day = weekly.last_day
    then = forecast(weekly, day, 12)[11].rep_max[5]
    for load, likely in ((then.estimate, 0.5), (then.low80, 0.9), (then.high80, 0.1)):
        assert reach(weekly, load, 5, day, 12)[11] == pytest.approx(likely, abs=1e-4)
    assert len(reach(weekly, 90, 5, day, 7)) == 7


def test_a_set_then_is_likelier_the_lighter_it_is_and_tired_less_likely(weekly):
    day = weekly.last_day
    easy, hard = chance_then(weekly, 70, 5, day=day, weeks=10), chance_then(weekly, 95, 5, day=day, weeks=10)
    assert all(light > heavy for light, heavy in zip(easy, hard, strict=True))
    assert chance_then(weekly, 85, 5, day=day, weeks=10, sets_before=4) < chance_then(weekly, 85, 5, day=day, weeks=10)
    soon = chance_then(weekly, 85, 5, day=day, weeks=1)[0]
    assert soon == pytest.approx(weekly.chance(85, 5, day=day), abs=0.05)


def test_a_set_then_is_checked_by_drawing_from_the_same_belief(weekly):
    # the level's mixture, drawn from, against the closed form: the share of draws above the load
    *_, (_, belief) = beliefs(weekly, weekly.last_day, 26)
    shape, dice = shape_of(belief), np.random.default_rng(5)
    part = dice.choice(len(shape.weight), 200_000, p=shape.weight)
    level = dice.normal(shape.mean[part], np.sqrt(shape.var[part])) + weekly.grid.offsets[shape.curve[part], 4]
    assert np.mean(level > np.log(90)) == pytest.approx(reach(weekly, 90, 5, weekly.last_day, 26)[-1], abs=0.005)


@pytest.mark.parametrize("weeks", [0, -1, 105])
def test_other_numbers_of_weeks_are_refused(weekly, weeks):
    with pytest.raises(BadInputError, match="1 to 104"):
        forecast(weekly, weekly.last_day, weeks)


def test_a_day_before_every_set_and_the_end_of_the_calendar_are_refused(weekly):
    with pytest.raises(BadInputError, match="no set up to"):
        forecast(weekly, MONDAY - timedelta(days=1), 4)
    with pytest.raises(BadInputError, match="calendar"):
        forecast(weekly, date(9999, 12, 1), 104)
