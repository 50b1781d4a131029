"""The estimate of a lift's current rep-maxes: a filter of log 1RM over sessions, with the population's curve.

Each session gives one observation: the mean of what its informative sets say, widened by the form of the day. A set of
unknown effort says "at least this" and moves the level up only.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import groupby

import numpy as np
from scipy.special import ndtr

from tracker.errors import BadInputError
from tracker.strength.records import REP_MAXES, Band, Estimate, SetRecord

CURVE = 0.0282  # share of the 1RM that each further repetition costs, mean of 14 lifters (references: open bench data)
CURVE_SD = 0.006  # spread between people; between that of one laboratory (0.0034) and that across lifts (0.009)
WANDER_SD = 0.006  # of log 1RM, per square root of a week; design choice
FORM_SD = 0.02  # form of the day, of log 1RM; design choice
WIDE_SD = 0.15  # of log 1RM where nothing but bounds is known; design choice
Z80 = 1.2815515655446004  # normal quantile of 0.9


@dataclass(frozen=True, slots=True)
class Flag:
    """Something in the records that a person should look at."""

    day: date
    words: str


@dataclass(frozen=True, slots=True)
class TrendPoint:
    """One day with sets: what could be known then, and what is known of it now."""

    day: date
    filtered: Estimate
    smoothed: Estimate | None


@dataclass(frozen=True, slots=True)
class _State:
    day: date
    mean: float  # of log 1RM (kg)
    var: float
    prior_mean: float
    prior_var: float
    sets: int
    reps: float  # repetitions to failure that the level was seen at, mean


@dataclass(frozen=True)
class LiftModel:
    """All that is believed of one lift of one member."""

    states: tuple[_State, ...]
    flags: tuple[Flag, ...] = ()

    @classmethod
    def of(cls, records: Sequence[SetRecord]) -> LiftModel:
        """Make the model of a history, in any order of days.

        Raises:
            BadInputError: if there is no set, or a set can't be.
        """
        if not records:
            raise BadInputError("There is no set to estimate from.", mend="Log a set first.")
        return cls(())._with(sorted(records, key=lambda record: (record.day, record.order)))

    def extended(self, new: Sequence[SetRecord]) -> LiftModel:
        """Return the model with sets added that are not before its last day."""
        if not new:
            return self
        if self.states and min(record.day for record in new) < self.states[-1].day:
            raise BadInputError("Sets can only be added at the end.", mend="Make the model anew for an older set.")
        return self._with(sorted(new, key=lambda record: (record.day, record.order)))

    def _with(self, records: Iterable[SetRecord]) -> LiftModel:
        states = list(self.states)
        for day, sets in groupby(records, key=lambda record: record.day):
            states.append(_step(states[-1] if states else None, day, tuple(sets)))
        return LiftModel(tuple(states), self.flags)

    def estimate(self, day: date) -> Estimate:
        """Return what is believed of the level on `day`, from the sets up to it.

        Raises:
            BadInputError: if there is no set up to that day.
        """
        at = bisect_right([state.day for state in self.states], day)
        if at == 0:
            raise BadInputError(f"There is no set up to {day}.", mend=f"Ask for {self.states[0].day} or later.")
        state = self.states[at - 1]
        mean, var = _ahead(state.mean, state.var, (day - state.day).days)
        return _estimate(day, mean, var, state)

    def trend(self) -> tuple[TrendPoint, ...]:
        """Return each day with sets, filtered and smoothed."""
        last = {state.day: state for state in self.states}
        states = list(last.values())
        smooth = [(states[-1].mean, states[-1].var)]
        for now, later in zip(states[-2::-1], states[:0:-1], strict=True):
            gain = now.var / later.prior_var
            mean, var = smooth[-1]
            smooth.append((now.mean + gain * (mean - later.prior_mean), now.var + gain**2 * (var - later.prior_var)))
        pairs = zip(states, reversed(smooth), strict=True)
        return tuple(
            TrendPoint(s.day, _estimate(s.day, s.mean, s.var, s), _estimate(s.day, *both, s)) for s, both in pairs
        )

    def chance(self, load_kg: float, reps: int, *, day: date, sets_before: int = 0) -> float:
        """Return the probability of completing `reps` repetitions with `load_kg` on `day`, form of the day included."""
        state = self.states[max(0, bisect_right([state.day for state in self.states], day) - 1)]
        mean, var = _ahead(state.mean, state.var, max(0, (day - state.day).days))
        need = math.log(load_kg) + math.log1p(CURVE * (reps - 1)) + 0.003 * sets_before
        spread = math.sqrt(var + FORM_SD**2 + _curve_var(reps, state.reps))
        return float(ndtr((mean - need) / spread))


def _ahead(mean: float, var: float, days: int) -> tuple[float, float]:
    return mean, var + WANDER_SD**2 * days / 7


def _curve_var(reps: float, seen: float) -> float:
    slope = (reps - 1) / (1 + CURVE * (reps - 1)) - (seen - 1) / (1 + CURVE * (seen - 1))
    return (CURVE_SD * slope) ** 2


def _estimate(day: date, mean: float, var: float, state: _State) -> Estimate:
    bands = {}
    for reps in REP_MAXES:
        middle = mean - math.log1p(CURVE * (reps - 1))
        spread = Z80 * math.sqrt(var + _curve_var(reps, state.reps))
        bands[reps] = Band(*(math.exp(middle + z * spread) for z in (0, -1, 1)))
    return Estimate(day, bands, state.sets)


def _step(before: _State | None, day: date, sets: tuple[SetRecord, ...]) -> _State:
    said = [word for record in sets if (word := _word(record)) is not None]
    bounds = [math.log(record.load_kg) + math.log1p(CURVE * max(0, record.reps - 1)) for record in sets if record.reps]
    least = max(bounds, default=math.log(min(record.load_kg for record in sets)) - WIDE_SD)
    prior = (least + 0.1, WIDE_SD**2) if before is None else _ahead(before.mean, before.var, (day - before.day).days)
    mean, var = prior
    seen = before.reps if before else 5.0
    if said:
        values, variances, reps = (np.array(column) for column in zip(*said, strict=True))
        weights = 1 / variances
        observed, noise = float(values @ weights / weights.sum()), float(1 / weights.sum()) + FORM_SD**2
        gain = var / (var + noise)
        mean, var = mean + gain * (observed - mean), var * (1 - gain)
        seen += 0.3 * (float(reps.mean()) - seen) if before else float(reps.mean()) - seen
    mean, var = _at_least(mean, var, least)
    return _State(day, mean, var, *prior, (before.sets if before else 0) + len(sets), seen)


def _word(record: SetRecord) -> tuple[float, float, float] | None:
    """Return log 1RM, its variance and repetitions to failure, for a set that says more than "at least"."""
    if record.outcome == "missed":
        left, sd = 0.5, 0.5
    elif record.outcome == "cut" or record.kind == "ramp":
        return None
    elif record.kind == "test":
        left, sd = 1.0, 0.8
    elif record.rir is None or record.rir >= 6:
        return None
    else:
        left, sd = 0.5 + 1.2 * record.rir, 0.8 + 0.4 * record.rir
    reps = record.reps + left
    slope = CURVE / (1 + CURVE * (reps - 1))
    return math.log(record.load_kg) + math.log1p(CURVE * (reps - 1)), (slope * sd) ** 2 + 0.008**2, max(reps, 1.0)


def _at_least(mean: float, var: float, least: float) -> tuple[float, float]:
    """Moments of a normal level whose form of the day was enough for `least`."""
    spread = math.sqrt(var + FORM_SD**2)
    z = (mean - least) / spread
    if z > 5:
        return mean, var
    ratio = math.exp(-z * z / 2) / math.sqrt(2 * math.pi) / max(float(ndtr(z)), 1e-300) if z > -30 else -z
    return mean + var / spread * ratio, max(var * (1 - var / spread**2 * ratio * (z + ratio)), var * 1e-3)
