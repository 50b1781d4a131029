"""What the estimate is measured against: the last test carried on, the best formula value, and an oracle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from math import exp
from typing import Literal

from tracker.strength.backtest.athletes import Lift
from tracker.strength.backtest.training import START
from tracker.strength.estimator import LiftModel
from tracker.strength.formulas import FORMULAS, best_values
from tracker.strength.parameters import DEFAULT, Habit, Pace, Parameters
from tracker.strength.records import Band, SetRecord


def carried(records: Sequence[SetRecord], reps: int, days: Sequence[date]) -> list[float | None]:
    """The last test of the rep-max carried on: half way between what was made and what was missed that day."""
    tests: dict[date, float] = {}
    for day in {record.day for record in records if record.kind == "test"}:
        todays = [record for record in records if record.day == day and record.kind == "test"]
        made = max((each.load_kg for each in todays if each.outcome == "done" and each.reps >= reps), default=None)
        missed = [each.load_kg for each in todays if each.outcome == "missed"]
        above = min((load for load in missed if made and load > made), default=None)
        if made:
            tests[day] = (made + above) / 2 if above else made
    return [tests[max(known)] if (known := [each for each in tests if each <= day]) else None for day in days]


def best_formula(records: Sequence[SetRecord], reps: int, days: Sequence[date]) -> list[float | None]:
    """The best value of six weeks by the formula of Epley, the one most used, as a load for the repetitions."""
    formula, last = FORMULAS["epley"], None
    found: list[float | None] = []
    for day in days:
        value = best_values(records, day)["epley"].one_rm_kg
        last = formula.rep_max(value, min(reps, 10)).kg if value else last
        found.append(last)
    return found


Known = Literal["curve", "habit", "gain"]
ALL: tuple[Known, ...] = ("curve", "habit", "gain")


def oracle(lift: Lift, days: Sequence[date], knows: Sequence[Known] = ALL) -> list[Band]:
    """The same filter, told the athlete's curve, habit of reporting, and gain with lay-off; all else it must assume too.

    Args:
        lift: One lift of one athlete.
        days: Its days with sets.
        knows: What it is told; all of it makes the yardstick, less of it says what that part would be worth.
    """
    truth = lift.truth
    known = {day: float(truth.grown[i] - truth.lost[i]) for day in days for i in [(day - START).days]}
    if "gain" not in knows:
        known = dict.fromkeys(known, 0.0)
    base = known[days[0]]
    # a report that is always the same says nothing, and who knows the habit knows that
    blind = "habit" in knows and lift.kind.always is not None
    level = [
        replace(each, load_kg=each.load_kg / exp(known[each.day] - base), rir=None if blind else each.rir)
        for each in lift.records
    ]
    told_then = LiftModel.of(level, told(lift, knows)).known_then()
    return [
        Band(*(value * exp(known[then.day] - base) for value in (band.estimate, band.low80, band.high80)))
        for then in told_then
        for band in [then.rep_max[lift.reps]]
    ]


def told(lift: Lift, knows: Sequence[Known] = ALL) -> Parameters:
    """Parameters with what is known of the athlete; a known gain or loss is taken out of the loads instead."""
    truth, parameters = lift.truth, DEFAULT
    if "curve" in knows:
        per_rep = (exp(float(truth.curve.drop(8))) - 1) / 7
        parameters = replace(
            parameters, curve_per_rep=per_rep, steepness=(0.0,), shapes=(truth.curve.shape,), shape_weights=(1.0,)
        )
    if "habit" in knows:
        habit = Habit(lift.share, lift.judge_sd, 0.1 * lift.judge_sd)
        parameters = replace(parameters, habits=(habit,), habit_weights=(1.0,))
    if "gain" in knows:
        pace = Pace(0.0, 1e-6, 1e-6, DEFAULT.paces[0].wander_sd)
        parameters = replace(
            parameters, paces=(pace,), pace_weights=(1.0,), gain=0.0, loss_early=0.0, loss_late=0.0, loss_sd=1e-6
        )
    return parameters
