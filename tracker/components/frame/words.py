"""How sets and days are said on every page: what the desk says, and what only pages need."""

from __future__ import annotations

from datetime import date

from tracker.desk.base.saying import (
    day_words,
    done_words,
    first_up,
    load_words,
    reps_words,
    rir_words,
    set_words,
    weekday_words,
)
from tracker.desk.maxes.references import Reference
from tracker.log.records import LiftRecord
from tracker.strength.holds import Holds
from tracker.strength.records import Outcome

OUTCOMES: dict[Outcome, str] = {"done": "Done", "missed": "Missed", "cut": "Cut short"}


def holds_words(holds: Holds) -> str:
    """Say whether a tested max still holds, and what would settle it."""
    settle = f" To settle it: {holds.settle[:1].lower()}{holds.settle[1:]}" if holds.settle else ""
    return f"{holds.words}{settle}"


def reference_words(reference: Reference, lift: LiftRecord, today: date) -> str:
    """Say a reference max with its load as the trade does: `tested 3RM body + 20 kg, 5 weeks ago`."""
    return reference.words(today, load_words(reference.shown, lift))


def full_day(day: date) -> str:
    """Write a day with its year, so that no reader takes it for another one: `3 Mar 2026`."""
    return f"{day.day} {day:%b %Y}"


__all__ = [
    "OUTCOMES",
    "day_words",
    "done_words",
    "first_up",
    "full_day",
    "holds_words",
    "load_words",
    "reference_words",
    "reps_words",
    "rir_words",
    "set_words",
    "weekday_words",
]
