"""Hindsight: what is known of each day from all sets, a Rauch-Tung-Striebel pass for each point of the grid."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from tracker.strength.bands import Shape, join
from tracker.strength.curve import Floats
from tracker.strength.filtering import Day
from tracker.strength.motion import LEVEL, move


def smoothed(days: Sequence[Day]) -> list[Shape]:
    """Return the level by curve on each day, weighted by all that came after."""
    last = days[-1].belief
    lens, weight = last.lens, np.exp(last.log_weight - last.log_weight.max())
    weight /= weight.sum()
    mean, cov = last.mean, last.cov
    found = [_level(weight, mean, cov, lens.curve_of, len(lens.grid.curves))]
    for now, later in zip(days[-2::-1], days[:0:-1], strict=True):
        kept = np.searchsorted(now.belief.lens.points, lens.points)
        expected = np.searchsorted(later.expected.lens.points, lens.points)
        if later.fresh == "anew":  # nothing leads from there to here
            mean, cov = now.belief.mean[:, kept], now.belief.cov[:, kept]
            found.append(_level(weight, mean, cov, lens.curve_of, len(lens.grid.curves)))
            continue
        how = move((later.day - now.day).days, lens.grid.parameters)
        if later.fresh == "again":  # what was believed then was centred on a slip
            cov = cov + how.noise
            found.append(_level(weight, mean, cov, lens.curve_of, len(lens.grid.curves)))
            continue
        mean, cov = back(
            (now.belief.mean[:, kept], now.belief.cov[:, kept]),
            (later.expected.mean[:, expected], later.expected.cov[:, expected]),
            (mean, cov),
            how.turn,
        )
        found.append(_level(weight, mean, cov, lens.curve_of, len(lens.grid.curves)))
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


def _level(weight: Floats, mean: Floats, cov: Floats, curve_of: np.ndarray, curves: int) -> Shape:
    return join(weight, LEVEL @ mean, np.maximum(np.kron(LEVEL, LEVEL) @ cov, 1e-10), curve_of, curves)
