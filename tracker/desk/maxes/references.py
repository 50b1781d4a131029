"""Which rep-max a percentage refers to: tested, declared or estimated; how old it is, and whether it still holds."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Literal

from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.little import rests_on_little
from tracker.prescription.rounding import OLD_WEEKS, rounded
from tracker.strength.holds import Holds, still_holds
from tracker.strength.records import REP_MAXES
from tracker.units import Mass, Unit, plain

Source = Literal["tested", "declared", "estimated", "given"]  # given: typed for this once, and not kept


@dataclass(frozen=True, slots=True)
class Reference:
    """A reference max: the most load for `reps` repetitions, where it comes from and when."""

    reps: int
    load: Mass
    source: Source
    day: date
    holds: Holds | None = None  # what the estimate says of a tested or declared one
    record: tuple[str, str] | None = None  # what stands in the log of it: ("set", id) or ("max", id)

    def age_days(self, today: date) -> int:
        return (today - self.day).days

    @property
    def shown(self) -> Mass:
        """The load with the digits it deserves: an estimate is not known to the gram."""
        return rounded(self.load) if self.source == "estimated" else self.load

    def words(self, today: date, load: str = "") -> str:
        """Say what it is and how old: `tested 3RM 92.5 kg, 5 weeks ago`; `load` says the load otherwise than as a mass."""
        known = shown_load(self.load) if self.source == "estimated" else str(self.load)
        said = f"{self.reps}RM {load or known}"
        if self.source == "estimated":
            return f"estimated {said}"
        if self.source == "given":
            return f"{said}, typed by hand"
        return f"{self.source} {said}, {ago(self.age_days(today))}"


def ago(days: int) -> str:
    """Say an age in the words a person uses."""
    if days <= 0:
        return "today"
    if days == 1:
        return "yesterday"
    if days < 14:
        return f"{days} days ago"
    if days < 70:
        return f"{days // 7} weeks ago"
    months = round(days / 30.44)
    return f"{months} months ago" if months < 24 else f"{days // 365} years ago"


def shown_load(load: Mass) -> str:
    """Write an estimated load with the digits it deserves: halves of a kilogram, whole pounds."""
    shown = rounded(load)
    return f"{plain(shown.amount)} {shown.unit}"


def references(history: LiftHistory, reps: int, day: date, unit: Unit) -> tuple[Reference, ...]:
    """List what an nRM could be taken from, the first choice first: tested, declared, estimated.

    A declared one that is older than twelve weeks stands behind the estimate.
    A missed attempt is none, however many repetitions were made of it: one good one of two at 80 kg is no test of the 1RM.
    Only facts with exactly `reps` repetitions count as tested or declared: a percentage of a 5RM refers to the 5RM
    itself, never to a 1RM turned into one.
    """
    found: list[Reference] = []
    tested = [
        (row.day, row.load, ("set", row.id))
        for row in history.sets
        if row.kind == "test" and row.reps == reps and row.outcome == "done" and row.day <= day and not row.left_out
    ]
    tested += [
        (row.day, row.load, ("max", row.id))
        for row in history.rep_maxes
        if row.source == "tested" and row.reps == reps and row.day <= day
    ]
    declared = [
        (row.day, row.load, ("max", row.id))
        for row in history.rep_maxes
        if row.source == "declared" and row.reps == reps and row.day <= day
    ]
    kinds: tuple[tuple[Source, list[tuple[date, Mass, tuple[str, str]]]], ...] = (
        ("tested", tested),
        ("declared", declared),
    )
    for source, entries in kinds:
        if entries:
            newest, load, record = max(entries, key=lambda entry: (entry[0], entry[1].kg))
            found.append(Reference(reps, load, source, newest, _holds(history, reps, load, newest, day), record))
    told = history.model is not None and not rests_on_little(history, day)
    if told and history.model is not None and reps in REP_MAXES and history.sets and history.sets[0].day <= day:
        band = history.bar(history.model.estimate(day).rep_max[reps], day, unit)
        if band.estimate > 0:
            estimated = Reference(reps, Mass(Decimal(repr(round(band.estimate, 3))), unit), "estimated", day)
            old = [each for each in found if each.source == "declared" and each.age_days(day) > OLD_WEEKS * 7]
            found = [each for each in found if each not in old] + [estimated, *old]
    return tuple(found)


def _holds(history: LiftHistory, reps: int, load: Mass, tested_on: date, day: date) -> Holds | None:
    if history.model is None or reps not in REP_MAXES or not any(row.day > tested_on for row in history.sets):
        return None
    return still_holds(history.model, reps, history.moved_kg(load, day), day)
