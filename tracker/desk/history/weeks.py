"""A member's training by week and by day: how much, how often, and where there was none."""

from __future__ import annotations

from calendar import monthrange
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.desk.base.roles import may
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.records import LiftRecord, SessionRow, SetRow
from tracker.log.unit_of_work import Log


@dataclass(frozen=True, slots=True)
class TrainedWeek:
    """One week from its Monday: sessions, sets, and what was moved in kilograms."""

    monday: date
    sessions: int
    sets: int
    moved_kg: float


@dataclass(frozen=True, slots=True)
class GlanceDay:
    """One day of a month at a glance."""

    day: date
    sets: int
    lifts: tuple[str, ...]
    tested: bool
    missed: bool
    rating: int | None

    @property
    def trained(self) -> bool:
        return self.sets > 0 or self.rating is not None


def moved_kg(row: SetRow) -> float:
    """Return what a set moved in all, in kilograms: load x implements x repetitions, both sides where reps are per side."""
    held: LiftRecord = row.lift
    load = row.moved_kg if held.body else row.moved_kg * held.implements
    return max(0.0, load) * row.reps * (2 if held.per_side else 1)


@may("see")
def trained_weeks(log: Log, member_id: str, *, until: date, count: int = 26) -> tuple[TrainedWeek, ...]:
    """List the last `count` weeks up to the one of `until`, oldest first; weeks without training are there, empty."""
    last = until - timedelta(days=until.weekday())
    first = last - timedelta(weeks=count - 1)
    with log.reading() as session:
        sets = log_sets.sets_of(session, member_id, since=first, until=last + timedelta(days=6))
        sessions = log_sessions.sessions_of(session, member_id, until=last + timedelta(days=6))
    sessions = tuple(row for row in sessions if row.day >= first)
    return tuple(_week(first + timedelta(weeks=n), sets, sessions) for n in range(count))


def _week(monday: date, sets: Iterable[SetRow], sessions: Iterable[SessionRow]) -> TrainedWeek:
    mine = [row for row in sets if monday <= row.day < monday + timedelta(days=7)]
    held = [row for row in sessions if monday <= row.day < monday + timedelta(days=7)]
    return TrainedWeek(monday, len(held), len(mine), sum(moved_kg(row) for row in mine))


@may("see")
def month(log: Log, member_id: str, day: date) -> tuple[GlanceDay, ...]:
    """List every day of the month of `day`, with what was done on it."""
    first = day.replace(day=1)
    last = day.replace(day=monthrange(day.year, day.month)[1])
    with log.reading() as session:
        sets = log_sets.sets_of(session, member_id, since=first, until=last)
        sessions = log_sessions.sessions_of(session, member_id, until=last)
    ratings = {row.day: row.rating for row in sessions if row.day >= first and row.rating is not None}
    days = (first + timedelta(days=n) for n in range((last - first).days + 1))
    return tuple(_glance(each, [row for row in sets if row.day == each], ratings.get(each)) for each in days)


def _glance(day: date, sets: list[SetRow], rating: int | None) -> GlanceDay:
    return GlanceDay(
        day,
        len(sets),
        tuple(dict.fromkeys(row.lift.title for row in sets)),
        any(row.kind == "test" for row in sets),
        any(row.outcome == "missed" for row in sets),
        rating,
    )
