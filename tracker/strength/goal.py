"""How likely an nRM comes to a load by a day, and when as likely as not, from the belief of today carried ahead.

"Come to it by then" is a first passage: in one of the weeks up to that day the level is there, whether or not it still is on
the day itself. So the paths of the level are needed and not only where each week's belief ends. They are a table of random
numbers, made once and the same for every question, put through the model's own motion (`outset.onward`): so a later day or
a lighter load is never less likely, and the same question has the same answer each time. `test` is another event: one test
on that very day, with the form of that day.

Neither is what reaches a goal: that is what was done, and nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from math import ceil, log

import numpy as np

from tracker.errors import BadInputError
from tracker.strength.bands import NEGLIGIBLE, misfit
from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import MOST_WEEKS, WEEK, chance_then, check_weeks, reach, usual_gap
from tracker.strength.motion import LEVEL, SIZE, move
from tracker.strength.outset import onward, outset
from tracker.strength.parameters import Parameters
from tracker.strength.records import REP_MAXES

PATHS = 4096  # their error of a chance is at most 0.8 of a hundred; design
SEED = 1  # of the table of random numbers; any does
EVEN = 0.5


@dataclass(frozen=True, slots=True)
class Outlook:
    """How likely it is that an nRM has come to a load by each week from today on, the first of them today.

    `test` is the chance that one test on the day that was asked for makes it; None where no day was.
    """

    weeks: tuple[float, ...]
    test: float | None = None

    def by(self, weeks: float) -> float:
        """Return the chance by so many weeks from today; between two whole ones what lies between."""
        return float(np.interp(weeks, np.arange(len(self.weeks)), self.weeks))

    @property
    def even(self) -> int | None:
        """The first week by which it is as likely as not, 0 for today; None where it is not within the weeks asked."""
        return next((week for week, chance in enumerate(self.weeks) if chance >= EVEN), None)


def chance_by(model: LiftModel, load_kg: float, reps: int, day: date, by: date) -> float:
    """Return how likely the nRM has come to `load_kg` (moved) by a day, as known on `day`.

    Raises:
        BadInputError: if there is no set up to `day`.
    """
    ahead = max(0.0, (by - day).days / 7)
    weeks = min(MOST_WEEKS, max(1, ceil(ahead)))
    return Outlook(ahead_of(model, reps, day, weeks).chances(load_kg)).by(ahead)


def outlook(model: LiftModel, load_kg: float, reps: int, day: date, *, by: date | None = None) -> Outlook:
    """Return how likely the nRM of `reps` comes to `load_kg` (moved), as known on `day`, for each of 104 weeks.

    Raises:
        BadInputError: if there is no set up to `day`, the load is not above zero, no such nRM is estimated, or `by` lies
            before `day` or beyond 104 weeks.
    """
    if not load_kg > 0:
        raise BadInputError("That moves no load at all.", where="load", mend="Ask for a load above zero.")
    if reps not in REP_MAXES:
        raise BadInputError(
            f"No {reps}RM is estimated.", where="repetitions", mend=f"Ask for 1 to {REP_MAXES[-1]} repetitions."
        )
    weeks = ahead_of(model, reps, day).chances(load_kg)
    if by is None:
        return Outlook(weeks)
    ahead = (by - day).days / 7
    if ahead < 0:
        raise BadInputError(f"{by} is over.", where="day", mend="Ask for a day to come.")
    check_weeks(max(1, ceil(ahead)), where="day")
    then = max(1, round(ahead))
    return Outlook(weeks, chance_then(model, load_kg, reps, day=day, weeks=then)[-1])


@dataclass(frozen=True, slots=True)
class Ahead:
    """All that is asked of one nRM on one day: of each path the most that its level came to, or a model whose weeks are asked one by one."""

    model: LiftModel
    reps: int
    day: date
    weeks: int
    most: Floats | None  # (weeks from today, paths), logarithms of the nRM in kilograms

    def chances(self, load_kg: float) -> tuple[float, ...]:
        """Return for today and each week to come how likely the level has come to a load by then."""
        if self.most is not None:
            return tuple(np.mean(self.most >= log(load_kg), axis=1).tolist())
        now = 1 - self.model.below(load_kg, self.reps, self.day)
        then = reach(self.model, load_kg, self.reps, self.day, self.weeks)
        return tuple(np.maximum.accumulate([now, *then]).tolist())


def ahead_of(model: LiftModel, reps: int, day: date, weeks: int = MOST_WEEKS) -> Ahead:
    """Put the paths through what is believed on a day, for so many weeks.

    Of a lift that is done more rarely than every second week, and of tests alone, the weeks are asked one by one: the chance
    of the best of them is the least that it can be.

    Raises:
        BadInputError: if there is no set up to that day.
    """
    last = model.known(day)
    weekly = not last.tests_only and usual_gap([each for each in model.days if each.day <= day]) == WEEK
    if not weekly:
        return Ahead(model, reps, day, weeks, None)
    belief, at = outset(model, day), REP_MAXES.index(reps)
    more = float(misfit(last.told, model.parameters)[at])
    return Ahead(model, reps, day, weeks, _most(belief, at, more, onward(model.parameters), weeks))


def _most(belief: Belief, at: int, more: float, motion: Parameters, weeks: int) -> Floats:
    """Return the running maximum of the logarithm of an nRM on each path, (weeks from today, paths)."""
    stratum, normals = _starts()
    log_weight = belief.log_weight - belief.log_weight.max()
    kept = np.flatnonzero(log_weight > log(NEGLIGIBLE))
    share: Floats = np.cumsum(np.exp(log_weight[kept]))
    wanted: Floats = stratum * float(share[-1])
    point = kept[np.minimum(np.searchsorted(share, wanted), len(kept) - 1)]
    found, into = np.unique(point, return_inverse=True)
    roots = _roots(belief.cov[:, found].T.reshape(-1, SIZE, SIZE))
    start = belief.mean[:, point] + np.einsum("pij,jp->ip", roots[into], normals[:SIZE])
    active = belief.active
    apart = active.grid.offsets[active.curve_of[point], at] + np.sqrt(more) * normals[SIZE]
    by_start, offset, noise = _responses(motion)
    levels = np.empty((weeks + 1, PATHS))
    for pace in range(len(motion.paces)):
        of = np.flatnonzero(active.pace_of[point] == pace)
        if len(of):
            levels[:, of] = (
                by_start[pace, : weeks + 1] @ start[:, of]
                + offset[pace, : weeks + 1, None]
                + noise[pace, : weeks + 1][:, of]
            )
    return np.maximum.accumulate(levels + apart, axis=0)


def _roots(cov: Floats) -> Floats:
    """Return for each covariance (of any rank) a root, whose product with its transpose it is."""
    found = np.linalg.eigh(cov)
    values: Floats = found.eigenvalues
    vectors: Floats = found.eigenvectors
    return vectors * np.sqrt(np.maximum(values, 0))[:, None]


@lru_cache(maxsize=1)
def _starts() -> tuple[Floats, Floats]:
    """Return which share of the belief each path begins in, and normal numbers for its start: (SIZE + 1, paths).

    Each number comes with its opposite, in the same share.
    """
    half = PATHS // 2
    normals = np.random.default_rng(SEED).standard_normal((SIZE + 1, half))
    share = (np.arange(half) + 0.5) / half
    return np.concatenate([share, share]), np.concatenate([normals, -normals], axis=1)


@lru_cache(maxsize=8)
def _responses(motion: Parameters) -> tuple[Floats, Floats, Floats]:
    """Return how the level of each week follows from the start, what is added to it, and what chance adds on each path.

    Shapes: (paces, weeks from today, SIZE), (paces, weeks) and (paces, weeks, paths).
    """
    step = move(WEEK, motion)
    paces, half = len(motion.paces), PATHS // 2
    by_start = np.empty((paces, MOST_WEEKS + 1, SIZE))
    offset = np.zeros((paces, MOST_WEEKS + 1))
    noise = np.zeros((paces, MOST_WEEKS + 1, PATHS), dtype=np.float32)
    for pace in range(paces):
        dice = np.random.default_rng(SEED + 1)
        root = _roots(step.noise[:, pace].reshape(1, SIZE, SIZE))[0]
        row, more, chance = LEVEL.copy(), np.zeros(SIZE), np.zeros((SIZE, PATHS))
        by_start[pace, 0] = row
        for week in range(1, MOST_WEEKS + 1):
            drawn = dice.standard_normal((SIZE, half))
            row = row @ step.transition[pace]
            more = step.transition[pace] @ more + step.offset[:, pace]
            chance = step.transition[pace] @ chance + root @ np.concatenate([drawn, -drawn], axis=1)
            by_start[pace, week], offset[pace, week] = row, LEVEL @ more
            noise[pace, week] = LEVEL @ chance
    return by_start, offset, noise
