"""What is believed today of the level weeks from now, "if training goes on as it has": the model's own motion carried on.

It is a forecast of who goes on as before, and names no cause: which training makes stronger can't be told from a log. Each
further week adds what the model holds that a level may change by in a week of training (`motion.py`), so the band widens
with the root of time at first and faster later, since how fast somebody gains is not known either. Where a filter is put
right by the next set, a forecast is not, so that it sets out from less and goes by numbers of its own (`outset.py`).

What "as it has" means is read off the days so far: who does the lift at least every second week goes on without a gap; who
does it more rarely goes on with gaps as long as half of the last ones; and of whoever logged nothing but tests, the time up to
the next one is unseen as the times before it were.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from statistics import median_low

import numpy as np

from tracker.errors import BadInputError
from tracker.strength.bands import estimates, misfit, shape_of
from tracker.strength.belief import Belief
from tracker.strength.chance import chance_of
from tracker.strength.estimator import LiftModel
from tracker.strength.filtering import Day
from tracker.strength.motion import Gap
from tracker.strength.normal import ndtr
from tracker.strength.outset import onward, outset
from tracker.strength.records import REP_MAXES, Estimate
from tracker.wording import counted

MOST_WEEKS = 104
WEEK = Gap(7, 0)
OFTEN = 14  # days between two days of the lift, with which nothing is lost (`free_weeks` of parameters.py)
LAST_GAPS = 12  # so many of the newest gaps say how often the lift is done; design


def check_weeks(weeks: int, where: str = "weeks") -> None:
    """Hold a number of weeks to what can be foretold.

    Raises:
        BadInputError: if it is not from 1 to 104.
    """
    if not 1 <= weeks <= MOST_WEEKS:
        raise BadInputError(
            f"{weeks:,} weeks can't be foretold.", where=where, mend=f"Ask for 1 to {MOST_WEEKS} whole weeks."
        )


def usual_gap(days: Sequence[Day]) -> Gap:
    """Return how a lift goes on: a week of training, or the gap that half of the last ones were no longer than."""
    gaps = [each.gap for each in days[1:][-LAST_GAPS:]]
    usual = median_low([each.days for each in gaps]) if gaps else 0
    if usual <= OFTEN:
        return WEEK
    return Gap(usual, min(usual, median_low([each.silent for each in gaps])))


def beliefs(model: LiftModel, day: date, weeks: int) -> Iterator[tuple[date, Belief]]:
    """Give what is believed on `day` of each whole week after it, from the sets up to `day`.

    Raises:
        BadInputError: if there is no set up to that day, or not from 1 to 104 weeks are asked for.
    """
    check_weeks(weeks)
    if (date.max - day).days < 7 * weeks:
        raise BadInputError(f"No calendar goes {counted(weeks, 'week')} beyond {day}.", mend="Ask from an earlier day.")
    return beliefs_on(model, day, [day + timedelta(weeks=week) for week in range(1, weeks + 1)])


def beliefs_on(model: LiftModel, day: date, ahead: Sequence[date]) -> Iterator[tuple[date, Belief]]:
    """Give what is believed on `day` of each of some days after it, which are in order, from the sets up to `day`.

    Raises:
        BadInputError: if there is no set up to that day, or one is more than 104 weeks away or not after it.
    """
    if ahead and not (day < ahead[0] and (ahead[-1] - day).days <= 7 * MOST_WEEKS):
        raise BadInputError(
            f"{ahead[-1]} can't be foretold on {day}.", mend=f"Ask for later days, up to {MOST_WEEKS} weeks."
        )
    last = model.known(day)
    if last.tests_only:
        for then in ahead:
            silent = (then - last.day).days
            yield then, last.belief.ahead(Gap(silent, silent, tests_only=True), model.parameters)
        return
    usual, motion = usual_gap([each for each in model.days if each.day <= day]), onward(model.parameters)
    since, belief = day, outset(model, day)
    for then in ahead:
        while (then - since).days > usual.days:
            since, belief = since + timedelta(days=usual.days), belief.ahead(usual, motion)
        rest = (then - since).days
        late = belief.ahead(Gap(rest, min(rest, usual.silent)), motion)
        if rest == usual.days:
            since, belief = then, late
        yield then, late


def forecast(model: LiftModel, day: date, weeks: int, only: Sequence[int] = ()) -> tuple[Estimate, ...]:
    """Return what is believed on `day` of the level on each whole week after it.

    Args:
        model: The lift, of which sets after `day` are not used.
        day: The day on which it is foretold.
        weeks: How far, 1 to 104.
        only: The weeks that are wanted, where not all are.

    Raises:
        BadInputError: if there is no set up to that day, or not from 1 to 104 weeks are asked for.
    """
    last = model.known(day)
    told = [each for week, each in enumerate(beliefs(model, day, weeks), start=1) if not only or week in only]
    shapes, days = [shape_of(belief) for _, belief in told], [then for then, _ in told]
    return tuple(estimates(shapes, days, [last.sets_used] * len(days), [last.told] * len(days), model.grid))


def forecast_on(model: LiftModel, day: date, ahead: Sequence[date]) -> tuple[Estimate, ...]:
    """Return what is believed on `day` of the level on some days after it, which are in order: see `beliefs_on`."""
    last, told = model.known(day), list(beliefs_on(model, day, ahead))
    shapes, days = [shape_of(belief) for _, belief in told], [then for then, _ in told]
    return tuple(estimates(shapes, days, [last.sets_used] * len(days), [last.told] * len(days), model.grid))


def reach(model: LiftModel, load_kg: float, reps: int, day: date, weeks: int) -> tuple[float, ...]:
    """Return, for each whole week after `day`, how likely the nRM is `load_kg` or more by then.

    It is the level of that week, not the best of all weeks until then, and not the form of one day.

    Raises:
        BadInputError: if there is no set up to that day, or not from 1 to 104 weeks are asked for.
    """
    at, last = REP_MAXES.index(reps), model.known(day)
    more = misfit(last.told, model.parameters)[at]
    found: list[float] = []
    for _, belief in beliefs(model, day, weeks):
        shape = shape_of(belief)
        mean = shape.mean + model.grid.offsets[shape.curve, at]
        found.append(float(shape.weight @ ndtr((mean - np.log(load_kg)) / np.sqrt(shape.var + more))))
    return tuple(found)


def chance_then(
    model: LiftModel, load_kg: float, reps: int, *, day: date, weeks: int, sets_before: int = 0
) -> tuple[float, ...]:
    """Return, for each whole week after `day`, how likely `reps` with `load_kg` is completed then: see `LiftModel.chance`.

    Raises:
        BadInputError: if there is no set up to that day, or not from 1 to 104 weeks are asked for.
    """
    told = model.known(day).told
    return tuple(
        chance_of(belief, told, load_kg, reps, sets_before=sets_before) for _, belief in beliefs(model, day, weeks)
    )
