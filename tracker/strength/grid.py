"""The grid of what stays the same for a person and a lift: curve, habit, fatigue, pace at the start; and the tables over it.

A table holds the log likelihood of one piece of evidence (see effort) for all points, over how far the level lies above the
load. Only a report depends on the habit of reporting; the table of any other piece of evidence has a column for each curve.
Since a level is kept on a lattice of logarithms, the likelihood of a session is a sum of shifted tables.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from threading import Lock

import numpy as np
from numpy.typing import NDArray

from tracker.strength.curve import Curve, Floats
from tracker.strength.effort import FAR_RIR, RepsEvidence, failure_odds, weights
from tracker.strength.parameters import PIVOT, Parameters
from tracker.strength.records import REP_MAXES

STEP = 0.009  # of the lattice, in logarithms; design
LOWEST, HIGHEST = -0.42, 1.2  # log(5RM / load) that a table spans; beyond it, its edge; design
MOST_TABLES = 200  # kept at once, 0.3 MB each; any of them can be made again
SILENT = 1e-4  # a bound that differs by less over all that is expected says nothing; design
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
    _tables: dict[RepsEvidence, Floats] = field(default_factory=dict[RepsEvidence, Floats], repr=False)
    _room: Lock = field(default_factory=Lock, repr=False, compare=False)  # held while tables come and go
    _drops: dict[int, Floats] = field(default_factory=dict[int, Floats], repr=False)
    _silent: dict[RepsEvidence, int] = field(default_factory=dict[RepsEvidence, int], repr=False)

    @property
    def columns(self) -> int:
        """Points that need a table of their own: fatigue only shifts one, start and pace share one."""
        return len(self.curves) * len(self.parameters.habits)

    @cached_property
    def started(self) -> NDArray[np.intp]:
        """The points that are left when starts no longer matter: all that differ in anything else."""
        return np.unique(self.without_start(np.arange(len(self.log_prior))))

    def without_start(self, points: NDArray[np.intp]) -> NDArray[np.intp]:
        """Return for each point the one that differs in nothing but its start, which is the first."""
        inner = self.columns * len(self.parameters.paces)
        return points - self.start_of[points] * inner

    def drop(self, reps: int) -> Floats:
        """Return log(1RM / nRM) for `reps` repetitions, of each curve."""
        if reps not in self._drops:
            self._drops[reps] = np.array([float(each.drop(reps)) for each in self.curves])
        return self._drops[reps]

    def table(self, evidence: RepsEvidence) -> Floats:
        """Return the log likelihood of a piece of evidence: (lattice of level above load, curve x habit), or curves alone (`of_habit`)."""
        if evidence.saying == "blank":
            evidence = RepsEvidence("bound", evidence.reps)
        found = self._tables.get(evidence)
        return self._kept(evidence, self._make(evidence)) if found is None else found

    def _kept(self, evidence: RepsEvidence, made: Floats) -> Floats:
        """Keep a table, and let the oldest go for it; threads that made the same one at once get one of them."""
        with self._room:
            while len(self._tables) >= MOST_TABLES and evidence not in self._tables:
                del self._tables[next(iter(self._tables))]
            return self._tables.setdefault(evidence, made)

    def silent_from(self, evidence: RepsEvidence) -> int:
        """Return the row of a bound's table from which on it tells no level of any point from a higher one."""
        found = self._silent.get(evidence)
        if found is None:
            table = self.table(evidence)
            found = self._silent[evidence] = int(np.count_nonzero((table[-1] - table).max(axis=1) > SILENT))
        return found

    def _make(self, evidence: RepsEvidence) -> Floats:
        says = failure_odds(self.parameters)[1] @ weights(evidence, self.parameters)
        if not of_habit(evidence):
            says = says[:, :1]
        odd = self.parameters.odd
        logs = np.log((1 - odd) * says + odd * ODDITY[evidence.saying])
        low, high = logs[self._rows], logs[self._rows + 1]
        if evidence.saying == "report" and evidence.rir < FAR_RIR:
            low, high = self._near(low, evidence), self._near(high, evidence)
        mixed = low + self._share[..., None] * (high - low)  # (lattice, curve, habit), or one for all habits
        return np.ascontiguousarray(mixed.reshape(len(mixed), -1))

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
    """Which columns of a grid's tables some points need, each together with a fatigue; `into` says which is a point's."""

    column: NDArray[np.intp]
    fatigue: Floats
    into: NDArray[np.intp]

    @property
    def width(self) -> int:
        return len(self.column)

    @classmethod
    def of(cls, grid: Grid, points: NDArray[np.intp], column_of: NDArray[np.intp]) -> Columns:
        """Find the columns of points, each of which has one in the tables."""
        among = int(column_of.max(initial=0)) + 1
        found, into = np.unique(grid.fatigue_of[points] * among + column_of, return_inverse=True)
        return cls(found % among, np.array(grid.parameters.fatigue)[found // among], into)


class ActivePoints:
    """The part of a grid that is still likely: its points, and which columns of the tables they need."""

    def __init__(self, grid: Grid, points: NDArray[np.intp]) -> None:
        self.grid, self.points = grid, points
        self.curve_of = grid.curve_of[points]
        self.pace_of = grid.pace_of[points]
        self.many_starts = bool(np.ptp(grid.start_of[points])) if len(points) else False
        # points whose levels may be joined for a band: those of one curve, habit and start
        habits = len(grid.parameters.habits)
        other = grid.start_of[points] * habits + points % habits
        self.group_of = other * len(grid.curves) + self.curve_of
        self.told = Columns.of(grid, points, points % grid.columns)  # for reports: curves and habits
        self.plain = Columns.of(grid, points, self.curve_of)  # for all other evidence: curves alone
        self.plain_of = np.empty(self.told.width, dtype=np.intp)
        self.plain_of[self.told.into] = self.plain.into

    def columns(self, evidence: RepsEvidence) -> Columns:
        """Return the columns that a piece of evidence needs."""
        return self.told if of_habit(evidence) else self.plain
