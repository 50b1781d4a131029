"""Means over people, each with its standard error between people: days of one person are alike and are no sample."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure in per cent, its standard error between people, and how many people it rests on."""

    value: float
    error: float
    people: int

    @property
    def words(self) -> str:
        """Say it to 0.1: "3.6 ± 0.1"; a dash where there is nobody, and no error of one person alone."""
        if not self.people:
            return "–"
        return f"{self.value:.1f} ± {self.error:.1f}" if self.people > 1 else f"{self.value:.1f}"


NOBODY = Figure(float("nan"), float("nan"), 0)


def share(values: Sequence[float]) -> Figure:
    """Return the mean of one value a person, in per cent."""
    some = np.array([value for value in values if not np.isnan(value)])
    if not len(some):
        return NOBODY
    return Figure(100 * float(some.mean()), 100 * _error(some), len(some))


def root(squares: Sequence[float]) -> Figure:
    """Return the root of the mean of one mean square a person, in per cent; its error is of first order."""
    some = np.array([value for value in squares if not np.isnan(value)])
    if not len(some):
        return NOBODY
    middle = float(np.sqrt(some.mean()))
    return Figure(100 * middle, 100 * _error(some) / (2 * middle) if middle else 0.0, len(some))


def ratio(squares: Sequence[float], others: Sequence[float]) -> tuple[float, float]:
    """Return the root mean square of one thing over another's, of the same people, and its standard error of first order."""
    some, other = np.array(squares), np.array(others)
    found = float(np.sqrt(some.mean() / other.mean()))
    return found, found * _error((some / some.mean() - other / other.mean()) / 2)


def worst(squares: Sequence[float]) -> float:
    """Return the largest root mean square of one person, in per cent; nan of nobody."""
    some = [value for value in squares if not np.isnan(value)]
    return 100 * max(some) ** 0.5 if some else float("nan")


def _error(some: np.ndarray) -> float:
    return float(np.std(some, ddof=1) / np.sqrt(len(some))) if len(some) > 1 else 0.0
