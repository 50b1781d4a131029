"""How a level moves from one day to the next: slow gain, wander, the loss of a lay-off and its quick return.

The state of a lift is (base, gain, debt): the level is base - debt. The gain per week drifts about the population's. A
lay-off puts a loss into the debt and lets the gain start anew; while training goes on the debt melts away.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tracker.strength.curve import Floats
from tracker.strength.parameters import Pace, Parameters

LEVEL = np.array([1.0, 0.0, -1.0])  # level = base - debt
LEVEL2 = np.kron(LEVEL, LEVEL)  # the same for a covariance as nine rows


@dataclass(frozen=True, slots=True)
class Move:
    """A linear step of the state for each pace: x -> turn x + push, with noise.

    Shapes: turn (paces, 3, 3), of which only the first row's second place is off the diagonal; push (3, paces); noise
    (9, paces), a covariance as nine rows.
    """

    turn: Floats
    push: Floats
    noise: Floats

    def carried(self, mean: Floats, cov: Floats, pace_of: NDArray[np.intp]) -> tuple[Floats, Floats]:
        """Return means (3, points) and covariances (9, points) after the step; `pace_of` says which pace a point has."""
        gained, kept, melted = (self.turn[:, i, j].take(pace_of) for i, j in ((0, 1), (1, 1), (2, 2)))
        moved, spread = self.push.take(pace_of, axis=1), self.noise.take(pace_of, axis=1)
        moved[0] += mean[0] + gained * mean[1]
        moved[1] += kept * mean[1]
        moved[2] += melted * mean[2]
        base_gain, base_debt = cov[1] + gained * cov[4], melted * (cov[2] + gained * cov[5])
        spread[0] += cov[0] + gained * (cov[1] + base_gain)
        spread[4] += kept**2 * cov[4]
        spread[8] += melted**2 * cov[8]
        for (row, mirrored), crossed in zip(
            ((1, 3), (2, 6), (5, 7)), (kept * base_gain, base_debt, kept * melted * cov[5]), strict=True
        ):
            spread[row] += crossed
            spread[mirrored] += crossed
        return moved, spread


@dataclass(frozen=True, slots=True)
class _Step:
    """The same for one pace: turn (3, 3), push (3), noise (3, 3)."""

    turn: Floats
    push: Floats
    noise: Floats

    def then(self, later: _Step) -> _Step:
        noise = later.turn @ self.noise @ later.turn.T + later.noise
        return _Step(later.turn @ self.turn, later.turn @ self.push + later.push, noise)


@lru_cache(maxsize=4096)
def move(days: int, p: Parameters) -> Move:
    """Return how the state moves over `days` days without a set of this lift."""
    each = [_step(days / 7, p, pace) for pace in p.paces]
    return Move(
        np.stack([step.turn for step in each]),
        np.stack([step.push for step in each], axis=1),
        np.stack([step.noise.ravel() for step in each], axis=1),
    )


def _step(weeks: float, p: Parameters, pace: Pace) -> _Step:
    first = _train(min(weeks, p.free_weeks), p, pace)
    return first.then(_rest(weeks, p, pace)) if weeks > p.free_weeks else first


def _train(weeks: float, p: Parameters, pace: Pace) -> _Step:
    decay = np.exp(-weeks / pace.weeks)
    kept = pace.weeks * (1 - decay)
    turn = np.array([[1, kept, 0], [0, decay, 0], [0, 0, np.exp(-weeks / p.regain_weeks)]])
    push = np.array([p.gain * (weeks - kept), p.gain * (1 - decay), 0])
    noise = np.zeros((3, 3))
    steps = weeks / pace.weeks
    noise[0, 0] = (pace.change_sd * pace.weeks) ** 2 * max(0.0, 2 * steps - 3 + 4 * decay - decay**2)
    noise[0, 0] += pace.wander_sd**2 * weeks
    noise[0, 1] = noise[1, 0] = pace.change_sd**2 * pace.weeks * (1 - decay) ** 2
    noise[1, 1] = pace.change_sd**2 * (1 - decay**2)
    return _Step(turn, push, noise)


def _rest(weeks: float, p: Parameters, pace: Pace) -> _Step:
    off = weeks - p.free_weeks
    loss = min(p.loss_most, p.loss_early * min(off, 2) + p.loss_late * max(0.0, off - 2))
    kept = np.exp(-off / 2)  # the gain starts anew within a few weeks; design
    turn = np.diag([1.0, kept, 1.0])
    noise = np.diag(
        [pace.wander_sd**2 * off, pace.change_sd**2 * (1 - kept**2), min(p.loss_sd * off, p.loss_most / 2) ** 2]
    )
    return _Step(turn, np.array([0, p.gain * (1 - kept), loss]), noise)
