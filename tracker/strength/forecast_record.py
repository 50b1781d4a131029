"""The forecast's own record for one lift: of the weeks that it foretold with 80 %, how many held.

Each fourth week of the last two years is asked, from nothing but what was known then, for the week four weeks later; so no
two of them overlap. A week is held against what is known of it now, in hindsight, and a test against a band with the
form of a day in it and what tests leave. Weeks before which the member rested for two weeks or more are left out: nobody
trained on in them.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

import numpy as np

from tracker.strength.bands import misfit, quantiles, shape_of
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import beliefs, forecast
from tracker.strength.hindcast import proven_maxes
from tracker.strength.records import REP_MAXES, Band
from tracker.wording import counted

AHEAD = 4  # weeks
NEAR = 4  # days between the week foretold and the day with sets that it is held against, at most; design
LAST = 26  # forecasts at most: two years
ENOUGH = 5  # with fewer nothing is said of how well they held; design
REST = 14  # days without any training


@dataclass(frozen=True, slots=True)
class Foretold:
    """One forecast in kilograms moved: when it was made, for which day, its band, and what was found there."""

    asked: date
    day: date
    band: Band
    found: float

    @property
    def held(self) -> bool:
        return self.band.low80 <= self.found <= self.band.high80


@dataclass(frozen=True, slots=True)
class ForecastRecord:
    """Weeks and tests that were foretold four weeks before, oldest first, and the sum of it in words."""

    weeks: tuple[Foretold, ...]
    tests: tuple[Foretold, ...]
    words: str


def forecast_record(model: LiftModel, reps: int) -> ForecastRecord:
    """Hold what would have been foretold of the nRM against what was found."""
    trained = sorted({*model.elsewhere, *(each.day for each in model.days)})
    weeks, tests = _weeks(model, reps, trained), _tests(model, reps, trained)
    return ForecastRecord(weeks, tests, _words(weeks, tests))


def _weeks(model: LiftModel, reps: int, trained: Sequence[date]) -> tuple[Foretold, ...]:
    days = [each.day for each in model.days]
    now = {each.day: each.smoothed for each in model.trend()}
    found: list[Foretold] = []
    asked = days[-1] - timedelta(weeks=AHEAD)
    while asked >= days[0] and len(found) < LAST:
        then = asked + timedelta(weeks=AHEAD)
        day = min(days, key=lambda each: abs((each - then).days))
        known = now[day]
        if abs((day - then).days) <= NEAR and known is not None and _trained_on(trained, asked, then):
            band = forecast(model, asked, AHEAD, (AHEAD,))[0].rep_max[reps]
            found.append(Foretold(asked, day, band, known.rep_max[reps].estimate))
        asked -= timedelta(weeks=AHEAD)
    return tuple(reversed(found))


def _tests(model: LiftModel, reps: int, trained: Sequence[date]) -> tuple[Foretold, ...]:
    records = [record for each in model.days for record in each.records]
    found: list[Foretold] = []
    for test in proven_maxes(records):
        asked = test.day - timedelta(weeks=AHEAD)
        if test.reps == reps and asked >= model.days[0].day and _trained_on(trained, asked, test.day):
            found.append(Foretold(asked, test.day, _of_a_day(model, reps, asked), test.kg))
    return tuple(found[-LAST:])


def _of_a_day(model: LiftModel, reps: int, asked: date) -> Band:
    """Return what a test four weeks ahead would show: the nRM with the form of a day, less what tests leave, and its noise."""
    *_, (_, belief) = beliefs(model, asked, AHEAD)
    p = model.parameters
    chances = np.array(p.test_left) / sum(p.test_left)
    left = float(chances @ np.arange(len(chances)))
    spread = float(chances @ (np.arange(len(chances)) - left) ** 2) + (p.rep_sd + p.rep_sd_growth * reps) ** 2
    more = misfit(model.known(asked).told, p) + p.form_sd**2 + p.curve_per_rep**2 * spread
    logs = quantiles(shape_of(belief), model.grid, more)[REP_MAXES.index(reps)] - p.curve_per_rep * left
    return Band(*np.exp(logs).tolist())


def _trained_on(trained: Sequence[date], asked: date, then: date) -> bool:
    """Whether there was training, without two weeks of rest, from some day before `asked` up to `then`."""
    some = [*trained[max(0, bisect_left(trained, asked) - 1) : bisect_left(trained, then)], then]
    return len(some) > 1 and all((later - earlier).days < REST for earlier, later in pairwise(some))


def _words(weeks: Sequence[Foretold], tests: Sequence[Foretold]) -> str:
    if not weeks:
        return "No week could be foretold yet: it takes eight weeks of training without a longer rest."
    held = sum(each.held for each in weeks)
    said = f"Of {counted(len(weeks), 'week')} foretold four weeks ahead with 80 %, {held} held."
    if tests:
        said += (
            f" Of {counted(len(tests), 'test')}, {sum(each.held for each in tests)} came out within what was foretold."
        )
    return said if len(weeks) >= ENOUGH else f"{said} They are too few to judge by."
