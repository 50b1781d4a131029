"""How a level moves from one day to the next: slow gain, wander, the loss of a lay-off and its quick return.

The state of a lift is (base, gain, debt, ease): the level is base - debt. The gain per week drifts about the population's.
A lay-off puts a loss into the debt and lets the gain start anew; while training goes on the debt melts away. Ease is no
strength but a habit that changes slowly: how far the day's best set of unknown effort usually stays below the level. It is
the same from day to day, so that many sets of one habit are not many pieces of evidence.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import exp, sqrt

import numpy as np

from tracker.strength.curve import Floats
from tracker.strength.parameters import Pace, Parameters

LEVEL = np.array([1.0, 0.0, -1.0, 0.0])  # level = base - debt
SIZE = len(LEVEL)
DEBT, EASE = 2, 3  # their places in the state; the base has the first
LEVEL2 = np.kron(LEVEL, LEVEL)  # the same for a covariance as SIZE x SIZE rows
AFRESH_WEEKS = 2.0  # time constant with which the gain starts anew while a lift rests; design


@dataclass(frozen=True, slots=True)
class Gap:
    """The time between two days with sets of a lift.

    `silent` of its days stand for the longest stretch in which nothing at all was logged. `tests_only`: so far nothing
    but tests was logged, so that whoever writes it trains without writing that down.
    """

    days: int
    silent: int
    tests_only: bool = False


@dataclass(frozen=True, slots=True)
class Move:
    """A linear step of the state for each pace: x -> transition x + offset, with noise.

    Shapes: transition (paces, SIZE, SIZE), of which only the first row's second place is off the diagonal; offset (SIZE, paces);
    noise (SIZE x SIZE, paces), a covariance as rows.
    """

    transition: Floats
    offset: Floats
    noise: Floats
    parts: Floats  # (rows, paces): what `carried` multiplies by and adds, one below the other

    @classmethod
    def of(cls, steps: Sequence[_Step]) -> Move:
        """Lay the steps of all paces side by side."""
        transition = np.stack([step.transition for step in steps])
        offset = np.stack([step.offset for step in steps], axis=1)
        noise = np.stack([step.noise.ravel() for step in steps], axis=1)
        kept = np.stack([np.diag(step.transition) for step in steps], axis=1)  # the diagonal
        kept2 = (kept[:, None] * kept[None]).reshape(SIZE * SIZE, -1)
        gained = transition[:, 0, 1]  # how much of the gain goes into the base
        return cls(transition, offset, noise, np.vstack([kept2, noise, kept, offset, kept * gained, gained, gained**2]))

    def carried(self, mean: Floats, cov: Floats, has_pace: Floats) -> tuple[Floats, Floats]:
        """Return means (SIZE, points) and covariances (SIZE x SIZE, points) after the step.

        `has_pace`, (paces, points) or one column for all, is 1 at the pace of a point and 0 elsewhere.
        """
        parts = self.parts @ has_pace
        square, at = SIZE * SIZE, 2 * SIZE * SIZE
        moved = parts[at : at + SIZE] * mean
        moved += parts[at + SIZE : at + 2 * SIZE]
        moved[0] += parts[-2] * mean[1]
        # with D the diagonal: transition cov transition' = D cov D, and what the gain puts into the base
        spread = parts[:square] * cov
        spread += parts[square:at]
        with_gain = parts[at + 2 * SIZE : -2] * cov[SIZE : 2 * SIZE]
        spread[:SIZE] += with_gain
        spread[::SIZE] += with_gain
        spread[0] += parts[-1] * cov[SIZE + 1]
        return moved, spread


@dataclass(frozen=True, slots=True)
class _Step:
    """The same for one pace: transition (SIZE, SIZE), offset (SIZE), noise (SIZE, SIZE)."""

    transition: Floats
    offset: Floats
    noise: Floats

    def then(self, later: _Step) -> _Step:
        noise = later.transition @ self.noise @ later.transition.T + later.noise
        return _Step(later.transition @ self.transition, later.transition @ self.offset + later.offset, noise)


@lru_cache(maxsize=4096)
def move(gap: Gap, p: Parameters) -> Move:
    """Return how the state moves over a gap without a set of this lift."""
    return Move.of([_step(gap, p, pace) for pace in p.paces])


def _step(gap: Gap, p: Parameters, pace: Pace) -> _Step:
    """Train on for the days that are too few to lose anything; then the lift rests, or all training does."""
    weeks, off = gap.days / 7, max(0.0, gap.silent / 7 - p.free_weeks)
    rested = max(0.0, weeks - off - p.free_weeks)
    step = _train(weeks - off - rested, p, pace)
    if rested:
        step = step.then(_rest(rested, p, pace, 0.0, 0.0, min(p.rest_sd * rested, p.rest_most)))
    if off:
        step = step.then(_rest(off, p, pace, *_lost(gap, off, p)))
    return step


def _lost(gap: Gap, off: float, p: Parameters) -> tuple[float, float, float]:
    """Return the mean loss of a lay-off, mixed with "trained and did not log", which loses nothing; and two SDs.

    The first is of what stays: where nothing but tests was ever logged, training went on, and what changed meanwhile is no
    loss that melts away. The second is of the loss.
    """
    loss = min(p.loss_most, p.loss_early * min(off, 2) + p.loss_late * max(0.0, off - 2))
    trained = p.tests_only_trained if gap.tests_only else 0.0
    lost = (1 - trained) * exp(-off / p.unlogged_weeks)
    own = min(p.loss_sd * off, p.loss_sd_most)
    return lost * loss, own * sqrt(trained), sqrt((1 - trained) * own**2 + lost * (1 - lost) * loss**2)


def _habit(weeks: float, p: Parameters) -> tuple[float, float]:
    """Return what is kept of the ease, and the variance that comes: it goes back to what people are like."""
    kept = exp(-weeks / p.ease_weeks)
    return kept, p.ease_sd**2 * (1 - kept**2)


def _train(weeks: float, p: Parameters, pace: Pace) -> _Step:
    decay = np.exp(-weeks / pace.weeks)
    gained = pace.weeks * (1 - decay)
    kept, come = _habit(weeks, p)
    transition = np.diag([1, decay, np.exp(-weeks / p.regain_weeks), kept])
    transition[0, 1] = gained
    offset = np.array([p.gain * (weeks - gained), p.gain * (1 - decay), 0, p.ease * (1 - kept)])
    noise = np.diag([0.0, pace.change_sd**2 * (1 - decay**2), 0, come])
    steps = weeks / pace.weeks
    noise[0, 0] = (pace.change_sd * pace.weeks) ** 2 * max(0.0, 2 * steps - 3 + 4 * decay - decay**2)
    noise[0, 0] += pace.wander_sd**2 * weeks
    noise[0, 1] = noise[1, 0] = pace.change_sd**2 * pace.weeks * (1 - decay) ** 2
    return _Step(transition, offset, noise)


def _rest(weeks: float, p: Parameters, pace: Pace, loss: float, stays_sd: float, loss_sd: float) -> _Step:
    left = np.exp(-weeks / AFRESH_WEEKS)
    kept, come = _habit(weeks, p)
    transition = np.diag([1.0, left, 1.0, kept])
    base = pace.wander_sd**2 * weeks + stays_sd**2
    noise = np.diag([base, pace.change_sd**2 * (1 - left**2), loss_sd**2, come])
    return _Step(transition, np.array([0, p.gain * (1 - left), loss, p.ease * (1 - kept)]), noise)
