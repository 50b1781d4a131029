"""What is believed on a day: a normal state for each point of the grid, and how likely each point is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import exp

import numpy as np
from numpy.typing import NDArray

from tracker.strength.curve import Floats
from tracker.strength.grid import ActivePoints, places
from tracker.strength.motion import DEBT, SIZE, Gap, move
from tracker.strength.parameters import Parameters


@dataclass(frozen=True, slots=True)
class Belief:
    """Means (SIZE, points) and covariances (SIZE x SIZE, points) of the state, and the points' log weights."""

    active: ActivePoints
    log_weight: Floats
    mean: Floats
    cov: Floats

    def level(self) -> tuple[Floats, Floats]:
        """Return mean and variance of each point's level."""
        var = self.cov[0] - self.cov[DEBT]
        var -= self.cov[DEBT * SIZE]
        var += self.cov[DEBT * SIZE + DEBT]
        return self.mean[0] - self.mean[DEBT], var

    def middle(self) -> float:
        """Return the mean of the level over all points."""
        weight = np.exp(self.log_weight)
        return float(weight @ self.level()[0] / weight.sum())

    def merged(self) -> Belief:
        """Return the belief with the starts of each point joined to one, moments kept."""
        key = self.active.grid.without_start(self.active.points)
        points, into = places(key)
        if np.array_equal(points, self.active.points):
            return self
        weight = np.exp(self.log_weight)
        mass = _summed(weight[None], into, len(points))[0]
        share = weight / mass[into]
        mean = _summed(share * self.mean, into, len(points))
        apart = self.mean - mean[:, into]
        spread = self.cov + (apart[:, None] * apart[None]).reshape(SIZE * SIZE, -1)
        return Belief(
            ActivePoints(self.active.grid, points), np.log(mass), mean, _summed(share * spread, into, len(points))
        )

    def skew(self) -> float:
        """Return how skewed the level is within the points that are joined by `merged`, as a mean."""
        level, var = self.level()
        into = places(self.active.grid.without_start(self.active.points))[1]
        weight, size = np.exp(self.log_weight), into.max() + 1
        mass = _summed(weight[None], into, size)[0]
        mean = (_summed((weight * level)[None], into, size)[0] / mass)[into]
        second = _summed((weight * (var + (level - mean) ** 2))[None], into, size)[0] / mass
        third = _summed((weight * (3 * var * (level - mean) + (level - mean) ** 3))[None], into, size)[0] / mass
        return float(mass @ np.abs(third / second**1.5) / mass.sum())

    def widened(self, sd: float) -> Belief:
        """Return the belief with a level that is less certain by `sd`."""
        cov = self.cov.copy()
        cov[0] += sd**2
        return replace(self, cov=cov)

    def tired(self) -> Belief:
        """Return the belief of somebody who is now known to go to failure: more fatigue is likelier than it was held to be."""
        p, grid = self.active.grid.parameters, self.active.grid
        odds = np.log(p.fatigue_to_failure) - np.log(p.fatigue_weights)
        log_weight = self.log_weight + odds[grid.fatigue_of[self.active.points]]
        return replace(self, log_weight=log_weight - log_weight.max())

    def faded(self, days: int, weeks: float) -> Belief:
        """Return the belief with what was learnt of the points faded towards the prior, with a time constant in weeks."""
        if days <= 0:
            return self
        kept = exp(-days / 7 / weeks)
        log_weight = kept * self.log_weight + (1 - kept) * self.active.log_prior
        return Belief(self.active, log_weight - log_weight.max(), self.mean, self.cov)

    def ahead(self, gap: Gap, parameters: Parameters) -> Belief:
        """Return the belief after a gap without a set."""
        if gap.days == 0:
            return self
        mean, cov = move(gap, parameters).carried(self.mean, self.cov, self.active.has_pace)
        return Belief(self.active, self.log_weight, mean, cov)


def _summed(rows: Floats, into: NDArray[np.intp], size: int) -> Floats:
    return np.stack([np.bincount(into, row, size).astype(float) for row in rows])
