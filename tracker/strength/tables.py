"""The tables of a grid, one behind the other in one array: a reading takes from many of them at once.

Readers of several threads share them. What lies in the array is never changed, only added to; where there is no more room a
new array is begun, and the former one goes when its last reader has done.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from threading import Lock
from typing import NamedTuple

import numpy as np

from tracker.strength.curve import Floats
from tracker.strength.effort import RepsEvidence

ROOM = 5_000_000  # numbers that are kept at once, 40 MB; any table can be made again; design
SILENT = 1e-4  # a bound that differs by less over all that is expected says nothing; design


class Place(NamedTuple):
    """Where a table begins, and from which of its rows on it tells no level of any point from a higher one."""

    at: int
    silent_from: int


class _Shelf:
    """An array, its tables, and how much of it they take."""

    def __init__(self, room: int) -> None:
        self.numbers: Floats = np.empty(room)
        self.places: dict[RepsEvidence, Place] = {}
        self.used = 0

    def put(self, evidence: RepsEvidence, table: Floats) -> None:
        end = self.used + table.size
        self.numbers[self.used : end] = table.ravel()
        self.places[evidence] = Place(self.used, silent_from(table))  # only now another thread sees it
        self.used = end


class Tables:
    """Tables that are made where they are asked for: (columns, rows), laid out row behind row."""

    def __init__(self, make: Callable[[RepsEvidence], Floats]) -> None:
        self._make = make
        self._shelf = _Shelf(0)
        self._lock = Lock()  # held while tables are added

    def of(self, asked: Sequence[RepsEvidence]) -> tuple[Floats, list[Place]]:
        """Return an array, and where in it the tables of some evidence begin."""
        shelf = self._shelf  # another thread may begin a new one
        try:
            return shelf.numbers, [shelf.places[each] for each in asked]
        except KeyError:
            with self._lock:
                shelf = self._shelf = self._with(set(asked))
            return shelf.numbers, [shelf.places[each] for each in asked]

    def _with(self, asked: set[RepsEvidence]) -> _Shelf:
        shelf = self._shelf
        made = {each: self._make(each) for each in asked if each not in shelf.places}
        if shelf.used + sum(table.size for table in made.values()) > len(shelf.numbers):
            made = {each: self._make(each) for each in asked}
            shelf = _Shelf(max(ROOM, sum(table.size for table in made.values())))
        for evidence, table in made.items():
            shelf.put(evidence, table)
        return shelf


def silent_from(table: Floats) -> int:
    """Return the row from which on a table tells no level of any point from a higher one; the last rows are the highest."""
    return int(np.count_nonzero((table[:, -1:] - table).max(axis=0) > SILENT))
