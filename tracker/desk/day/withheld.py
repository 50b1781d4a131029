"""What is not offered for a set where it could not be answered: a lift that hurts or loads a sore place, an unanswered test.

Today's page asks, and draws the ways beside its question. Whoever can only log what is planned offers nothing before it is
answered, and says so in the same words.
"""

from __future__ import annotations

from dataclasses import replace

from tracker.desk.day import attempts, sore
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.today import DayPlan
from tracker.prescription import illness


def withheld(plan: DayPlan, line: PlannedLine) -> tuple[str, ...]:
    """Say why neither a load nor a touch that logs it is offered for a set; empty where both are."""
    if plan.sore.ill:
        return (illness.OFFERED,)
    if line.painful:
        return (sore.PAINFUL,)
    name = line.lift.name
    if (words := sore.words_of(name, plan.sore)) and plan.sore.way(name, line.step_id) is None:
        return (words,)
    if line.planned.test:
        if attempts.asks_safety(plan, line):
            return (attempts.ASK_SAFETY,)
        if attempts.safety_of(plan, line) == "neither":
            return (attempts.SAFETY_SAID["neither"],)
    return ()


def beside(plan: DayPlan, line: PlannedLine) -> tuple[str, ...]:
    """Say what is to be known of a set that is offered: that it loads a sore place, and how its test stands."""
    answer = attempts.safety_of(plan, line) if line.planned.test else None
    words = (
        sore.words_of(line.lift.name, plan.sore), attempts.SAFETY_SAID[answer] if answer else "", attempts.miss_words(line),
    )  # fmt: skip
    return tuple(each for each in words if each)


def without_load(line: PlannedLine) -> PlannedLine:
    """Return a set without its load and all that is said of that."""
    why = (line.held.text,) if line.held else ()
    return replace(line, made=None, percent=None, chance=None, instead=None, why=why)
