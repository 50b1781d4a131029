"""From a belief to loads: medians and 80 % bands of each rep-max, from the mixture over the grid's points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from scipy.special import ndtr

from tracker.strength.curve import Floats
from tracker.strength.filtering import Belief
from tracker.strength.grid import Grid
from tracker.strength.records import REP_MAXES, Band, Estimate

QUANTILES = np.array([0.5, 0.1, 0.9])
CHUNK = 16  # days solved at once: small enough to stay in the cache, and to share the curves that are still likely
NEGLIGIBLE = 1e-7  # weight of a curve that moves no digit
CLOSE = 1e-9  # of a probability


@dataclass(frozen=True, slots=True)
class Shape:
    """A belief of the level by curve: weight, mean and variance for each, all points of a curve joined to one."""

    weight: Floats
    mean: Floats
    var: Floats


def by_curve(belief: Belief, log_weight: Floats | None = None) -> Shape:
    """Join the points of each curve, keeping the first two moments."""
    logs = belief.log_weight if log_weight is None else log_weight
    weight = np.exp(logs - logs.max())
    weight /= weight.sum()
    level, var = belief.level()
    return join(weight, level, var, belief.lens.curve_of, len(belief.lens.grid.curves))


def join(weight: Floats, level: Floats, var: Floats, curve_of: np.ndarray, curves: int) -> Shape:
    """Sum weights and moments of the points of each curve; a curve without points has no weight."""
    mass = np.bincount(curve_of, weight, curves).astype(float)
    safe = np.where(mass > 0, mass, 1)
    mean = np.bincount(curve_of, weight * level, curves) / safe
    second = np.bincount(curve_of, weight * (var + (level - mean[curve_of]) ** 2), curves) / safe
    return Shape(mass, mean, np.where(mass > 0, second, 1.0))


def quantiles(shapes: Sequence[Shape], grid: Grid) -> Floats:
    """Return logarithms of loads: (shapes, rep-maxes, quantiles), a few days at a time."""
    return np.concatenate([_quantiles(shapes[at : at + CHUNK], grid) for at in range(0, len(shapes), CHUNK)])


def _quantiles(shapes: Sequence[Shape], grid: Grid) -> Floats:
    """Solve for the quantiles of mixtures by Newton steps, kept within brackets."""
    weights = np.stack([shape.weight for shape in shapes])
    keep = (weights > NEGLIGIBLE).any(axis=0)
    weight = weights[:, None, None, keep]  # (shapes, 1, 1, curves)
    sd = np.sqrt(np.stack([shape.var[keep] for shape in shapes]))[:, None, None]
    mean = np.stack([shape.mean[keep] for shape in shapes])[:, None] + grid.offsets[keep].T
    mean = mean[:, :, None]  # (shapes, rep-maxes, 1, curves)
    total = weight.sum(-1)
    middle = (weight * mean).sum(-1) / total
    spread = np.sqrt((weight * (sd**2 + (mean - middle[..., None]) ** 2)).sum(-1) / total)
    wanted = total * QUANTILES
    low, high = (middle + side * spread * np.ones(3) for side in (-8, 8))
    at = middle + spread * np.array([0.0, -1.2816, 1.2816])
    for _ in range(40):
        scaled = (at[..., None] - mean) / sd
        over = (weight * ndtr(scaled)).sum(-1) - wanted
        if np.abs(over).max() < CLOSE:
            break
        low, high = np.where(over < 0, at, low), np.where(over > 0, at, high)
        slope = (weight * np.exp(-0.5 * scaled**2) / sd).sum(-1) * 0.3989422804014327
        newton = at - over / np.maximum(slope, 1e-12)
        at = np.where((newton > low) & (newton < high), newton, (low + high) / 2)
    return at


def estimates(shapes: Sequence[Shape], days: Sequence[date], used: Sequence[int], grid: Grid) -> list[Estimate]:
    """Turn beliefs into estimates in kilograms."""
    loads = np.exp(quantiles(shapes, grid))
    return [
        Estimate(day, {reps: Band(*map(float, row)) for reps, row in zip(REP_MAXES, table, strict=True)}, sets)
        for day, table, sets in zip(days, loads, used, strict=True)
    ]
