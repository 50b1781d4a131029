"""Which set of a day beats the max in use, or which test is below it, and has not been asked about.

It is worked out with the day, of what was read for it. A test counts from the moment it was done, above or below the former
max; only a no lets the former one stay.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.max_of_set import WHAT
from tracker.desk.day.more_words import on_day_words
from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.little import rests_on_little
from tracker.desk.maxes.references import Reference, references
from tracker.desk.maxes.words import load_words
from tracker.errors import BadInputError
from tracker.log.choices import Choice
from tracker.log.records import SetRow
from tracker.prescription.rounding import rounded
from tracker.units import Mass, Unit

SAID = ("tested", "declared")
HEAVY_REPS = 3  # of more a set is no test of anything; common practice
SLIP = 1.5  # so many times the max in use is a slip of the fingers sooner than a max, and nobody is asked; own choice


@dataclass(frozen=True, slots=True)
class NewMax:
    """A set of the day that beats the max in use for so many repetitions; `tested` where it was done as a test.

    A test may be below it as well.
    """

    row: SetRow
    reps: int
    before: Reference
    tested: bool

    @property
    def words(self) -> str:
        """Say what was done and what is in use, and ask."""
        lift = self.row.lift
        now, old = load_words(self.row.load, lift), load_words(self.before.load, lift)
        since = (
            "an estimate"
            if self.before.source == "estimated"
            else f"{self.before.source} {on_day_words(self.before.day, self.row.day)}"
        )
        known = (
            f"{now} for {self.row.reps}, lower than your {self.reps}RM so far: {old}, {since}."
            if self.lower
            else f"{now} for {self.row.reps}. Your {self.reps}RM in use is {old}, {since}."
        )
        return f"{lift.title}: {known} Is {now} your {self.reps}RM from now on?"

    @property
    def lower(self) -> bool:
        return self.row.load.kg < self.before.load.kg

    @property
    def yes(self) -> str:
        return f"Yes: {self.reps}RM {load_words(self.row.load, self.row.lift)}"

    @property
    def no(self) -> str:
        return f"No: it stays {load_words(self.before.load, self.row.lift)}"


def beaten(
    sets: Iterable[SetRow],
    lines: Sequence[PlannedLine],
    choices: Sequence[Choice],
    histories: Mapping[str, LiftHistory],
    unit: Unit,
) -> NewMax | None:
    """Return the newest set of a day that beats a max in use, or test below it, of which nobody said whether it becomes the max.

    Of each lift only its newest such set counts, and an attempt only when its test is ended.
    """
    newest = {each.get("set"): each.get("how") for each in reversed(choices) if each.what == WHAT}
    answered = {which for which, how in newest.items() if how in ("yes", "no")}
    testing = {line.planned.id for line in lines if line.planned.test and line.open}
    seen: set[str] = set()
    for row in sorted(sets, key=lambda each: each.position, reverse=True):
        made = row.outcome == "done" and row.kind != "ramp" and bool(row.reps) and not row.left_out
        if not made or row.planned_set_id in testing or row.lift.id in seen or row.lift.id not in histories:
            continue
        found = _beats(histories[row.lift.id], row, unit)
        if found is not None:
            seen.add(row.lift.id)
            if row.id not in answered:
                return found
    return None


def _beats(history: LiftHistory, row: SetRow, unit: Unit) -> NewMax | None:
    tested = row.kind == "test"
    now = _in_use(history, row.reps, row.day, unit) if tested else None
    counts_now = now is not None and now.record == ("set", row.id)
    if tested:  # it counts already: what was in use without it
        history = replace(history, sets=tuple(each for each in history.sets if each.id != row.id))
    counts = {each.reps for each in history.rep_maxes} | {each.reps for each in history.sets if each.kind == "test"}
    for reps in sorted((each for each in counts if each and each <= row.reps), reverse=True):
        if tested and reps != row.reps:
            continue
        before = _in_use(history, reps, row.day, unit)
        if before is None or (not tested and float(row.load.kg) > SLIP * float(before.load.kg)):
            continue
        if row.load.kg > before.load.kg or (counts_now and row.load.kg < before.load.kg):
            return NewMax(row, reps, before, tested)
    return None if counts or tested else _above_estimate(history, row, unit)


def _above_estimate(history: LiftHistory, row: SetRow, unit: Unit) -> NewMax | None:
    """A heavy set above all that the estimate held likely before it, where nothing else is known of the lift's maxes."""
    if row.reps > HEAVY_REPS or history.model is None or row.lift.body:
        return None
    try:
        before = history.supposing([replace(row, left_out="asked about")])
    except BadInputError:  # nothing else says anything of the lift
        return None
    if before.model is None or rests_on_little(before, row.day):
        return None
    band = before.bar(before.model.estimate(row.day).rep_max[row.reps], row.day, unit)
    if band.estimate <= 0 or not band.high80 < float(row.load.to(unit)) <= SLIP * band.estimate:
        return None
    of = Reference(row.reps, rounded(Mass(Decimal(repr(round(band.estimate, 3))), unit)), "estimated", row.day)
    return NewMax(row, row.reps, of, False)


def _in_use(history: LiftHistory, reps: int, day: date, unit: Unit) -> Reference | None:
    return next((each for each in references(history, reps, day, unit) if each.source in SAID), None)
