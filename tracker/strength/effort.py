"""What one set says of the repetitions that its load had in it.

Every set becomes a row of weights over n, the whole repetitions to failure: a miss says "exactly n, or a slip", a bound
"n or more", a test "n, perhaps one or two more", a report of repetitions in reserve a hump where the habit of the member
puts it. The noise is on repetitions, where it belongs: a load is exact. A blank is a bound, and the day's best set of
unknown effort, which the habit of ease is learnt from (see filtering.py).
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np

from tracker.strength.curve import Floats
from tracker.strength.normal import ndtr
from tracker.strength.parameters import Habit, Parameters

MOST_REPS = 80  # repetitions to failure beyond this are all one
FAR_RIR = 6.0  # reported: this and more mean "six or more"
Saying = Literal["bound", "missed", "test", "blank", "report"]


class RepsEvidence(NamedTuple):
    """What a set says: which saying, at how many repetitions, and the report where there is one."""

    saying: Saying
    reps: int
    rir: float = 0.0
    usual: bool = False  # the report is the one that this member wrote first
    slip: float = 0.0  # probability that a miss was none of strength: at least so many were there


@lru_cache(maxsize=8)
def failure_odds(parameters: Parameters) -> tuple[Floats, Floats]:
    """Return a grid of what the curve says, R, and the probability of each n = 0..MOST_REPS to failure at each R.

    n is the whole part of R and a noise; the last column holds all that is more.
    """
    says = np.concatenate([np.arange(-6, 30, 0.1), np.arange(30, MOST_REPS + 10, 0.5)])
    sd = parameters.rep_sd + parameters.rep_sd_growth * np.clip(says, 0, None)
    at_least = ndtr((says[:, None] - np.arange(1, MOST_REPS + 1)) / sd[:, None])
    at_least = np.hstack([np.ones((len(says), 1)), at_least, np.zeros((len(says), 1))])
    return says, at_least[:, :-1] - at_least[:, 1:]


def weights(evidence: RepsEvidence, parameters: Parameters) -> Floats:
    """Return the likelihood of a piece of evidence at each n (rows) for each habit of reporting (columns)."""
    n = np.arange(MOST_REPS + 1, dtype=float)
    left = n - evidence.reps
    habits = parameters.habits
    if evidence.saying == "report":
        columns = [_report(evidence, np.clip(left, 0, None), habit) * (left >= 0) for habit in habits]
        return np.stack(columns, axis=1)
    if evidence.saying == "missed":
        row = (1 - evidence.slip) * (left == 0) + evidence.slip * (left > 0)
    elif evidence.saying == "test":
        row = np.zeros(len(n))
        room = min(len(parameters.test_left), MOST_REPS + 1 - evidence.reps)
        row[evidence.reps : evidence.reps + room] = parameters.test_left[:room]
    else:
        row = (left >= 0).astype(float)
    return np.repeat(row[:, None], len(habits), axis=1)


def _report(evidence: RepsEvidence, left: Floats, habit: Habit) -> Floats:
    """Probability of writing this number when `left` repetitions were left; halves count as half a step each way."""
    sd = habit.sd + habit.growth * left
    mean = habit.share * left
    low = -np.inf if evidence.rir < 0.25 else evidence.rir - 0.5
    high = np.inf if evidence.rir >= FAR_RIR else evidence.rir + 0.5
    told = ndtr((high - mean) / sd) - ndtr((low - mean) / sd)
    if habit.usual:
        told = habit.usual * float(evidence.usual) + (1 - habit.usual) * told
    return told
