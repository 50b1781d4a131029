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

    Shapes: rows (sets, columns, nodes and one more); beyond (sets, fatigues), how far the first node lies beyond its row.
    """

    columns: Columns
    which: list[int]
    shares: list[float]
    rows: Floats
    beyond: Floats

    def together(self) -> Floats:
        """Return what all sets say, (columns, nodes)."""
        sets, columns, wide = self.rows.shape
        parts = np.empty((len(self.beyond.T), 2, sets))
        np.multiply(self.beyond.T, self.shares, out=parts[:, 1])
        np.subtract(self.shares, parts[:, 1], out=parts[:, 0])
        flat, both = self.rows.reshape(sets, -1), np.empty((2, columns * wide))
        for part, first, last in zip(parts, self.columns.firsts, self.columns.firsts[1:], strict=False):
            np.matmul(part, flat[:, first * wide : last * wide], out=both[:, first * wide : last * wide])
        low, high = both.reshape(2, columns, wide)  # between two rows of a table lies a line
        return low[:, :-1] + high[:, 1:]

    def at(self, nodes: NDArray[np.intp]) -> Floats:
        """Return what each set says at one node of each point, (sets, points), all of it counted."""
        sets, columns, wide = self.rows.shape
        into, tired = self.columns.into, self.columns.tired
        column = np.arange(columns, dtype=np.intp) if into is None else into
        first = np.arange(0, sets * columns * wide, columns * wide, dtype=np.intp)
        here: NDArray[np.intp] = np.add.outer(first, column * wide + nodes)
        flat = self.rows.reshape(-1)
        low: Floats = flat.take(here)
        here += 1
        high: Floats = flat.take(here)
        high -= low
        of_point: NDArray[np.intp] = tired if into is None else tired.take(into)
        high *= self.beyond.take(of_point, axis=1)
        high += low
        return high


def listen(active: ActivePoints, said: tuple[Observation, ...], nodes: Floats) -> Heard | None:
    """Look up what the sets of a day say at the nodes, or None where they say nothing."""
    grid, wide = active.grid, len(nodes) + 1
    kinds = [each.evidence.saying == "report" for each in said]
    columns = active.told if True in kinds else active.plain
    numbers, tables = grid.tables.of([each.evidence for each in said])
    from_here, most = nodes[0].item() - LOWEST, columns.most_fatigue
    which: list[int] = []
    shifts: list[float] = []
    for i, (each, table) in enumerate(zip(said, tables, strict=True)):
        shift = (from_here - each.log_load) / STEP
        if each.informs or shift - each.before * most < table.silent_from:
            which.append(i)
            shifts.append(shift)
    if not which:
        return None
    before = np.array([[said[i].before] for i in which])
    at = np.array(shifts)[:, None] - before * columns.fatigue  # (sets, fatigues): row of the first node
    row = np.floor(at)
    starts = columns.starts.take([kinds[i] for i in which], axis=0)
    if row.min() < 0 or row.max() > grid.rows - wide:
        numbers, rows, base = _edged(grid, numbers, [(tables[i].at, kinds[i]) for i in which], wide)
        starts = starts // grid.rows * rows
        first = np.clip(row, -wide, grid.rows) + wide
    else:
        first, base = row, [tables[i].at for i in which]
    starts += first.astype(np.intp).take(columns.tired, axis=1)
    starts += np.array(base)[:, None]
    # all stretches of this length that begin anywhere, of which no copy is made
    stretches = np.ndarray((len(numbers) - wide + 1, wide), float, numbers, 0, numbers.strides * 2)
    rows = stretches[starts]
    shares = [
        said[i].share if said[i].informs or (rows[k, :, -1] - rows[k, :, 0]).max() > SILENT else 0.0
        for k, i in enumerate(which)
    ]
    return Heard(columns, which, shares, rows, at - row) if any(shares) else None


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
