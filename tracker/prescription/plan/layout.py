"""A plan laid out: what each week asks of each lift, and on which days, counted backward from the last one.

A week is a block of seven days that ends with the weekday of the test, so that each is whole.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_EVEN, Decimal
from typing import Literal

from tracker.prescription.plan.ask import PlanAsk, PlanLift, Shape
from tracker.prescription.plan.taper import FREE_DAYS, sets_in_taper

Kind = Literal["training", "easier", "taper"]
STEP_WEEKS, WAVE_WEEKS = 2, 3  # common practice: two weeks on one level; two up and one back
EASIER_LESS, EASIER_SETS = 10, Decimal("0.5")  # points of a per cent, and the part of the sets; common practice
LEAST_EASIER = 10  # per cent


@dataclass(frozen=True, slots=True)
class LiftWeek:
    """What one week asks of a lift, in each session that has it."""

    sets: int
    reps: int
    percent: Decimal


@dataclass(frozen=True, slots=True)
class PlanWeek:
    """One week, the first being 1; `lifts` in the order of the plan's."""

    number: int
    kind: Kind
    lifts: tuple[LiftWeek, ...]


@dataclass(frozen=True, slots=True)
class PlannedDay:
    """One session: its week, which of the week's days it is (from 1), and the lifts (by place in the plan) that it has.

    The day of the test has no week's work: `test` says so.
    """

    day: date
    week: PlanWeek
    number: int
    lifts: tuple[int, ...]
    test: bool = False


def weeks_of(ask: PlanAsk) -> tuple[PlanWeek, ...]:
    """Lay out the weeks of a plan."""
    kinds: list[Kind] = [_kind(ask, week) for week in range(1, ask.weeks + 1)]
    rises = iter(rise(kinds.count("training"), ask.shape))
    weeks, last, tapered = list[PlanWeek](), 0.0, 0
    for number, kind in enumerate(kinds, 1):
        last = next(rises) if kind == "training" else last
        lifts = tuple(_lift(each, kind, last, ask.taper_weeks, tapered) for each in ask.lifts)
        tapered += kind == "taper"
        weeks.append(PlanWeek(number, kind, lifts))
    return tuple(weeks)


def _kind(ask: PlanAsk, week: int) -> Kind:
    last = ask.weeks - ask.taper_weeks
    if week > last:
        return "taper"
    return "easier" if ask.easier_every and week % ask.easier_every == 0 and week != last else "training"


def rise(weeks: int, shape: Shape) -> tuple[float, ...]:
    """Return how far each week has come from the first percentage (0) to the last one (1).

    >>> rise(5, "steady")
    (0.0, 0.25, 0.5, 0.75, 1.0)
    >>> rise(6, "step")
    (0.0, 0.0, 0.5, 0.5, 1.0, 1.0)
    >>> [round(3 * each) for each in rise(6, "wave")]
    [0, 1, 2, 1, 2, 3]
    """
    levels = list(_levels(weeks, shape))
    low, high = min(levels), max(levels)
    return tuple((each - low) / (high - low) if high > low else 1.0 for each in levels)


def _levels(weeks: int, shape: Shape) -> Iterator[int]:
    """Give the level of each week; counted from the end, so that the last step and the last wave are whole ones."""
    for week in range(weeks):
        if shape == "steady" or (shape == "step" and weeks <= STEP_WEEKS):
            yield week
        elif shape == "step":
            yield -((weeks - 1 - week) // STEP_WEEKS)
        else:
            lead = weeks % WAVE_WEEKS  # weeks of a first, shorter wave
            wave, within = divmod(week - lead, WAVE_WEEKS) if week >= lead else (-1, week)
            yield wave + bool(lead) + within


def _lift(lift: PlanLift, kind: Kind, come: float, taper: int, tapered: int) -> LiftWeek:
    percent = _half(float(lift.start) + come * float(lift.end - lift.start))
    reps = round(lift.reps + come * (lift.last_reps - lift.reps))
    if kind == "easier":
        return LiftWeek(math.ceil(lift.sets * EASIER_SETS), reps, max(percent - EASIER_LESS, Decimal(LEAST_EASIER)))
    return LiftWeek(sets_in_taper(lift.sets, taper, tapered) if kind == "taper" else lift.sets, reps, percent)


def _half(value: float) -> Decimal:
    """Round to half a per cent: finer than any kit, and short on paper."""
    return (Decimal(repr(value)) * 2).quantize(Decimal(1), ROUND_HALF_EVEN) / 2


def days_of(ask: PlanAsk) -> tuple[PlannedDay, ...]:
    """Lay out the sessions of a plan in the calendar, the first one first; where it ends with a test that is the last one."""
    weeks, found = weeks_of(ask), list[PlannedDay]()
    for week in weeks:
        begins = ask.begins + timedelta(weeks=week.number - 1)
        days = [begins + timedelta(days=each) for each in range(7)]
        asked = [each for each in days if each.weekday() in ask.weekdays and not _free(ask, each)]
        found += [
            PlannedDay(day, week, number, _whose(ask.lifts, number - 1, len(ask.weekdays), in_turn=ask.in_turn))
            for number, day in enumerate(asked, 1)
        ]
    if ask.test:
        found.append(PlannedDay(ask.ends, weeks[-1], 0, tuple(range(len(ask.lifts))), test=True))
    return tuple(each for each in found if each.lifts)


def _free(ask: PlanAsk, day: date) -> bool:
    return ask.test and (ask.ends - day).days <= FREE_DAYS


def _whose(lifts: Sequence[PlanLift], place: int, days: int, *, in_turn: bool) -> tuple[int, ...]:
    """Choose the lifts of one of the week's days; in turn, each has a day of its own as far as there are days."""
    turns = min(len(lifts), days) if in_turn else 1
    return tuple(each for each in range(len(lifts)) if each % turns == place % turns)
