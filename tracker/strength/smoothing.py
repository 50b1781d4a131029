"""Hindsight: what is known of each day from all sets, a Rauch-Tung-Striebel pass for each point of the grid."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tracker.strength.bands import NEGLIGIBLE, Shape, mixture, shape_of
from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.filtering import Day, more_sd
from tracker.strength.grid import ActivePoints
from tracker.strength.motion import LEVEL, LEVEL2, SIZE, move
from tracker.strength.review import before_review, moments, reviewed


@dataclass(frozen=True, slots=True)
class Hindsight:
    """Points, their weights, and smoothed moments of their states on one day."""

    active: ActivePoints
    weight: Floats
    mean: Floats
    cov: Floats

    def shape(self) -> Shape:
        return mixture(self.weight, LEVEL @ self.mean, np.maximum(LEVEL2 @ self.cov, 1e-10), self.active)


def smoothed(days: Sequence[Day]) -> list[Shape]:
    """Return the mixture of the level on each day, weighted by all that came after."""
    found = [shape_of(days[-1].belief)]
    last = days[-1].belief.merged()
    known = Hindsight(last.active, np.exp(last.log_weight - last.log_weight.max()), last.mean, last.cov)
    for now, later in zip(days[-2::-1], days[:0:-1], strict=True):
        known = _earlier(known, now, later)
        found.append(known.shape())
    return found[::-1]


def _earlier(known: Hindsight, now: Day, later: Day) -> Hindsight:
    """Go back from a day to the one before it."""
    p, then = known.active.grid.parameters, now.belief.merged()
    how = move(later.gap, p)
    lost = not later.review and not np.isin(known.active.points, then.active.points).any()
    if later.fresh == "again" or lost:  # what was believed then was centred on a slip, and some points fell for it
        return Hindsight(known.active, known.weight, known.mean, known.cov + how.noise[:, known.active.pace_of])
    if later.review:
        then, known = _over_review(then, then.ahead(later.gap, p), known)
    else:
        then, known = _same_points(then, known)
    if later.fresh == "anew":  # nothing leads from there to here
        return Hindsight(known.active, known.weight, then.mean, then.cov)
    ahead = then.ahead(later.gap, p).widened(more_sd(later.fresh, later.gap, p))
    mean, cov = back(
        (then.mean, then.cov), (ahead.mean, ahead.cov), (known.mean, known.cov), how.transition[known.active.pace_of]
    )
    return Hindsight(known.active, known.weight, mean, cov)


def _same_points(then: Belief, known: Hindsight) -> tuple[Belief, Hindsight]:
    """Narrow both to the points that both know; one that began again may know some that were dropped before."""
    both, at_then, at_known = np.intersect1d(
        then.active.points, known.active.points, assume_unique=True, return_indices=True
    )
    if len(both) < len(known.active.points):
        active = ActivePoints(then.active.grid, both)
        known = Hindsight(active, known.weight[at_known], known.mean[:, at_known], known.cov[:, at_known])
    return Belief(known.active, known.weight, then.mean[:, at_then], then.cov[:, at_then]), known


def _over_review(then: Belief, ahead: Belief, known: Hindsight) -> tuple[Belief, Hindsight]:
    """Take hindsight to the points before a review: a point that stayed has its own, one that changed the whole's."""
    weight, stayed = before_review(ahead, reviewed(ahead), known.active, known.weight)
    keep = weight > NEGLIGIBLE
    active = ActivePoints(then.active.grid, then.active.points[keep])
    then = Belief(active, np.log(weight[keep]), then.mean[:, keep], then.cov[:, keep])
    own, whole = stayed[keep], moments(known.weight, known.mean, known.cov)
    at = np.minimum(np.searchsorted(known.active.points, active.points), len(known.active.points) - 1)
    mean = own * known.mean[:, at] + (1 - own) * whole[0][:, None]
    apart = known.mean[:, at] - whole[0][:, None]
    between = own * (1 - own) * (apart[:, None] * apart[None]).reshape(SIZE * SIZE, -1)
    cov = own * known.cov[:, at] + (1 - own) * whole[1][:, None] + between
    return then, Hindsight(active, weight[keep], mean, cov)


def back(
    now: tuple[Floats, Floats], expected: tuple[Floats, Floats], later: tuple[Floats, Floats], transition: Floats
) -> tuple[Floats, Floats]:
    """Take one step back: filtered moments of now, expected and smoothed moments of the later day."""
    cov_now, cov_expected, cov_later = (
        np.moveaxis(cov.reshape(SIZE, SIZE, -1), -1, 0) for cov in (now[1], expected[1], later[1])
    )
    cross = transition @ cov_now  # expected with now
    gain = np.swapaxes(np.linalg.solve(cov_expected + 1e-14 * np.eye(SIZE), cross), 1, 2)
    mean = now[0] + np.einsum("gij,jg->ig", gain, later[0] - expected[0])
    cov = cov_now + gain @ (cov_later - cov_expected) @ np.swapaxes(gain, 1, 2)
    return mean, np.moveaxis(cov, 0, -1).reshape(SIZE * SIZE, -1)
