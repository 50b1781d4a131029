"""From a belief to loads: medians and 80 % bands of each rep-max, from the mixture over the grid's points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.grid import ActivePoints, Grid
from tracker.strength.normal import ndtr
from tracker.strength.parameters import PIVOT, Parameters
from tracker.strength.records import REP_MAXES, Band, Estimate

QUANTILES = np.array([0.5, 0.1, 0.9])
NORMAL = np.array([0.0, -1.2815515655446004, 1.2815515655446004])  # of the normal distribution
NEGLIGIBLE = 1e-5  # weight of a part, of the greatest, that moves nothing that is shown
CLOSE = 1e-8  # of a probability
Told = tuple[int, int] | None


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
    return mixture(np.exp(belief.log_weight - belief.log_weight.max()), level, var, belief.active)


def mixture(weight: Floats, level: Floats, var: Floats, active: ActivePoints) -> Shape:
    """Join points that go together (see `ActivePoints.group_of`), keeping their moments, and leave out what moves no digit."""
    keep = weight > NEGLIGIBLE * weight.max()
    if not keep.all():
        weight, level, var = weight[keep], level[keep], var[keep]
    found, into = np.unique(active.group_of[keep], return_inverse=True)
    mass = np.bincount(into, weight)
    share = weight / mass[into]
    mean = np.bincount(into, share * level).astype(float)
    second = np.bincount(into, share * (var + (level - mean[into]) ** 2)).astype(float)
    return Shape(mass / mass.sum(), mean, second, found % len(active.grid.curves))


@lru_cache(maxsize=512)
def misfit(told: tuple[int, int] | None, parameters: Parameters) -> Floats:
    """Return the variance that each rep-max has because no family of curves is a person's, from the repetitions told on."""
    low, high = told or (PIVOT, PIVOT)
    reps = np.array(REP_MAXES)
    line = np.log1p(parameters.curve_per_rep * (np.stack([reps, np.clip(reps, low, high)]) - 1))
    return (parameters.curve_misfit * (line[0] - line[1])) ** 2


def quantiles(shape: Shape, grid: Grid, more: Floats) -> Floats:
    """Return logarithms of loads, (rep-maxes, quantiles), by Halley steps on the mixture kept within brackets.

    `more` is a variance for each rep-max that all parts have.
    """
    weight, var = shape.weight, (shape.var + more[:, None])[:, None]  # (rep-maxes, 1, parts)
    sd = np.sqrt(var)
    mean = (shape.mean + grid.offsets[shape.curve].T)[:, None]  # (rep-maxes, 1, parts)
    middle = mean @ weight
    spread = np.sqrt(((mean - middle[..., None]) ** 2 + var) @ weight)
    at = middle + spread * NORMAL
    low, high = middle - 8 * spread + 0 * at, middle + 8 * spread + 0 * at
    height = np.stack([weight / sd, -weight / var], axis=-1)[:, 0] * 0.3989422804014327  # (rep-maxes, parts, 2)
    for _ in range(30):
        scaled = (at[..., None] - mean) / sd
        over = ndtr(scaled) @ weight - QUANTILES
        if np.abs(over).max() < CLOSE:
            break
        low, high = np.where(over < 0, at, low), np.where(over > 0, at, high)
        bell = np.exp(-0.5 * scaled**2)
        slope = np.maximum((bell @ height[..., :1])[..., 0], 1e-12)
        bend = ((bell * scaled) @ height[..., 1:])[..., 0]
        next_at = at - over / (slope - np.clip(0.5 * over * bend / slope, -0.5 * slope, 0.5 * slope))
        at = np.where((next_at >= low) & (next_at <= high), next_at, (low + high) / 2)
    return at


def estimates(
    shapes: Sequence[Shape], days: Sequence[date], used: Sequence[int], told: Sequence[Told], grid: Grid
) -> list[Estimate]:
    """Turn beliefs into estimates in kilograms; `told` are the fewest and the most repetitions that were tested or told."""
    loads = [
        np.exp(quantiles(shape, grid, misfit(each, grid.parameters))).tolist()
        for shape, each in zip(shapes, told, strict=True)
    ]
    return [
        Estimate(day, {reps: Band(*row) for reps, row in zip(REP_MAXES, table, strict=True)}, sets)
        for day, table, sets in zip(days, loads, used, strict=True)
    ]
