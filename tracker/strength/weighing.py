"""The sums of one step of the filter: a likelihood over a lattice of loads, times what each point expects of the day.

Nothing here knows of sets or days; `filtering.py` says what is weighed.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil, floor

import numpy as np
from numpy.typing import NDArray

from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.grid import STEP
from tracker.strength.motion import DEBT, SIZE

SPAN = 4.0  # standard deviations of an expectation that the lattice covers on each side; design
FEW = 16  # so few expectations are worked out each by itself; of the computation
FAINT = 1e-200  # a mass below this is summed again from its highest node on, lest it vanish; of the computation


def lattice(centre: Floats, var: Floats, anchor: float) -> Floats:
    """Return the nodes, whole steps from the anchor, that cover all expectations."""
    reach = np.sqrt(var)
    reach *= SPAN
    low = floor((float((centre - reach).min()) - anchor) / STEP)
    reach += centre
    high = ceil((float(reach.max()) - anchor) / STEP)
    return anchor + STEP * np.arange(low, high + 1.0)


def weigh(
    expected: Belief, nodes: Floats, log_like: Floats, form_sd: float, into: NDArray[np.intp] | None = None
) -> tuple[Belief, Floats]:
    """Update means, covariances and weights with a likelihood of the day's capability, (columns, nodes).

    `into` says which column is a point's; each has its own where it is not given. Returns the belief and each point's mean
    of the day's capability.
    """
    state = expected.cov.reshape(SIZE, SIZE, -1)
    cross = state[0] - state[DEBT]  # of the state with the level
    total_var = cross[0] - cross[DEBT]
    total_var += form_sd**2
    middle = nodes.item(len(nodes) // 2)
    off = expected.mean[0] - expected.mean[DEBT]
    off -= middle
    found = None
    if into is not None and expected.active is expected.active.grid.all_points:
        found = _moments_of_few(log_like, into, off, total_var)
    log_mass, mean, spread = found or _moments(log_like, into, off, total_var)
    gain = cross / total_var
    new_mean = gain * (mean - off)
    new_mean += expected.mean
    gain *= 1 - spread / total_var
    new_cov = (cross[:, None] * gain).reshape(SIZE * SIZE, -1)
    np.subtract(expected.cov, new_cov, out=new_cov)
    log_mass += expected.log_weight
    log_mass -= log_mass.max()
    mean += middle
    return Belief(expected.active, log_mass, new_mean, new_cov), mean


def _moments(
    log_like: Floats, into: NDArray[np.intp] | None, off: Floats, var: Floats
) -> tuple[Floats, Floats, Floats]:
    """Return logarithm of the mass, mean and variance of a likelihood times normal expectations, for each point."""
    powers, bell = _powers(log_like.shape[1]), np.empty((3, len(off)))
    np.divide(-0.5, var, out=bell[2])
    np.multiply(bell[2], off, out=bell[0])
    np.multiply(bell[0], -2, out=bell[1])
    bell[0] *= off
    logs = bell.T @ powers  # -(away - off)^2 / (2 var), away from the middle node
    logs += log_like if into is None else log_like.take(into, axis=0)
    top = 0.0
    mass, first, second = powers @ np.exp(logs).T
    if not mass.min() > FAINT:  # what is said is mostly far from nothing somewhere near what was expected
        top = logs.max(axis=1)
        logs -= top[:, None]
        mass, first, second = powers @ np.exp(logs).T
    return _scaled(mass, first, second, var, top)


def _moments_of_few(
    log_like: Floats, into: NDArray[np.intp], off: Floats, var: Floats
) -> tuple[Floats, Floats, Floats] | None:
    """Return the same where many points share a few expectations, as on a first day; None where they don't."""
    some, which = np.unique(off, return_inverse=True)
    if len(some) > FEW or np.ptp(var):
        return None
    powers, top = _powers(log_like.shape[1]), log_like.max(axis=1)
    bells = np.exp(-0.5 * (powers[1] - some[:, None]) ** 2 / var[0])
    sums = np.exp(log_like - top[:, None]) @ (powers[:, None] * bells).reshape(3 * len(some), -1).T
    mass, first, second = sums.reshape(len(log_like), 3, -1).transpose(1, 0, 2)[:, into, which]
    return _scaled(mass, first, second, var, top[into]) if mass.min() > FAINT else None


@lru_cache(maxsize=256)
def _powers(nodes: int) -> Floats:
    """Return 1, how far each of so many nodes lies from their middle, and its square."""
    away = STEP * (np.arange(float(nodes)) - nodes // 2)
    powers = np.stack([np.ones(nodes), away, away * away])
    powers.flags.writeable = False  # they are kept
    return powers


def _scaled(
    mass: Floats, first: Floats, second: Floats, var: Floats, top: Floats | float
) -> tuple[Floats, Floats, Floats]:
    mean = first / mass
    spread = second / mass
    spread -= mean * mean
    np.maximum(spread, 1e-10, out=spread)
    log_mass = np.log(mass / np.sqrt(var))
    log_mass += top
    return log_mass, mean, spread
