"""What a day's sets say at each node of the lattice, looked up in the tables of the grid all at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tracker.strength.curve import Floats
from tracker.strength.grid import LOWEST, STEP, ActivePoints, Columns, Grid
from tracker.strength.session import Observation
from tracker.strength.tables import SILENT


@dataclass(frozen=True, slots=True)
class Heard:
    """Those sets of a day that may say something: by their place, and what part of each log likelihood counts, 0 for none.

    Shapes: numbers, all tables one behind the other; starts (sets, columns), where in them each column's first node lies;
    beyond (sets, fatigues), how far the first node lies beyond its row.
    """

    columns: Columns
    which: list[int]
    shares: list[float]
    numbers: Floats
    starts: NDArray[np.intp]
    wide: int  # nodes, and one more
    beyond: Floats

    def together(self) -> Floats:
        """Return what all sets say, (columns, nodes)."""
        sets, columns = self.starts.shape
        parts = np.empty((len(self.beyond.T), 2, sets))
        np.multiply(self.beyond.T, self.shares, out=parts[:, 1])
        np.subtract(self.shares, parts[:, 1], out=parts[:, 0])
        wide, firsts = self.wide, self.columns.firsts
        # all stretches of this length that begin anywhere, of which no copy is made
        stride = self.numbers.strides[0]
        stretches = np.ndarray((len(self.numbers) - wide + 1, wide), float, self.numbers, 0, (stride, stride))
        said = np.empty((columns, wide - 1))
        for part, first, last in zip(parts, firsts, firsts[1:], strict=False):  # a fatigue at a time stays in the cache
            rows = stretches[self.starts[:, first:last]]
            low, high = (part @ rows.reshape(sets, -1)).reshape(2, -1, wide)  # between two rows of a table lies a line
            np.add(low[:, :-1], high[:, 1:], out=said[first:last])
        return said

    def at(self, nodes: NDArray[np.intp]) -> Floats:
        """Return what each set says at one node of each point, (sets, points), all of it counted."""
        into = self.columns.into
        here = (self.starts if into is None else self.starts.take(into, axis=1)) + nodes
        low: Floats = self.numbers.take(here)
        here += 1
        high: Floats = self.numbers.take(here)
        high -= low
        high *= self.beyond.take(self.columns.tired_of, axis=1)
        high += low
        return high


def listen(active: ActivePoints, said: tuple[Observation, ...], nodes: Floats) -> Heard | None:
    """Look up what the sets of a day say at the nodes, or None where they say nothing."""
    grid, wide = active.grid, len(nodes) + 1
    kinds = [each.evidence.saying == "report" for each in said]
    columns = active.told if True in kinds else active.plain
    numbers, tables = grid.tables.of([each.evidence for each in said])
    from_here, most = nodes.item(0) - LOWEST, columns.most_fatigue
    which: list[int] = []
    shifts: list[float] = []
    for i, (each, table) in enumerate(zip(said, tables, strict=True)):
        shift = (from_here - each.log_load) / STEP
        if each.informs or shift - each.before * most < table.silent_from:
            which.append(i)
            shifts.append(shift)
    if not which:
        return None
    before = [said[i].before for i in which]
    # (sets, fatigues): row of the first node
    at = np.array(shifts)[:, None] - np.array(before)[:, None] * columns.fatigue
    row = np.floor(at)
    beyond = at - row
    starts = columns.starts.take([kinds[i] for i in which], axis=0)
    lowest, highest = min(shifts) - max(before) * most - 1, max(shifts)
    if lowest < 0 or highest > grid.rows - wide:
        numbers, rows, base = _edged(grid, numbers, [(tables[i].at, kinds[i]) for i in which], wide)
        starts = starts // grid.rows * rows
        first = np.clip(row, -wide, grid.rows) + wide
    else:
        first, base = row, [tables[i].at for i in which]
    first += np.array(base)[:, None]
    starts += first.astype(np.intp).take(columns.tired, axis=1)
    over = numbers.take(starts + (wide - 1)) - numbers.take(starts)
    shares = [
        said[i].share if said[i].informs or tells > SILENT else 0.0
        for i, tells in zip(which, over.max(axis=1).tolist(), strict=True)
    ]
    return Heard(columns, which, shares, numbers, starts, wide, beyond) if any(shares) else None


def _edged(grid: Grid, numbers: Floats, tables: list[tuple[int, bool]], wide: int) -> tuple[Floats, int, list[int]]:
    """Copy tables and let their edges stand on, `wide` rows below and above: the copy, its rows, and where each begins."""
    rows = grid.rows + 2 * wide
    copy = np.empty((len(tables), grid.columns, rows))
    for place, (at, habits) in zip(copy, tables, strict=True):
        columns = grid.columns if habits else len(grid.curves)
        table = numbers[at : at + columns * grid.rows].reshape(columns, grid.rows)
        place[:columns, wide:-wide] = table
        place[:columns, :wide] = table[:, :1]
        place[:columns, -wide:] = table[:, -1:]
    return copy.ravel(), rows, [k * grid.columns * rows for k in range(len(tables))]
