"""How sets and days are said on every page: with their unit, in the trade's words, and so that no date is misread."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from tracker.desk.maxes.references import Reference
from tracker.log.records import LiftRecord, SetRow
from tracker.prescription.for_place import WITH_EITHER
from tracker.prescription.rounding import rounded
from tracker.strength.holds import Holds
from tracker.strength.outcomes import set_in_words
from tracker.strength.records import Kind, Outcome
from tracker.units import Mass, Unit, added, plain, short

OUTCOMES: dict[Outcome, str] = {"done": "Done", "missed": "Missed", "cut": "Cut short"}
KINDS: dict[Kind, str] = {"ramp": ", ramp", "test": ", test"}


def load_words(load: Mass, lift: LiftRecord) -> str:
    """Say a load as the trade does: the whole bar, each of two, or what is added to the body."""
    if lift.body:
        return added(load)
    return f"{short(load)} each" if lift.implements > 1 else short(load)


def reps_words(reps: int, *, each_side: bool) -> str:
    """Say repetitions: `8`, or `8 each side`, which are sixteen."""
    return f"{reps} each side" if each_side else str(reps)


def set_words(row: SetRow) -> str:
    """Say one set: `4 × 60 kg, 2 left`, `70 kg, 3 made, the 4th missed`, `8 each side × 15 kg (one dumbbell)`."""
    side = " each side" if row.each_side else ""
    load = load_words(row.load, row.lift) + held_words(row.lift)
    return done_words(row.reps, load, row.outcome, row.kind, row.rir, side=side)


def held_words(lift: LiftRecord) -> str:
    """Say behind a load that it was one of what others hold two of: ` (one dumbbell)`; nothing of other lifts."""
    if lift.implement not in ("dumbbell", "kettlebell"):
        return ""
    either = WITH_EITHER & set(lift.name.lower().split())
    return " (one)" if either else f" (one {lift.implement})"


def in_unit_words(row: SetRow, unit: Unit) -> str:
    """Say about what a set's load is in another unit than it was lifted in: `about 16 kg each`; nothing in its own."""
    if row.load.unit == unit or not row.load.amount:
        return ""
    return f"about {load_words(rounded(Mass(row.load.to(unit), unit)), row.lift)}"


def done_words(reps: int, load: str, outcome: Outcome, kind: Kind, rir: Decimal | None, *, side: str = "") -> str:
    """Say what was done, with the repetitions that were really done and those said to be left beside them."""
    left = f", {rir_words(rir)}" if rir is not None else ""
    return f"{set_in_words(reps, load, outcome, times='×', side=side)}{left}{KINDS.get(kind, '')}"


def rir_words(rir: Decimal) -> str:
    return "6 or more left" if rir >= 6 else "none left" if rir == 0 else f"{plain(rir)} left"


def holds_words(holds: Holds) -> str:
    """Say whether a tested max still holds, and what would settle it."""
    settle = f" To settle it: {holds.settle[:1].lower()}{holds.settle[1:]}" if holds.settle else ""
    return f"{holds.words}{settle}"


def reference_words(reference: Reference, lift: LiftRecord, today: date) -> str:
    """Say a reference max with its load as the trade does: `tested 3RM body + 20 kg, 5 weeks ago`."""
    return reference.words(today, load_words(reference.shown, lift))


def day_words(day: date, today: date) -> str:
    """Name a day as near as it is: today, yesterday, `Wed 25 Nov`, `Mon 3 Mar 2025`."""
    away = (today - day).days
    if away in (0, 1, -1):
        return {0: "today", 1: "yesterday", -1: "tomorrow"}[away]
    year = f" {day.year}" if day.year != today.year else ""
    return f"{weekday_words(day)}{year}"


def weekday_words(day: date) -> str:
    """Write a day of these weeks with the day of the week: `Wed 25 Nov`."""
    return f"{day:%a} {day.day} {day:%b}"


def full_day(day: date) -> str:
    """Write a day with its year, so that no reader takes it for another one: `3 Mar 2026`."""
    return f"{day.day} {day:%b %Y}"


def first_up(text: str) -> str:
    """Begin a sentence."""
    return text[:1].upper() + text[1:]
