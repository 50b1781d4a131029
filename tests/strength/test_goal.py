"""Goals: the chance that a level comes to a load, checked against paths drawn otherwise; on course by a rule that no rest breaks."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest
from scipy.stats import norm

from tracker.errors import BadInputError
from tracker.strength.backtest.goals import goals
from tracker.strength.bands import misfit
from tracker.strength.belief import Belief
from tracker.strength.course import Judged, asked_days, course_of, is_rest
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import WEEK, beliefs
from tracker.strength.gains import beside_published, needed_each_week
from tracker.strength.goal import chance_by, outlook
from tracker.strength.motion import LEVEL, SIZE, move
from tracker.strength.outset import onward, outset
from tracker.strength.records import REP_MAXES, SetRecord

MONDAY = date(2026, 3, 2)


@pytest.fixture(scope="module")
def model() -> LiftModel:
    """Half a year of two days a week."""
    days = [MONDAY + timedelta(days=7 * week + more) for week in range(26) for more in (0, 3)]
    return LiftModel.of([SetRecord(day, 80 + 0.1 * at, 5, 2.0, "done", "work", 0) for at, day in enumerate(days)])


def test_the_chance_is_that_of_paths_drawn_week_by_week(model: LiftModel):
    """A general check: the same motion, simulated from each point's own state with other random numbers."""
    day, load = model.last_day, 1.05 * model.estimate(model.last_day).rep_max[3].estimate
    told, belief, motion = outlook(model, load, 3, day), outset(model, day), onward(model.parameters)
    dice, paths = np.random.default_rng(7), 40_000
    weight = np.exp(belief.log_weight - belief.log_weight.max())
    point = dice.choice(len(weight), paths, p=weight / weight.sum())
    roots = np.stack([np.linalg.cholesky(c.reshape(SIZE, SIZE) + 1e-14 * np.eye(SIZE)) for c in belief.cov.T])
    state = belief.mean[:, point] + np.einsum("pij,pj->ip", roots[point], dice.standard_normal((paths, SIZE)))
    at = REP_MAXES.index(3)
    more = misfit(model.known(day).told, model.parameters)[at] ** 0.5 * dice.standard_normal(paths)
    apart = belief.active.grid.offsets[belief.active.curve_of[point], at] + more - np.log(load)
    step, pace = move(WEEK, motion), belief.active.pace_of[point]
    there = LEVEL @ state + apart >= 0
    for week in range(1, 27):
        noise = np.empty_like(state)
        for each in range(len(motion.paces)):
            of = pace == each
            cov = step.noise[:, each].reshape(SIZE, SIZE)
            noise[:, of] = dice.multivariate_normal(np.zeros(SIZE), cov, of.sum(), method="eigh").T
        state = np.einsum("pij,jp->ip", step.transition[pace], state) + step.offset[:, pace] + noise
        there |= LEVEL @ state + apart >= 0
        if week in (4, 12, 26):
            assert told.weeks[week] == pytest.approx(there.mean(), abs=0.02)


def is_there(model: LiftModel, belief: Belief, load: float) -> float:
    """How likely the 5RM is at a load in one week: each point's own normal, none joined with another."""
    level, var = belief.level()
    weight = np.exp(belief.log_weight - belief.log_weight.max())
    above = level + belief.active.grid.offsets[belief.active.curve_of, REP_MAXES.index(5)] - np.log(load)
    more = misfit(model.known(model.last_day).told, model.parameters)[REP_MAXES.index(5)]
    return float(weight @ norm.cdf(above / np.sqrt(var + more)) / weight.sum())


def test_to_have_come_to_a_load_is_no_less_likely_than_to_be_there(model: LiftModel):
    now = model.estimate(model.last_day).rep_max[5].estimate
    for load in (0.98 * now, now, 1.04 * now, 1.1 * now):
        told = outlook(model, load, 5, model.last_day)
        then = dict(enumerate(beliefs(model, model.last_day, 26), start=1))
        for week in (1, 4, 12, 26):
            assert told.weeks[week] >= is_there(model, then[week][1], load) - 0.015
        assert list(told.weeks) == sorted(told.weeks)
        assert told.weeks == outlook(model, load, 5, model.last_day).weeks  # asked again, the same to the last digit
    chances = [outlook(model, share * now, 5, model.last_day).by(12) for share in (0.8, 1, 1.02, 1.05, 1.6)]
    assert chances == sorted(chances, reverse=True)
    assert (chances[0], chances[-1]) == (pytest.approx(1, abs=0.02), pytest.approx(0, abs=0.02))


def test_the_first_week_of_one_in_two_and_days_between_weeks(model: LiftModel):
    day, now = model.last_day, model.estimate(model.last_day).rep_max[1].estimate
    told = outlook(model, 1.03 * now, 1, day, by=day + timedelta(weeks=10))
    assert told.even is not None
    assert told.weeks[told.even - 1] < 0.5 <= told.weeks[told.even]
    assert outlook(model, 0.9 * now, 1, day).even == 0
    assert outlook(model, 2 * now, 1, day).even is None
    assert told.test is not None
    assert 0 < told.test < 1
    assert chance_by(model, 1.03 * now, 1, day, day + timedelta(days=66)) == pytest.approx(told.by(66 / 7))
    for wrong in ({"load_kg": 0}, {"reps": 30}, {"by": day - timedelta(days=1)}, {"by": day + timedelta(weeks=105)}):
        with pytest.raises(BadInputError):
            outlook(**{"model": model, "load_kg": now, "reps": 1, "day": day, **wrong})


def test_tests_alone_and_rare_lifts_have_a_chance_too():
    rare = [SetRecord(MONDAY + timedelta(days=28 * at), 100 + at, 3, 1.0, "done", "work", 0) for at in range(8)]
    for records in (rare, [SetRecord(r.day, r.load_kg, 1, None, "done", "test", 0) for r in rare]):
        of = LiftModel.of(records)
        told = outlook(of, 1.02 * of.estimate(of.last_day).one_rm.estimate, 1, of.last_day)
        assert len(told.weeks) == 105
        assert list(told.weeks) == sorted(told.weeks)
        assert 0 < told.weeks[12] < 1


def on(*chances: float, every: int = 7) -> list[Judged]:
    return [Judged(MONDAY + timedelta(days=every * at), chance) for at, chance in enumerate(chances)]


def test_on_course_begins_at_one_in_two_and_ends_only_after_two_weeks_below_one_in_three():
    assert course_of([]).state == ""
    assert course_of(on(0.6)).state == "on course"
    assert course_of(on(0.4)).state == "not on course"
    kept = course_of(on(0.6, 0.4, 0.34, 0.45))
    assert (kept.state, kept.since) == ("on course", MONDAY)  # between the bounds nothing new is said
    assert course_of(on(0.6, 0.2, 0.2)).state == "on course"  # one week and a day are no two weeks
    assert course_of(on(0.6, 0.2, 0.4, 0.2, 0.2)).state == "on course"
    fell = course_of(on(0.6, 0.2, 0.2, 0.2))
    assert (fell.state, fell.since) == ("not on course", MONDAY + timedelta(days=21))
    again = course_of(on(0.6, 0.2, 0.2, 0.2, 0.4, 0.55))
    assert (again.state, again.since) == ("on course", MONDAY + timedelta(days=35))


def test_a_rest_and_the_four_weeks_after_it_are_not_judged():
    trained = [MONDAY + timedelta(days=each) for each in (0, 7, 14, 35, 42, 49, 56, 63, 70)]  # three weeks of rest
    assert [is_rest(trained, day) for day in trained] == [False, False, False, True, True, True, True, False, False]
    assert is_rest(trained, MONDAY + timedelta(days=84))  # two weeks after the last day
    end = MONDAY + timedelta(days=365)
    found = asked_days(trained, trained, since=MONDAY, by=end, today=end)
    assert found == [MONDAY + timedelta(days=each) for each in (0, 7, 14, 63, 70)]
    assert asked_days(trained, trained, since=MONDAY, by=MONDAY + timedelta(days=10), today=end)[-1] == trained[1]


def test_what_it_takes_a_week_stands_beside_published_gains():
    assert needed_each_week(100, 105, 12).percent == pytest.approx(100 * np.log(1.05) / 12)
    assert needed_each_week(100, 105, 12).kg == pytest.approx(5 / 12)
    assert "there already" in needed_each_week(100, 99, 12).words
    # Latella et al. 2020: 0.15 kg a day of 513 kg are 0.205 % a week, 0.12 of 289 are 0.291 %
    assert pytest.approx(0.002, abs=1e-4) == 7 * 0.15 / 513
    assert "competitors gained (0.2 to 0.3 %)" in beside_published(0.25)
    # Steele et al. 2022: +30 to 50 % in a year are 0.5 and 0.8 % a week
    assert [round(100 * np.log(each) / 52, 1) for each in (1.3, 1.5)] == [0.5, 0.8]
    assert "first year (0.5 to 0.8 %)" in beside_published(0.7)
    # Appleby et al. 2012: +6.5 to 11.5 % in two years
    assert [round(100 * np.log(each) / 104, 2) for each in (1.065, 1.115)] == [0.06, 0.1]
    assert "More than people gained on average" in beside_published(1.5)


def test_goals_of_invented_athletes_happen_about_as_often_as_said():
    """A small sample of `python -m tracker.strength.backtest.goals`; its bounds are three standard errors wide."""
    found = list(goals(88, 60611))
    for said in (0.3, 0.7):
        some = [each.there for each in found if each.said == said]
        assert len(some) >= 35
        assert abs(np.mean(some) - said) < 3 * (said * (1 - said) / len(some)) ** 0.5
