"""Reasons for an estimate, and how well formulas and estimate foretold this member's tests."""

from __future__ import annotations

from datetime import date, timedelta
from math import log

import pytest

from tracker.errors import BadInputError
from tracker.strength.estimator import LiftModel
from tracker.strength.hindcast import hindcast, proven_maxes
from tracker.strength.records import SetRecord
from tracker.strength.why import why

START = date(2026, 1, 5)


def s(week: int, load: float, reps: int, rir: float | None = None, *, order: int = 0, **more: str) -> SetRecord:
    return SetRecord(START + timedelta(weeks=week), load, reps, rir, order=order, **more)  # type: ignore[arg-type]


def season(weeks: int = 6) -> list[SetRecord]:
    return [s(week, 80 + week, 5, 2.0, order=k) for week in range(weeks) for k in range(3)]


def test_a_test_that_went_well_moves_the_estimate_up_and_a_ramp_set_not_at_all():
    records = [*season(), s(6, 60, 5, kind="ramp"), s(6, 112.5, 1, kind="test", order=1)]
    reasons = why(LiftModel.of(records), START + timedelta(weeks=6), 1)
    ramp, test = reasons.sets
    assert ramp.only_bound
    assert ramp.moved_percent == pytest.approx(0, abs=1e-9)
    assert not test.only_bound
    assert test.moved_percent > 1
    assert reasons.after.estimate > reasons.expected.estimate


def test_a_single_sets_share_is_the_whole_step_of_its_day():
    records = [*season(), s(6, 90, 3, outcome="missed")]
    reasons = why(LiftModel.of(records), START + timedelta(weeks=8), 5)
    assert reasons.day == START + timedelta(weeks=6)
    whole = 100 * (reasons.after.estimate / reasons.expected.estimate - 1)
    assert reasons.sets[0].moved_percent == pytest.approx(whole, rel=0.05)
    assert reasons.sets[0].moved_percent < 0


def test_an_earlier_days_share_is_what_leaving_it_out_makes():
    records = [*season(4), s(4, 115, 1, kind="test"), *[s(5, 84, 5, 2.0, order=k) for k in range(3)]]
    model = LiftModel.of(records)
    reasons = why(model, model.last_day, 1)
    without = LiftModel.of([r for r in records if r.kind != "test"])
    now, then = (each.estimate(model.last_day).one_rm.estimate for each in (model, without))
    share = next(each for each in reasons.earlier if each.day == START + timedelta(weeks=4))
    assert share.moved_percent == pytest.approx(100 * log(now / then))


def test_reasons_are_asked_for_a_rep_max_that_there_is():
    with pytest.raises(BadInputError, match="no estimate of a 20RM"):
        why(LiftModel.of(season()), START, 20)


def test_a_tested_max_lies_half_way_between_made_and_missed():
    records = [
        s(0, 100, 3, kind="test"),
        s(0, 105, 2, kind="test", outcome="missed", order=1),
        s(1, 90, 5, kind="test"),
    ]
    assert [(each.reps, each.kg) for each in proven_maxes(records)] == [(3, 102.5), (5, 90)]


def test_few_tests_are_said_to_be_too_few():
    none = hindcast(LiftModel.of(season()))
    assert none.tests == ()
    assert "no tested max yet" in none.words
    one = hindcast(LiftModel.of([*season(), s(6, 100, 3, kind="test")]))
    assert "too few" in one.words
    assert all(score.too_few for score in one.scores)


def test_every_formula_is_judged_by_its_best_set_before_the_test():
    records = [*season(2), s(2, 97.2, 1, kind="test")]
    scores = {score.key: score for score in hindcast(LiftModel.of(records)).scores}
    # Brzycki of 81 kg x 7 to failure: 81 x 36 / 30 = 97.2 kg (worked by hand from the formula)
    assert scores["brzycki"].bias_percent == pytest.approx(0, abs=1e-9)
    assert scores["epley"].bias_percent == pytest.approx(100 * (81 * (1 + 7 / 30) / 97.2 - 1))
    assert scores["estimate"].tests == 1


def test_the_estimate_uses_nothing_of_the_test_it_foretells():
    low, high = ([*season(), s(6, load, 1, kind="test")] for load in (95, 115))
    errors = [
        next(x for x in hindcast(LiftModel.of(r)).scores if x.key == "estimate").bias_percent for r in (low, high)
    ]
    assert (1 + errors[0] / 100) * 95 == pytest.approx((1 + errors[1] / 100) * 115)
