"""A load that was missed lately and not made since, though the estimate of the max is as much: said before the estimate."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.words import load_words
from tracker.log.records import LiftRecord, SetRow
from tracker.strength.records import Band
from tracker.units import Mass, Unit
from tracker.wording import counted

WITHIN_DAYS = 91  # three months, as all lifts at a glance: an older miss says little of today; own choice
NAMED = 2  # days that are named; of more the last one is


@dataclass(frozen=True, slots=True)
class StandingMiss:
    """The lightest load, as it was typed, that was missed for `reps` and not made since, and on which days, oldest first."""

    lift: LiftRecord
    reps: int
    load: Mass
    days: tuple[date, ...]

    @property
    def short(self) -> str:
        """Say it as short as it goes: `40 kg missed on 2 days`."""
        many = f" on {counted(len(self.days), 'day')}" if len(self.days) > 1 else ""
        return f"{load_words(self.load, self.lift)} missed{many}"

    def when(self, today: date) -> str:
        """Name its days: `on 9 and 23 Nov`; of more than two the last one."""
        named = [_short(day, today) for day in self.days]
        return f"on {' and '.join(named)}" if len(named) <= NAMED else f"last on {named[-1]}"


def standing_miss(history: LiftHistory, reps: int, unit: Unit, now: Band, today: date) -> StandingMiss | None:
    """Return what was missed for an nRM at no more than its estimate, and not made since; None where nothing was.

    Whoever fails before the nth repetition of a load has shown of that day that their nRM is less. Sets that were left out
    of the estimate and those of a ramp count for nothing.

    Args:
        history: The lift as the estimate knows it.
        reps: Which nRM.
        unit: The unit of `now`.
        now: The estimate of the nRM today, as it is loaded.
        today: The day that is today where the reader is.
    """
    rows = [row for row in history.sets if not row.left_out and row.day <= today]
    steps = 2 if unit == "kg" else 1
    said = round(now.estimate * steps) / steps  # as it stands on the page
    missed = [
        row
        for row in rows
        if row.outcome == "missed" and row.kind != "ramp" and row.reps < reps
        and (today - row.day) <= timedelta(days=WITHIN_DAYS) and float(row.load.to(unit)) <= said
    ]  # fmt: skip
    for load in sorted({row.load.kg for row in missed}):
        same = [row for row in missed if row.load.kg == load]
        if not _made_since(rows, history, same[-1], reps):
            return StandingMiss(history.lift, reps, same[-1].load, tuple(dict.fromkeys(row.day for row in same)))
    return None


def _made_since(rows: Sequence[SetRow], history: LiftHistory, last: SetRow, reps: int) -> bool:
    later = rows[rows.index(last) + 1 :]
    made = any(row.reps >= reps and row.load.kg >= last.load.kg for row in later)
    known = history.rep_maxes
    return made or any(
        row.source == "tested" and row.day >= last.day and row.reps >= reps and row.load.kg >= last.load.kg
        for row in known
    )


def _short(day: date, today: date) -> str:
    return f"{day.day} {day:%b}{'' if day.year == today.year else f' {day.year}'}"
