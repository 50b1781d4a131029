"""Tests of a lift: what was made in them, and what was missed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.desk.maxes.estimates import LiftHistory
from tracker.strength.records import REP_MAXES
from tracker.units import Unit


@dataclass(frozen=True, slots=True)
class Attempt:
    """A try at an nRM in a test: the load in the unit of the view, and whether it was made."""

    day: date
    load: float
    made: bool


def tests_of(history: LiftHistory, reps: int, unit: Unit) -> tuple[Attempt, ...]:
    """List the tries at an nRM, oldest first; what was left out of the estimate or set aside is none.

    Missed is the last repetition of a try, or an earlier one on a day on which the nRM was made.
    """
    rows = [row for row in history.sets if row.kind == "test" and not row.left_out]
    found = [
        Attempt(row.day, float(row.load.to(unit)), made=True)
        for row in rows
        if row.outcome == "done" and row.reps == reps
    ]
    made_on = {each.day for each in found}
    found += [
        Attempt(row.day, float(row.load.to(unit)), made=False)
        for row in rows
        if row.outcome == "missed" and row.reps < reps and (row.reps + 1 == reps or row.day in made_on)
    ]
    found += [
        Attempt(row.day, float(row.load.to(unit)), made=True)
        for row in history.rep_maxes
        if row.source == "tested" and row.reps == reps
    ]
    return tuple(sorted(found, key=lambda each: each.day))


def usual_of(history: LiftHistory) -> int:
    """Return for how many repetitions the newest rep-max is known, since that is what one looks for; else 1."""
    known = [(row.day, row.reps) for row in history.rep_maxes if row.reps in REP_MAXES]
    known += [
        (row.day, row.reps)
        for row in history.sets
        if row.kind == "test" and row.outcome == "done" and not row.left_out and row.reps in REP_MAXES
    ]
    return max(known, key=lambda each: each[0])[1] if known else 1
