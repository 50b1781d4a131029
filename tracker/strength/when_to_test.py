"""When a test of an nRM would pay: what it would tell beyond what will be believed by then without it.

For today and some of the coming weeks the belief is carried ahead (`forecast.py`), a test is supposed to go as it may, better
and worse by what is not known, and the model's own update says what would be believed after it. So a test pays more the less
is known, and the more of what is not known a test can tell. Nothing is drawn: three results, each with its share, stand for all.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import exp, floor, sqrt

import numpy as np

from tracker.strength.bands import Told, estimates, misfit, shape_of
from tracker.strength.belief import Belief
from tracker.strength.estimator import LiftModel
from tracker.strength.filtering import update
from tracker.strength.forecast import beliefs
from tracker.strength.records import REP_MAXES, Band, SetRecord
from tracker.strength.session import read

QUIET_DAYS = 21  # after a test, in which none is spoken of; own choice
WEEKS = (0, 4, 8, 12)  # from today: those that are looked at; own choice
# Three results with the mean, the variance and the next two moments of a normal distribution (Gauss-Hermite), in SDs
RESULTS = (-(3**0.5), 0.0, 3**0.5)
SHARES = (1 / 6, 2 / 3, 1 / 6)


@dataclass(frozen=True, slots=True)
class WouldTell:
    """What a test on one day would tell, in kilograms moved.

    `without` is what will be believed without it; `width` the 80 % band's after it, as a mean; `moves` by how much it would
    move the estimate, up or down, as a root mean square.
    """

    day: date
    without: Band
    width: float
    moves: float

    @property
    def narrows(self) -> float:
        """The part of the band that a test would take away; below zero where it would widen it."""
        return 1 - self.width / (self.without.high80 - self.without.low80)


def quiet_until(tests: Sequence[date], day: date) -> date | None:
    """Return the day from which on a test is spoken of again after the newest one; None where that is over."""
    known = [each for each in tests if each <= day]
    until = max(known) + timedelta(days=QUIET_DAYS + 1) if known else day
    return until if until > day else None


def would_tell(
    model: LiftModel, reps: int, step_kg: float, day: date, weeks: Sequence[int] = WEEKS
) -> tuple[WouldTell, ...]:
    """Return what a test of the nRM would tell today and after each of some weeks.

    Args:
        model: The lift.
        reps: Which nRM.
        step_kg: The least by which its load can be changed.
        day: Today.
        weeks: So many weeks from today each; 0 is today.

    Raises:
        BadInputError: if there is no set up to that day.
    """
    then = [(day, model.belief(day))]
    if max(weeks):
        then += beliefs(model, day, max(weeks))
    return tuple(_tested(model, then[week][1], reps, step_kg, then[week][0], model.known(day).told) for week in weeks)


def _tested(model: LiftModel, belief: Belief, reps: int, step_kg: float, day: date, told: Told) -> WouldTell:
    at, p = REP_MAXES.index(reps), model.parameters
    shape = shape_of(belief)
    means = shape.mean + model.grid.offsets[shape.curve, at]
    middle = float(shape.weight @ means)
    var = float(shape.weight @ (shape.var + (means - middle) ** 2)) + float(misfit(told, p)[at])
    after = [
        _after(model, belief, exp(middle + each * sqrt(var + p.form_sd**2)), reps, step_kg, day) for each in RESULTS
    ]
    then = (min(reps, told[0]), max(reps, told[1])) if told else (reps, reps)
    found = estimates([shape, *map(shape_of, after)], [day] * 4, [0] * 4, [told, then, then, then], model.grid)
    without, *bands = (each.rep_max[reps] for each in found)
    width = float(np.dot(SHARES, [each.high80 - each.low80 for each in bands]))
    moves = float(np.sqrt(np.dot(SHARES, [(each.estimate - without.estimate) ** 2 for each in bands])))
    return WouldTell(day, without, width, moves)


def _after(model: LiftModel, belief: Belief, most: float, reps: int, step_kg: float, day: date) -> Belief:
    """Return what is believed after a test in which the heaviest load below `most` was made, and the next one missed."""
    made = max(1, floor(most / step_kg)) * step_kg
    sets = (
        SetRecord(day, made, reps, kind="test"),
        SetRecord(day, made + step_kg, reps - 1, outcome="missed", kind="test", order=1),
    )
    last = model.days[-1]
    return update(belief, read(sets, model.parameters, last.usual), last.anchor)[0]
