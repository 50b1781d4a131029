"""The repetition curve: how far below the 1RM the load for n repetitions lies, and back.

One family holds the forms that the formulas in print use: log(1RM / nRM) = log(1 + a k (n - 1)) / a. With a = 1 it is
the reciprocal line 1RM / (1 + k (n - 1)), with a -> 0 an exponential, with a = -1 a line of per cent. It passes through
the 1RM at one repetition, where many formulas do not.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import expm1, isclose

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.floating]


@dataclass(frozen=True, slots=True)
class Curve:
    """One person's curve: `per_rep` is k, what the second repetition costs; `shape` is a."""

    per_rep: float
    shape: float

    @classmethod
    def through(cls, drop: float, reps: float, shape: float) -> Curve:
        """Make the curve of a shape whose log(1RM / nRM) at `reps` repetitions is `drop`."""
        if isclose(shape, 0, abs_tol=1e-9):
            return cls(drop / (reps - 1), 0.0)
        return cls(expm1(shape * drop) / (shape * (reps - 1)), shape)

    def drop(self, reps: Floats | float) -> Floats:
        """Return log(1RM / nRM) for `reps` repetitions."""
        further = self.per_rep * (np.asarray(reps, dtype=float) - 1)
        if isclose(self.shape, 0, abs_tol=1e-9):
            return further
        return np.log(np.maximum(1 + self.shape * further, 1e-9)) / self.shape

    def reps(self, drop: Floats | float) -> Floats:
        """Return the repetitions that a load has in it, from log(1RM / load); below 1 where it can't be lifted."""
        drop = np.asarray(drop, dtype=float)
        if isclose(self.shape, 0, abs_tol=1e-9):
            return 1 + drop / self.per_rep
        return 1 + np.expm1(self.shape * drop) / (self.shape * self.per_rep)
