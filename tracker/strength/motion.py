"""How a level moves from one day to the next: slow gain, wander, the loss of a lay-off and its quick return.

The state of a lift is (base, gain, debt): the level is base - debt. The gain per week drifts about the population's. A
lay-off puts a loss into the debt and lets the gain start anew; while training goes on the debt melts away.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from tracker.strength.curve import Floats
from tracker.strength.parameters import Pace, Parameters

LEVEL = np.array([1.0, 0.0, -1.0])  # level = base - debt
LEVEL2 = np.kron(LEVEL, LEVEL)  # the same for a covariance as nine rows


@dataclass(frozen=True, slots=True)
class Move:
    """A linear step of the state: x -> turn x + push, with noise; `turn2` is the same for a covariance as nine rows."""

    turn: Floats
    push: Floats
    noise: Floats  # nine rows, a column for each pace
    turn2: Floats


@lru_cache(maxsize=4096)
def move(days: int, p: Parameters) -> Move:
    """Return how the state moves over `days` days without a set of this lift; noise has a column for each pace."""
    each = [_move(days / 7, p, pace) for pace in p.paces]
    return replace(each[0], noise=np.hstack([how.noise for how in each]))


def _move(weeks: float, p: Parameters, pace: Pace) -> Move:
    train = min(weeks, p.free_weeks)
    first = _train(train, p, pace)
    return _joined(first, _rest(weeks, p, pace)) if weeks > p.free_weeks else first


def _train(weeks: float, p: Parameters, pace: Pace) -> Move:
    decay = np.exp(-weeks / p.gain_weeks)
    kept = p.gain_weeks * (1 - decay)
    turn = np.array([[1, kept, 0], [0, decay, 0], [0, 0, np.exp(-weeks / p.regain_weeks)]])
    push = np.array([p.gain * (weeks - kept), p.gain * (1 - decay), 0])
    noise = np.zeros((3, 3))
    steps = weeks / p.gain_weeks
    noise[0, 0] = (pace.change_sd * p.gain_weeks) ** 2 * max(0.0, 2 * steps - 3 + 4 * decay - decay**2)
    noise[0, 0] += pace.wander_sd**2 * weeks
    noise[0, 1] = noise[1, 0] = pace.change_sd**2 * p.gain_weeks * (1 - decay) ** 2
    noise[1, 1] = pace.change_sd**2 * (1 - decay**2)
    return _made(turn, push, noise)


def _rest(weeks: float, p: Parameters, pace: Pace) -> Move:
    off = weeks - p.free_weeks
    loss = min(p.loss_most, p.loss_early * min(off, 2) + p.loss_late * max(0.0, off - 2))
    kept = np.exp(-off / 2)  # the gain starts anew within a few weeks; design
    turn = np.diag([1.0, kept, 1.0])
    noise = np.diag(
        [pace.wander_sd**2 * off, pace.change_sd**2 * (1 - kept**2), min(p.loss_sd * off, p.loss_most / 2) ** 2]
    )
    return _made(turn, np.array([0, p.gain * (1 - kept), loss]), noise)


def _made(turn: Floats, push: Floats, noise: Floats) -> Move:
    return Move(turn, push[:, None], noise.reshape(9, 1), np.kron(turn, turn))


def _joined(first: Move, then: Move) -> Move:
    noise = then.turn2 @ first.noise + then.noise
    return _made(then.turn @ first.turn, (then.turn @ first.push + then.push)[:, 0], noise)
