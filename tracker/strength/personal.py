"""A person's own curve, learnt where the 1RM was known, and a 1RM foretold with it from a few sets to failure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from math import log

import numpy as np

from tracker.errors import BadInputError
from tracker.strength.bands import estimates, shape_of
from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.estimator import LiftModel
from tracker.strength.filtering import begin, update
from tracker.strength.grid import ActivePoints, Grid, grid_of
from tracker.strength.motion import SIZE, Gap
from tracker.strength.parameters import DEFAULT, PIVOT, Parameters
from tracker.strength.records import REP_MAXES, Estimate, SetRecord
from tracker.strength.session import check, read

TESTED_SD = 0.01  # of a tested 1RM, in logarithms: the step of the discs; design


@dataclass(frozen=True, slots=True)
class OwnCurve:
    """How likely each curve of the grid is for one person and lift."""

    weights: Floats
    parameters: Parameters = DEFAULT

    @property
    def at_80_percent(self) -> float:
        """The repetitions that 80 % of the 1RM is expected to have in it."""
        curves = grid_of(self.parameters).curves
        return float(sum(w * c.reps(-log(0.8)) for w, c in zip(self.weights, curves, strict=True)))


def population(parameters: Parameters = DEFAULT) -> OwnCurve:
    """Return the curve of somebody of whom nothing is known."""
    grid = grid_of(parameters)
    return OwnCurve(_by_curve(grid, np.exp(grid.log_prior)), parameters)


def learnt_by(model: LiftModel) -> OwnCurve:
    """Return the curve as all sets of a lift tell it by its last day."""
    belief, grid = model.days[-1].belief, model.grid
    weight = np.zeros(len(grid.log_prior))
    weight[belief.active.points] = np.exp(belief.log_weight - belief.log_weight.max())
    return OwnCurve(_by_curve(grid, weight), model.parameters)


def learn(sets: Sequence[SetRecord], one_rm_kg: float, parameters: Parameters = DEFAULT) -> OwnCurve:
    """Learn the curve from sets whose effort is known, on days on which the 1RM was `one_rm_kg`.

    Raises:
        BadInputError: if the 1RM is not above zero, or a set can't be.
    """
    if not one_rm_kg > 0:
        raise BadInputError(f"A 1RM of {one_rm_kg} kg can't be.", mend="Give a load above zero.")
    grid = grid_of(parameters)
    level = np.array([log(one_rm_kg) - float(curve.drop(PIVOT)) for curve in grid.curves])
    points = np.arange(len(grid.log_prior))
    mean, cov = np.zeros((SIZE, len(points))), np.zeros((SIZE * SIZE, len(points)))
    mean[0], cov[0] = level[grid.curve_of], TESTED_SD**2
    known = Belief(ActivePoints(grid, points), grid.log_prior, mean, cov)
    log_weight = grid.log_prior.copy()
    for todays in _by_day(sets):  # each day has a form of its own, about the same known level
        said = read(todays, parameters, None)
        log_weight += update(known, said, log(one_rm_kg))[0].log_weight - grid.log_prior
    return OwnCurve(_by_curve(grid, np.exp(log_weight - log_weight.max())), parameters)


def foretell(sets: Sequence[SetRecord], curve: OwnCurve) -> Estimate:
    """Estimate the rep-maxes from some sets alone, with a curve that is known to some degree.

    Raises:
        BadInputError: if there is no set, or one can't be.
    """
    days = _by_day(sets)
    if not days:
        raise BadInputError("There is no set to foretell from.", mend="Give one.")
    parameters, grid = curve.parameters, grid_of(curve.parameters)
    start = begin(grid, days[0])
    tilt = np.log(np.maximum(curve.weights, 1e-300)) - np.log(population(parameters).weights)
    belief = Belief(start.active, start.log_weight + tilt[grid.curve_of], start.mean, start.cov)
    last = days[0][0].day
    for todays in days:
        since = (todays[0].day - last).days
        belief = belief.ahead(Gap(since, since), parameters)
        belief, last = update(belief, read(todays, parameters, None), log(todays[0].load_kg))[0], todays[0].day
    return estimates([shape_of(belief)], [last], [len(sets)], [(1, REP_MAXES[-1])], grid)[0]


def _by_curve(grid: Grid, weight: Floats) -> Floats:
    mass = np.bincount(grid.curve_of, weight, len(grid.curves)).astype(float)
    return mass / mass.sum()


def _by_day(sets: Sequence[SetRecord]) -> list[tuple[SetRecord, ...]]:
    for record in sets:
        check(record)
    ordered = sorted(sets, key=lambda record: (record.day, record.order))
    return [tuple(todays) for _, todays in groupby(ordered, key=lambda record: record.day)]
