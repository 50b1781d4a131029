"""Hindsight: what is known of each day from all sets, a Rauch-Tung-Striebel pass for each point of the grid."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tracker.strength.bands import Shape, mixture, shape_of
from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.filtering import Day
from tracker.strength.motion import LEVEL, LEVEL2, move


def smoothed(days: Sequence[Day]) -> list[Shape]:
    """Return the mixture of the level on each day, weighted by all that came after."""
    found = [shape_of(days[-1].belief)]
    last = days[-1].belief.merged()
    lens, p = last.lens, last.lens.grid.parameters
    weight = np.exp(last.log_weight - last.log_weight.max())
    mean, cov = last.mean, last.cov
    for now, later in zip(days[-2::-1], days[:0:-1], strict=True):
        then = now.belief.merged()
        kept = np.searchsorted(then.lens.points, lens.points)
        then = Belief(lens, weight, then.mean[:, kept], then.cov[:, kept])
        apart = (later.day - now.day).days
        if later.fresh == "anew":  # nothing leads from there to here
            mean, cov = then.mean, then.cov
        elif later.fresh == "again":  # what was believed then was centred on a slip
            cov = cov + move(apart, p).noise[:, lens.pace_of]
        else:
            ahead = then.ahead(apart, p)
            if later.fresh == "leap":
                ahead = ahead.widened(p.leap_sd)
            mean, cov = back((then.mean, then.cov), (ahead.mean, ahead.cov), (mean, cov), move(apart, p).turn)
        found.append(mixture(weight, LEVEL @ mean, np.maximum(LEVEL2 @ cov, 1e-10), lens))
    return found[::-1]


def back(
    now: tuple[Floats, Floats], expected: tuple[Floats, Floats], later: tuple[Floats, Floats], turn: Floats
) -> tuple[Floats, Floats]:
    """Take one step back: filtered moments of now, expected and smoothed moments of the later day."""
    cov_now, cov_expected, cov_later = (
        np.moveaxis(cov.reshape(3, 3, -1), -1, 0) for cov in (now[1], expected[1], later[1])
    )
    cross = turn @ cov_now  # expected with now
    gain = np.swapaxes(np.linalg.solve(cov_expected + 1e-14 * np.eye(3), cross), 1, 2)
    mean = now[0] + np.einsum("gij,jg->ig", gain, later[0] - expected[0])
    cov = cov_now + gain @ (cov_later - cov_expected) @ np.swapaxes(gain, 1, 2)
    return mean, np.moveaxis(cov, 0, -1).reshape(9, -1)
