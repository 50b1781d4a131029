"""From a belief to loads: medians and 80 % bands of each rep-max, from the mixture over the grid's points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr  # pyright: ignore[reportMissingTypeStubs]  # SciPy has no types

from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.grid import Grid, Lens
from tracker.strength.records import REP_MAXES, Band, Estimate

QUANTILES = np.array([0.5, 0.1, 0.9])
NORMAL = np.array([0.0, -1.2815515655446004, 1.2815515655446004])  # of the normal distribution
NEGLIGIBLE = 1e-5  # weight of a part, of the greatest, that moves nothing that is shown
CLOSE = 1e-8  # of a probability


@dataclass(frozen=True, slots=True)
class Shape:
    """A belief of the level as a mixture: weight, mean and variance of each part, and the curve it goes with."""

    weight: Floats
    mean: Floats
    var: Floats
    curve: NDArray[np.intp]


def shape_of(belief: Belief) -> Shape:
    """Return the level's mixture on a day."""
    level, var = belief.level()
    return mixture(np.exp(belief.log_weight - belief.log_weight.max()), level, var, belief.lens)


def mixture(weight: Floats, level: Floats, var: Floats, lens: Lens) -> Shape:
    """Join points that go together (see `Lens.group_of`), keeping their moments, and leave out what moves no digit."""
    keep = weight > NEGLIGIBLE * weight.max()
    if not keep.all():
        weight, level, var = weight[keep], level[keep], var[keep]
    found, into = np.unique(lens.group_of[keep], return_inverse=True)
    mass = np.bincount(into, weight)
    share = weight / mass[into]
    mean = np.bincount(into, share * level).astype(float)
    second = np.bincount(into, share * (var + (level - mean[into]) ** 2)).astype(float)
    return Shape(mass / mass.sum(), mean, second, found % len(lens.grid.curves))


def quantiles(shape: Shape, grid: Grid) -> Floats:
    """Return logarithms of loads, (rep-maxes, quantiles), by Halley steps on the mixture kept within brackets."""
    weight, sd = shape.weight, np.sqrt(shape.var)
    mean = (shape.mean + grid.offsets[shape.curve].T)[:, None]  # (rep-maxes, 1, parts)
    middle = mean @ weight
    spread = np.sqrt(((mean - middle[..., None]) ** 2 + shape.var) @ weight)
    at = middle + spread * NORMAL
    low, high = middle - 8 * spread + 0 * at, middle + 8 * spread + 0 * at
    height = np.stack([weight / sd, -weight / shape.var], axis=1) * 0.3989422804014327
    for _ in range(30):
        scaled = (at[..., None] - mean) / sd
        over = ndtr(scaled) @ weight - QUANTILES
        if np.abs(over).max() < CLOSE:
            break
        low, high = np.where(over < 0, at, low), np.where(over > 0, at, high)
        bell = np.exp(-0.5 * scaled**2)
        slope, bend = np.maximum(bell @ height[:, 0], 1e-12), (bell * scaled) @ height[:, 1]
        next_at = at - over / (slope - np.clip(0.5 * over * bend / slope, -0.5 * slope, 0.5 * slope))
        at = np.where((next_at >= low) & (next_at <= high), next_at, (low + high) / 2)
    return at


def estimates(shapes: Sequence[Shape], days: Sequence[date], used: Sequence[int], grid: Grid) -> list[Estimate]:
    """Turn beliefs into estimates in kilograms."""
    loads = [np.exp(quantiles(shape, grid)).tolist() for shape in shapes]
    return [
        Estimate(day, {reps: Band(*row) for reps, row in zip(REP_MAXES, table, strict=True)}, sets)
        for day, table, sets in zip(days, loads, used, strict=True)
    ]
