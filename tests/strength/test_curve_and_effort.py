"""The curve's family against published formulas and a published chart; what each kind of set says."""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np
import pytest

from tracker.strength.curve import Curve
from tracker.strength.effort import RepsEvidence, failure_odds, weights
from tracker.strength.formulas import FORMULAS
from tracker.strength.grid import grid_of
from tracker.strength.motion import LEVEL, SIZE, Gap, move
from tracker.strength.parameters import DEFAULT, PIVOT
from tracker.strength.tables import SILENT, silent_from

CHART = Path(__file__).parents[1] / "references" / "percent_of_1rm.csv"


@pytest.mark.parametrize(("key", "curve"), [("epley", Curve(1 / 31, 1.0)), ("brzycki", Curve(1 / 36, -1.0))])
def test_two_published_formulas_are_members_of_the_family(key: str, curve: Curve):
    formula = FORMULAS[key]  # Epley 1985 made to pass through the 1RM at one repetition; Brzycki 1993 as it is
    for reps in range(2, 11):
        assert np.exp(curve.drop(reps)) == pytest.approx(formula.multiple(reps) / formula.multiple(1), rel=1e-12)


def test_the_published_load_chart_lies_among_the_likely_curves():
    lines = [line for line in CHART.read_text().splitlines() if not line.startswith("#")]
    grid = grid_of(DEFAULT)
    weight = np.bincount(grid.curve_of, np.exp(grid.log_prior))
    for row in csv.DictReader(lines):  # column nsca_chart: NSCA Training Load Chart, published
        if int(row["reps"]) < 5:
            continue  # its 95 % for 2 lies below every formula made for few repetitions that passes through the 1RM
        percents = np.array([100 * np.exp(-float(curve.drop(int(row["reps"])))) for curve in grid.curves])
        middle = float(weight @ percents)
        spread = float(np.sqrt(weight @ (percents - middle) ** 2))
        assert abs(float(row["nsca_chart"]) - middle) < 1.6 * spread


@pytest.mark.parametrize("shape", [-1.0, -0.2, 0.0, 1.0, 2.4])
def test_repetitions_and_drop_are_inverse_and_pass_through_the_1rm(shape: float):
    curve = Curve.through(0.18, 8, shape)
    assert float(curve.drop(8)) == pytest.approx(0.18)
    assert float(curve.drop(1)) == pytest.approx(0, abs=1e-12)
    for reps in (0.5, 1, 3, 7.5, 15):
        assert float(curve.reps(curve.drop(reps))) == pytest.approx(reps)


def test_whole_repetitions_to_failure_are_a_distribution_about_what_the_curve_says():
    says, odds = failure_odds(DEFAULT)
    np.testing.assert_allclose(odds.sum(axis=1), 1, atol=1e-12)
    middle = odds @ np.arange(odds.shape[1])
    inside = (says > 2) & (says < 30)
    np.testing.assert_allclose(middle[inside], says[inside] - 0.5, atol=0.1)  # the whole part lies half below


def test_a_miss_says_exactly_and_a_bound_at_least():
    exactly, at_least = (weights(RepsEvidence(saying, 5), DEFAULT)[:, 0] for saying in ("missed", "bound"))
    assert exactly.nonzero()[0].tolist() == [5]
    assert at_least.nonzero()[0].tolist() == list(range(5, len(at_least)))


def test_a_test_was_all_there_was_more_often_than_not():
    left = weights(RepsEvidence("test", 3), DEFAULT)[3:, 0]
    assert left[0] > 0.5
    assert left.sum() == pytest.approx(1)
    assert (np.diff(left) <= 0).all()


def test_reports_of_one_habit_are_probabilities_and_six_means_six_or_more():
    reports = [weights(RepsEvidence("report", 5, rir), DEFAULT) for rir in range(7)]
    total = np.sum(reports, axis=0)[5:60]
    some = [i for i, habit in enumerate(DEFAULT.habits) if not habit.usual]
    np.testing.assert_allclose(total[:, some], 1, atol=1e-9)
    six = reports[6][5:60, some]
    assert (np.diff(six, axis=0) >= -1e-12).all()


def test_people_are_assumed_to_report_too_few_in_reserve():
    """Halperin et al. 2022 (published, abstract): under-prediction of 0.95 repetitions, 95 % interval 0.17 to 1.73."""
    left = np.arange(0, 9)
    honest = [i for i, habit in enumerate(DEFAULT.habits) if not habit.usual]
    share = np.average([DEFAULT.habits[i].share for i in honest], weights=[DEFAULT.habit_weights[i] for i in honest])
    assert 0.17 < float(np.mean(left - share * left)) < 1.73


def test_reports_err_as_much_as_was_seen():
    """A thesis at Florida Atlantic University (published): absolute error at 1 in reserve 0.69 +/- 0.12 (bench) and
    0.79 +/- 0.26 (squat), at 4 1.00 +/- 0.18 and 1.43 +/- 0.31. Refalo et al. 2023 (published): 0.65 over 1 and 3, raw SD
    1.00, in trained people on the bench: ours, for everybody and every lift, is not less.
    """
    honest = [i for i, habit in enumerate(DEFAULT.habits) if not habit.usual]
    weight = np.array(DEFAULT.habit_weights)[honest]
    weight, says = weight / weight.sum(), np.arange(7)
    told = np.stack([weights(RepsEvidence("report", 5, rir), DEFAULT)[:, honest] @ weight for rir in range(7)])
    error = {left: float(told[:, 5 + left] @ np.abs(says - left)) for left in (1, 3, 4)}
    assert 0.69 - 0.12 <= error[1] <= 0.79 + 0.26
    assert 1.00 - 0.18 <= error[4] <= 1.43 + 0.31
    assert (error[1] + error[3]) / 2 >= 0.65
    sd = [np.sqrt(told[:, 5 + left] @ (says - told[:, 5 + left] @ says) ** 2) for left in (1, 3)]
    assert 1.0 <= float(np.mean(sd)) <= 1.5


def test_a_gain_is_kept_and_a_lay_off_costs_what_the_literature_allows():
    """Mujika & Padilla 2001 (published): strength generally kept up to four weeks; Terzis et al. 2008: -4 to -5 %."""
    paces = np.eye(len(DEFAULT.paces))
    state, sure = np.zeros((SIZE, len(paces))), np.zeros((SIZE * SIZE, len(paces)))
    lost = {weeks: -float((LEVEL @ move(Gap(7 * weeks, 7 * weeks), DEFAULT).carried(state, sure, paces)[0])[0])
            for weeks in (1, 2, 4, 8, 12)}  # fmt: skip
    assert lost[1] <= 0
    assert lost[2] <= 0
    assert 0 < lost[4] < 0.05
    assert lost[4] < lost[8] < lost[12] < DEFAULT.loss_most


def states(points: int) -> tuple[np.ndarray, np.ndarray]:
    """Return random means (3, points) and covariances (9, points)."""
    dice = np.random.default_rng(3)
    root = dice.normal(size=(points, SIZE, SIZE))
    cov = np.moveaxis(root @ np.swapaxes(root, 1, 2), 0, -1).reshape(SIZE * SIZE, -1)
    return dice.normal(size=(SIZE, points)), cov


def test_a_move_in_two_parts_is_the_move_in_one_while_training_goes_on():
    paces = np.eye(len(DEFAULT.paces))
    mean, cov = states(len(paces))
    one = move(Gap(10, 10), DEFAULT).carried(mean, cov, paces)
    two = move(Gap(6, 6), DEFAULT).carried(*move(Gap(4, 4), DEFAULT).carried(mean, cov, paces), paces)
    np.testing.assert_allclose(two[0], one[0], atol=1e-12)
    np.testing.assert_allclose(two[1], one[1], atol=1e-12)


@pytest.mark.parametrize("gap", [Gap(3, 3), Gap(40, 40), Gap(40, 4), Gap(60, 30, tests_only=True)])
def test_a_state_is_carried_as_its_matrix_says(gap: Gap):
    paces = np.array([1, 0, 1])
    mean, cov = states(len(paces))
    how = move(gap, DEFAULT)
    found = how.carried(mean, cov, np.eye(len(DEFAULT.paces))[:, paces])
    for point, pace in enumerate(paces):
        transition = how.transition[pace]
        np.testing.assert_allclose(found[0][:, point], transition @ mean[:, point] + how.offset[:, pace], atol=1e-12)
        spread = transition @ cov[:, point].reshape(SIZE, SIZE) @ transition.T + how.noise[:, pace].reshape(SIZE, SIZE)
        np.testing.assert_allclose(found[1][:, point].reshape(SIZE, SIZE), spread, atol=1e-12)


@pytest.mark.parametrize("reps", [1, 5, 12])
def test_a_bound_tells_levels_apart_up_to_where_it_falls_silent(reps: int):
    grid, evidence = grid_of(DEFAULT), RepsEvidence("bound", reps)
    table = grid.table(evidence)
    row, top = silent_from(table), table[:, -1]
    assert (np.diff(table, axis=1) >= -1e-12).all()  # more strength never speaks against a bound
    assert (top - table[:, row]).max() <= SILENT < (top - table[:, row - 1]).max()


def test_the_pivot_is_where_the_level_is_kept():
    grid = grid_of(DEFAULT)
    np.testing.assert_allclose(grid.offsets[:, PIVOT - 1], 0, atol=1e-12)
    assert np.exp(grid.log_prior).sum() == pytest.approx(1)
