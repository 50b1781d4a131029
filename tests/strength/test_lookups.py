"""What a day's sets say at the nodes, and the moments with it, against the same written plainly."""

from __future__ import annotations

from datetime import date
from math import log

import numpy as np
import pytest

from tracker.strength.filtering import begin
from tracker.strength.grid import LOWEST, STEP, ActivePoints, Grid, grid_of
from tracker.strength.hearing import Heard, listen
from tracker.strength.parameters import DEFAULT
from tracker.strength.records import SetRecord
from tracker.strength.session import Observation, read
from tracker.strength.weighing import weigh

DAY = date(2026, 1, 5)
FORM = DEFAULT.form_sd
SETS = [
    SetRecord(DAY, 60, 5),
    SetRecord(DAY, 85, 5, 2.0, order=1),
    SetRecord(DAY, 87.5, 5, 1.0, order=2),
    SetRecord(DAY, 90, 4, outcome="missed", order=3),
]
NODES = {  # log(load), in which the lattice lies well within the tables, below them, and far beyond both ends
    "within": log(95) + STEP * np.arange(-10.0, 11.0),
    "below": log(60) + STEP * np.arange(-10.0, 11.0),
    "far above": log(1000) + STEP * np.arange(-10.0, 11.0),
    "far below": log(5) + STEP * np.arange(-10.0, 11.0),
}


def plainly(grid: Grid, points: np.ndarray, each: Observation, nodes: np.ndarray) -> np.ndarray:
    """Interpolate one set's table for each point, (points, nodes)."""
    table, rows = grid.table(each.evidence), np.arange(grid.rows)
    column = points % grid.columns if each.evidence.saying == "report" else grid.curve_of[points]
    tired = np.array(grid.parameters.fatigue)[grid.fatigue_of[points]] * each.before
    at = (nodes - each.log_load - LOWEST - tired[:, None]) / STEP
    return np.stack([np.interp(where, rows, table[k]) for where, k in zip(at, column, strict=True)])


def heard(points: np.ndarray, said: tuple[Observation, ...], nodes: np.ndarray) -> tuple[Heard, np.ndarray]:
    found = listen(ActivePoints(grid_of(DEFAULT), points), said, nodes)
    assert found is not None
    together = found.together()
    return found, together if found.columns.into is None else together[found.columns.into]


@pytest.mark.parametrize("where", NODES)
@pytest.mark.parametrize("sets", [SETS, SETS[:1] + SETS[3:]], ids=["with reports", "without"])
def test_what_sets_say_is_read_between_the_rows_of_their_tables(where: str, sets: list[SetRecord]):
    grid, nodes = grid_of(DEFAULT), NODES[where]
    points = np.sort(np.random.default_rng(2).choice(len(grid.log_prior), 300, replace=False))
    said = read(sets, DEFAULT, None)
    found, together = heard(points, said, nodes)
    each = [plainly(grid, points, said[i], nodes) for i in found.which]
    counted = sum(share * logs for share, logs in zip(found.shares, each, strict=True))
    np.testing.assert_allclose(together, counted, atol=1e-10)
    at = np.arange(len(points)) % len(nodes)
    expected = np.stack([logs[np.arange(len(points)), at] for logs in each])
    np.testing.assert_allclose(found.at(at), expected, atol=1e-10)


def test_a_bound_that_tells_nothing_is_left_out():
    said = read([SetRecord(DAY, 40, 5), *SETS[1:]], DEFAULT, None)
    found, _ = heard(np.array([0, 5, 400]), said, NODES["within"])
    assert found.which == [1, 2, 3]


def test_a_first_day_is_weighed_as_any_other():
    """All points share seven starts then, which are worked out each by itself."""
    grid = grid_of(DEFAULT)
    first = begin(grid, SETS)
    nodes = log(95) + STEP * np.arange(-60.0, 61.0)
    found = listen(first.active, read(SETS, DEFAULT, None), nodes)
    assert found is not None
    assert first.active is grid.all_points
    several = np.sort(np.random.default_rng(3).choice(len(grid.log_prior), 400, replace=False))
    few, reached = weigh(first, nodes, found.together(), FORM, found.columns.into)
    single = type(first)(
        ActivePoints(grid, several), *(each[..., several] for each in (first.log_weight, first.mean, first.cov))
    )
    some, reached_then = weigh(single, nodes, heard(several, read(SETS, DEFAULT, None), nodes)[1], FORM)
    np.testing.assert_allclose(reached[several], reached_then, atol=1e-12)
    np.testing.assert_allclose(few.mean[:, several], some.mean, atol=1e-12)
    np.testing.assert_allclose(few.cov[:, several], some.cov, atol=1e-12)
    apart = few.log_weight[several] - some.log_weight
    np.testing.assert_allclose(apart, apart[0], atol=1e-9)


def test_a_day_that_is_hardly_possible_still_has_a_mass():
    """Hundreds of misses far below what is expected: each alone is as good as ruled out."""
    said = read([SetRecord(DAY, 60, 1, outcome="missed", order=i) for i in range(400)], DEFAULT, None)
    first = begin(grid_of(DEFAULT), [SetRecord(DAY, 120, 5, kind="test")])
    nodes = log(120) + STEP * np.arange(-60.0, 61.0)
    found = listen(first.active, said, nodes)
    assert found is not None
    after, reached = weigh(first, nodes, found.together(), FORM, found.columns.into)
    assert np.isfinite(after.log_weight).all()
    assert np.isfinite(after.cov).all()
    assert (reached >= nodes[0]).all()
    assert (reached <= nodes[-1]).all()
