"""A small backtest in every run, with loose limits; the table of record is `python -m tracker.strength.backtest`."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

from tracker.strength.backtest.athletes import KINDS, Lift, invent
from tracker.strength.backtest.oracle import errors
from tracker.strength.backtest.report import Score, rms, score, table
from tracker.strength.backtest.shown import summary
from tracker.strength.backtest.training import START
from tracker.strength.backtest.yardsticks import carried
from tracker.strength.estimator import LiftModel
from tracker.strength.parameters import DEFAULT
from tracker.strength.records import SetRecord


@pytest.fixture(scope="module")
def lifts() -> list[Lift]:
    return list(invent(22, seed=77))


@pytest.fixture(scope="module")
def scores(lifts: list[Lift]) -> list[Score]:
    return [score(lift, with_oracle=lift.member < 11) for lift in lifts]


def test_the_same_seed_invents_the_same_athletes(lifts: list[Lift]):
    again = list(invent(22, seed=77))
    assert [each.records for each in again] == [each.records for each in lifts]
    assert next(invent(1, seed=78)).records != lifts[0].records


def test_all_kinds_are_there(lifts: list[Lift]):
    assert {each.kind.name for each in lifts} == {kind.name for kind in KINDS}
    kinds = {each.kind.name: each for each in lifts}
    assert all(record.rir is None for record in kinds["no report"].records)
    assert {record.rir for record in kinds["always 2"].records} <= {None, 2.0}
    away = kinds["lay-off"].truth.away
    assert not any((record.day - START).days in away for record in kinds["lay-off"].records)


def test_the_truth_of_a_rep_max_is_where_its_repetitions_just_succeed(lifts: list[Lift]):
    for lift in lifts[:5]:
        for reps in (1, 5, 10):
            load = lift.truth.rep_max(0, reps)
            assert lift.truth.curve.reps(lift.truth.level[0] - np.log(load)) == pytest.approx(reps)


def test_the_estimate_beats_the_last_test_and_its_band_holds(scores: list[Score]):
    some = [each for each in scores if each.held]
    error = {key: rms(value for each in some for value in each.errors[key]) for key in ("estimate", "carried")}
    assert error["estimate"] < 0.75 * error["carried"]
    assert 0.68 < np.mean([held for each in some for held in each.held]) < 0.92
    assert max(rms(each.errors["estimate"]) for each in some) < 8


def test_who_gains_fast_is_told_from_who_does_not(lifts: list[Lift]):
    """What is believed of the pace after 16 weeks: nearly settled of one kind, open or more for the other."""
    doubt: dict[str, list[float]] = {}
    for lift in lifts:
        known = LiftModel.of([record for record in lift.records if record.day < START + timedelta(weeks=16)])
        belief = known.days[-1].belief
        weight = np.exp(belief.log_weight)
        fast = float(weight @ (belief.active.pace_of == 1) / weight.sum())
        doubt.setdefault("beginner" if lift.kind.name == "beginner" else "settled", []).append(fast)
    prior = DEFAULT.pace_weights[1] / sum(DEFAULT.pace_weights)
    assert np.mean(doubt["settled"]) < prior < np.mean(doubt["beginner"])


def test_hindsight_is_better_than_what_was_known_then(scores: list[Score]):
    then = rms(value for each in scores for value in each.errors["estimate"])
    assert rms(value for each in scores for value in each.hindsight) < then


def test_the_oracle_is_the_limit(scores: list[Score]):
    some = [each for each in scores if each.errors["oracle"]]
    limit = rms(value for each in some for value in each.errors["oracle"])
    assert limit < rms(value for each in some for value in each.errors["estimate"]) < 2 * limit


def test_an_oracle_that_is_told_nothing_is_the_estimate(lifts: list[Lift], scores: list[Score]):
    for lift, found in zip(lifts[:3], scores, strict=False):
        assert errors(lift)["nothing"] == pytest.approx(found.errors["estimate"], abs=1e-9)


def test_the_table_has_a_row_for_each_kind(scores: list[Score]):
    text = table([each for each in scores if each.errors["oracle"]])
    assert len(text.splitlines()) == 2 + len(KINDS)
    assert "nan" not in text


def test_the_summary_of_a_seed_is_the_last_row_of_its_table(scores: list[Score]):
    some = [each for each in scores if each.errors["oracle"]]
    error, ratio, held, worst = summary(some)
    last = table(some).splitlines()[-1]
    assert f"{error:.2f}%" in last
    assert f"{ratio:.2f}" in last
    assert f"{held:.1f}%" in last
    assert f"{worst:.1f}%" in last


def test_a_carried_test_lies_half_way_between_made_and_missed():
    day = date(2026, 1, 5)
    sets = [
        SetRecord(day, 100, 3, kind="test"),
        SetRecord(day, 105, 1, kind="test", outcome="missed", order=1),
        SetRecord(date(2026, 2, 5), 104, 3, kind="test"),
    ]
    assert carried(sets, 3, [date(2026, 1, 1), day, date(2026, 3, 1)]) == [None, 102.5, 104]
