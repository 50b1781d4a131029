"""Athletes who change half way: another habit of reporting, another curve, the same level on the day of the change.

Each is two invented histories of one lift, the second moved to follow the first, its loads scaled so that the tested
rep-max goes on where it was. What the estimate learnt of the first is wrong from then on.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import log

from tracker.strength.backtest.athletes import Lift, invent
from tracker.strength.backtest.report import rms
from tracker.strength.backtest.training import START
from tracker.strength.backtest.truth import Kind
from tracker.strength.estimator import LiftModel
from tracker.strength.parameters import DEFAULT, Parameters
from tracker.strength.records import SetRecord

HALF = Kind("changed", gain=(0.0, 0.08), per_week=(1, 2), reps=(3,))
SETTLED = 26  # weeks at the start that are not counted: an estimate that is still young is judged elsewhere


@dataclass(frozen=True, slots=True)
class Changed:
    """One lift of one athlete who changes after so many weeks."""

    first: Lift
    second: Lift
    weeks: int

    @property
    def scale(self) -> float:
        reps, end = self.first.reps, 7 * self.weeks
        return self.first.truth.rep_max(end, reps) / self.second.truth.rep_max(0, reps)

    @property
    def records(self) -> tuple[SetRecord, ...]:
        moved = (
            replace(each, day=each.day + timedelta(weeks=self.weeks), load_kg=each.load_kg * self.scale)
            for each in self.second.records
        )
        return (*self.first.records, *moved)

    def rep_max(self, day: date) -> float:
        """The true load for the tested repetitions on an average day, in kilograms."""
        at = (day - START).days - 7 * self.weeks
        if at < 0:
            return self.first.truth.rep_max(at + 7 * self.weeks, self.first.reps)
        return self.scale * self.second.truth.rep_max(at, self.first.reps)


def invent_changed(count: int, seed: int, weeks: int = 104) -> Iterator[Changed]:
    """Invent `count` athletes who change after `weeks` weeks and train as long again."""
    halves = list(invent(2 * count, seed, (replace(HALF, weeks=(weeks, weeks)),)))
    for first, second in zip(halves[::2], halves[1::2], strict=True):
        yield Changed(first, second, weeks)


@dataclass(frozen=True, slots=True)
class Half:
    """Errors (logarithms) of the days before or after the change, and the share of truths that the band held."""

    errors: tuple[float, ...]
    held_percent: float

    @property
    def error_percent(self) -> float:
        return rms(self.errors)


def halves(athletes: Iterator[Changed], parameters: Parameters = DEFAULT) -> tuple[Half, Half]:
    """Score the filtered estimate before the change, without the first half year, and after it."""
    found: tuple[list[tuple[float, bool]], list[tuple[float, bool]]] = ([], [])
    for athlete in athletes:
        for point in LiftModel.of(athlete.records, parameters).known_then():
            week, truth = (point.day - START).days / 7, athlete.rep_max(point.day)
            if week >= SETTLED:
                band = point.rep_max[athlete.first.reps]
                held = band.low80 <= truth <= band.high80
                found[week >= athlete.weeks].append((log(band.estimate / truth), held))
    before, after = (
        Half(tuple(error for error, _ in half), 100 * sum(held for _, held in half) / len(half)) for half in found
    )
    return before, after


def line(count: int, seed: int) -> str:
    """Write what becomes of the estimate of athletes who change."""
    before, after = halves(invent_changed(count, seed))
    return (
        f"{count} athletes whose habit and curve change after two years: error {before.error_percent:.2f}% and bands "
        f"{before.held_percent:.1f}% before, {after.error_percent:.2f}% and {after.held_percent:.1f}% after"
    )
