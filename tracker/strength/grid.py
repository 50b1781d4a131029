"""The grid of what stays the same for a person and a lift: curve, habit, fatigue, pace at the start; and the tables over it.

A table holds the log likelihood of one piece of evidence (see effort) for all points, over how far the level lies above the
load. Only a report depends on the habit of reporting; the table of any other piece of evidence has a column for each curve.
Since a level is kept on a lattice of logarithms, the likelihood of a session is a sum of shifted tables.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from tracker.strength.curve import Curve, Floats
from tracker.strength.effort import FAR_RIR, RepsEvidence, failure_odds, weights
from tracker.strength.parameters import PIVOT, Parameters
from tracker.strength.records import REP_MAXES
from tracker.strength.tables import Tables

STEP = 0.009  # of the lattice, in logarithms; design
LOWEST, HIGHEST = -0.42, 1.2  # log(5RM / load) that a table spans; beyond it, its edge; design
FAR_ABOVE, FAR_SD = 0.8, 0.06  # log(5RM / load) from which no curve is trusted, and how soon it ends there; design
ODDITY = {
    "report": 0.08,
    "missed": 0.08,
    "test": 0.2,
    "blank": 0.4,
    "bound": 0.4,
}  # likelihood of a wrong entry; design


@dataclass(frozen=True)
class Grid:
    """All points of one set of parameters. A point is (fatigue, start, pace, curve, habit), the first changing slowest."""

    parameters: Parameters
    curves: tuple[Curve, ...]
    log_prior: Floats  # of each point
    log_starts: Floats  # the part of it that is a start's
    curve_of: NDArray[np.intp]
    fatigue_of: NDArray[np.intp]
    start_of: NDArray[np.intp]
    pace_of: NDArray[np.intp]
    offsets: Floats  # (curve, rep-max): log(nRM / level at the pivot)
    _rows: NDArray[np.intp] = field(repr=False)
    _share: Floats = field(repr=False)
    _drops: dict[int, Floats] = field(default_factory=dict[int, Floats], repr=False)

    @cached_property
    def tables(self) -> Tables:
        """The tables that were asked for so far."""
        return Tables(self.table)

    @property
    def columns(self) -> int:
        """Points that need a table of their own: fatigue only shifts one, start and pace share one."""
        return len(self.curves) * len(self.parameters.habits)

    @cached_property
    def all_points(self) -> ActivePoints:
        """All points, as before the first day."""
        return ActivePoints(self, np.arange(len(self.log_prior)))

    @cached_property
    def started(self) -> ActivePoints:
        """The points that are left when starts no longer matter: all that differ in anything else."""
        return ActivePoints(self, np.unique(self.without_start(self.all_points.points)))

    def without_start(self, points: NDArray[np.intp]) -> NDArray[np.intp]:
        """Return for each point the one that differs in nothing but its start, which is the first."""
        inner = self.columns * len(self.parameters.paces)
        return points - self.start_of[points] * inner

    def drop(self, reps: int) -> Floats:
        """Return log(1RM / nRM) for `reps` repetitions, of each curve."""
        if reps not in self._drops:
            self._drops[reps] = np.array([float(each.drop(reps)) for each in self.curves])
        return self._drops[reps]

    @property
    def rows(self) -> int:
        """The rows of each table."""
        return len(self._rows)

    def table(self, evidence: RepsEvidence) -> Floats:
        """Make the log likelihood of a piece of evidence: (curve x habit, or curves alone (`of_habit`); lattice of level above load).

        A blank says what a bound says; its other part is told by `filtering.update`.
        """
        if evidence.saying == "blank":
            evidence = RepsEvidence("bound", evidence.reps)
        says = failure_odds(self.parameters)[1] @ weights(evidence, self.parameters)
        if not of_habit(evidence):
            says = says[:, :1]
        odd = self.parameters.odd
        logs = np.log((1 - odd) * says + odd * ODDITY[evidence.saying])
        low, high = logs[self._rows], logs[self._rows + 1]
        if evidence.saying == "report" and evidence.rir < FAR_RIR:
            low, high = self._near(low, evidence), self._near(high, evidence)
        mixed = low + self._share[..., None] * (high - low)  # (lattice, curve, habit), or one for all habits
        return np.ascontiguousarray(mixed.reshape(len(mixed), -1).T)

    def _near(self, logs: Floats, evidence: RepsEvidence) -> Floats:
        """Let a report of few left on a load far below the level count as odd: no curve reaches so far."""
        above = np.arange(LOWEST, HIGHEST, STEP)[: len(logs), None, None]
        near = np.exp(-0.5 * (np.clip(above - FAR_ABOVE, 0, None) / FAR_SD) ** 2)
        floor = self.parameters.odd * ODDITY[evidence.saying]
        return np.log(floor + near * (np.exp(logs) - floor))


def of_habit(evidence: RepsEvidence) -> bool:
    """Tell whether what a piece of evidence says depends on the member's habit of reporting."""
    return evidence.saying == "report"


@lru_cache(maxsize=64)
def grid_of(parameters: Parameters) -> Grid:
    """Build the grid of a set of parameters."""
    p = parameters
    steep = np.array(p.steepness)
    curves = tuple(
        Curve.through(p.curve_at_eight * float(np.exp(p.steepness_sd * node)), 8, shape)
        for node in steep
        for shape in p.shapes
    )
    spread = np.sqrt(max(p.first_sd**2 - p.first_width**2, 1e-12))
    starts = np.exp(-0.5 * (np.array(p.first_steps) * p.first_step / spread) ** 2)
    given = (p.fatigue_weights, starts, p.pace_weights, np.exp(-0.5 * steep**2), p.shape_weights, p.habit_weights)
    parts = [np.array(part) / np.sum(part) for part in given]
    prior = np.einsum("f,l,p,s,a,h->flpsah", *parts).ravel()
    sizes = (len(p.fatigue), len(starts), len(p.paces), len(curves), len(p.habits))
    fatigue, start, pace, curve, _ = np.indices(sizes).reshape(5, -1)
    above = np.arange(LOWEST, HIGHEST, STEP)
    drops = above[:, None] + np.array([float(each.drop(PIVOT)) for each in curves])
    reps = np.stack([each.reps(drops[:, i]) for i, each in enumerate(curves)], axis=1)
    says = failure_odds(p)[0]
    reps = np.clip(reps, says[0], says[-1])
    rows = np.clip(np.searchsorted(says, reps, side="right") - 1, 0, len(says) - 2)
    share = (reps - says[rows]) / (says[rows + 1] - says[rows])
    offsets = np.array([[float(each.drop(PIVOT) - each.drop(n)) for n in REP_MAXES] for each in curves])
    return Grid(
        p, curves, np.log(prior), np.log(starts / starts.sum()), curve, fatigue, start, pace, offsets, rows, share
    )


@dataclass(frozen=True, slots=True)
class Columns:
    """Which columns of a grid's tables some points need, each together with a fatigue.

    `into` says which of them is a point's, and is None where each point has its own; `tired` which of the fatigues it has.
    """

    into: NDArray[np.intp] | None
    starts: NDArray[np.intp]  # (2, columns): in the table of other evidence than a report, and of a report
    tired: NDArray[np.intp]  # in order, so that columns of one fatigue lie side by side
    tired_of: NDArray[np.intp]  # the same for each point
    firsts: list[int]  # where those of each fatigue begin, and the last ones end
    fatigue: Floats  # those that some column has, in steps of the lattice
    most_fatigue: float

    @classmethod
    def of(cls, grid: Grid, points: NDArray[np.intp], *, habits: bool) -> Columns:
        """Find the columns of points: one for each curve, or for each curve and habit of reporting."""
        among = grid.columns if habits else len(grid.curves)
        key = grid.fatigue_of[points] * among + (points % among if habits else grid.curve_of[points])
        found, into = places(key)
        fatigue, column = np.divmod(found, among)
        curve = column // len(grid.parameters.habits) if habits else column
        some, tired = places(fatigue)
        fatigues = np.array(grid.parameters.fatigue)[some] / STEP
        alone = len(found) == len(points)
        return cls(
            None if alone else into,
            np.array([curve, column]) * grid.rows,
            tired,
            tired if alone else tired.take(into),
            np.searchsorted(tired, np.arange(len(some) + 1)).tolist(),
            fatigues,
            float(fatigues.max(initial=0)),
        )


def places(numbers: NDArray[np.intp]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return the different ones of some small numbers in order, and the place of each among them."""
    seen = np.bincount(numbers) > 0
    return np.flatnonzero(seen), (np.cumsum(seen) - 1)[numbers]


class ActivePoints:
    """The part of a grid that is still likely: its points, and which columns of the tables they need."""

    def __init__(self, grid: Grid, points: NDArray[np.intp]) -> None:
        self.grid, self.points = grid, points
        self.pace_of = grid.pace_of[points]
        self.log_prior = grid.log_prior[points]

    @cached_property
    def has_pace(self) -> Floats:
        """(paces, points): 1 at the pace of a point, 0 elsewhere; one column for all points where they have the same."""
        same = len(self.pace_of) and not np.ptp(self.pace_of)
        pace_of = self.pace_of[:1] if same else self.pace_of
        return (pace_of == np.arange(len(self.grid.parameters.paces))[:, None]).astype(float)

    @cached_property
    def many_starts(self) -> bool:
        """Whether the points differ in where they began."""
        return bool(np.ptp(self.grid.start_of[self.points])) if len(self.points) else False

    @cached_property
    def curve_of(self) -> NDArray[np.intp]:
        """The curve of each point."""
        return self.grid.curve_of[self.points]

    @cached_property
    def group_of(self) -> NDArray[np.intp]:
        """Of each point those whose levels may be joined with it for a band: of its curve, habit and start."""
        habits = len(self.grid.parameters.habits)
        other = self.grid.start_of[self.points] * habits + self.points % habits
        return other * len(self.grid.curves) + self.curve_of

    @cached_property
    def told(self) -> Columns:
        """The columns for a day with reports."""
        return Columns.of(self.grid, self.points, habits=True)

    @cached_property
    def plain(self) -> Columns:
        """The columns for a day without one."""
        return Columns.of(self.grid, self.points, habits=False)
