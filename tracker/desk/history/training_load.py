"""Training load by week: session rating x minutes with what is missing said, and what was lifted beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import groupby

from tracker.conditioning.counts import NOTHING, Count
from tracker.conditioning.load import (
    AgainstBefore,
    Rated,
    Week,
    against_before,
    back_words,
    days_off_before,
    week_words,
    weeks,
)
from tracker.conditioning.volume import Lifted, LiftVolume, volume_by_lift
from tracker.desk.base.roles import may
from tracker.desk.day.minutes import session_minutes
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.log import rest as log_rest
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.records import SessionRow, SetRow
from tracker.log.unit_of_work import Act, Log
from tracker.wording import counted

WEEKS = 12
ASKED_DAYS = 14  # of the last days without an entry it is asked whether they were rest


@dataclass(frozen=True, slots=True)
class LoadWeek:
    """One week from its Monday: its load, what is missing from it, and what was lifted."""

    week: Week
    words: str
    volume: tuple[LiftVolume, ...]

    @property
    def tonnage_kg(self) -> float:
        return sum(each.tonnage_kg for each in self.volume)

    @property
    def hard_sets(self) -> Count:
        return sum((each.hard_sets for each in self.volume), NOTHING)


@dataclass(frozen=True, slots=True)
class LoadReport:
    """A member's last weeks, oldest first; the last one is the week that is on."""

    weeks: tuple[LoadWeek, ...]
    against: AgainstBefore | None  # the last whole week against the four before it
    back: str  # "first session after 20 days without one", in the week of that session
    unrated: tuple[SessionRow, ...]  # newest first
    open_days: tuple[date, ...]  # of the last days those of which nothing is known, newest first
    rested: frozenset[date]


@may("see")
def load_report(log: Log, member_id: str, today: date, *, count: int = WEEKS) -> LoadReport:
    """Read the training load of a member's last `count` weeks up to the one of `today`."""
    first = today - timedelta(days=today.weekday()) - timedelta(weeks=count - 1)
    with log.reading() as session:
        days = log_sessions.training_days(session, member_id, today)
        sets = log_sets.sets_of(session, member_id, since=first, until=today)
        scores = log_scores.scores_of(session, member_id, since=first, until=today)
        sessions = [row for row in log_sessions.sessions_of(session, member_id, until=today) if row.day >= first]
        rested = log_rest.rest_days(session, member_id, first)
    alive = {row.session_id for row in sets}
    scored = {row.score.day for row in scores}
    sessions = [replace(row, minutes=session_minutes(row, sets, scores)) for row in sessions]
    done = [row for row in sessions if row.id in alive or row.day in scored or row.minutes or row.rating is not None]
    trained = {row.day for row in done}
    rest = {day for day in rested if day not in trained}
    found = weeks([Rated(row.day, row.minutes, row.rating) for row in done], first, count, rest)
    volumes = _volumes(sets)
    return LoadReport(
        tuple(
            LoadWeek(week, week_words(week, over=min(7, (today - week.first).days)), volumes.get(week.first, ()))
            for week in found
        ),
        against_before(found[:-1]),
        _back(days, today),
        tuple(row for row in done if row.rating is None or row.minutes is None),
        _open_days(trained | rest, days, today),
        frozenset(rest),
    )


def _volumes(sets: Sequence[SetRow]) -> dict[date, tuple[LiftVolume, ...]]:
    by_week = groupby(sets, key=lambda row: row.day - timedelta(days=row.day.weekday()))
    return {monday: volume_by_lift(_lifted(row) for row in rows) for monday, rows in by_week}


def _lifted(row: SetRow) -> Lifted:
    """A set as the sums read it: each implement counts, and so does the body where it is lifted."""
    return Lifted(
        row.lift.title, max(0.0, row.moved_kg), row.reps, None if row.rir is None else float(row.rir), row.outcome, row.kind,
        1 if row.lift.body else row.lift.implements, row.lift.per_side,
    )  # fmt: skip


def _back(days: Sequence[date], today: date) -> str:
    """Say that this week's first session was the first after a break, else nothing."""
    monday = today - timedelta(days=today.weekday())
    this_week = [day for day in days if day >= monday]
    return back_words(days_off_before(days, this_week[0])) if this_week else ""


def _open_days(known: set[date], days: Sequence[date], today: date) -> tuple[date, ...]:
    """The last days without an entry, from the member's first day of training on; today is not over yet."""
    asked = (today - timedelta(days=n) for n in range(1, ASKED_DAYS + 1))
    return tuple(day for day in asked if day not in known and days and day > days[0])


@may("change")
def say_rested_on_all(log: Log, member_id: str, days: Sequence[date]) -> None:
    """Say that all these days were rest days, or none of them where one can't have been."""
    with log.act(f"rested on {counted(len(days), 'day')}", member_id, own=True) as act:
        _refuse_trained(act, member_id, days)
        for day in days:
            log_rest.put_rest_day(act, member_id, check_day(day))


def _refuse_trained(act: Act, member_id: str, days: Sequence[date]) -> None:
    """A day with a session is no rest day: somebody may have logged one since the page asked."""
    trained = set(log_sessions.training_days(act.session, member_id, max(days, default=date.min))) & set(days)
    if trained:
        which = ", ".join(day.isoformat() for day in sorted(trained))
        verb = "has a session" if len(trained) == 1 else "have sessions"
        raise BadInputError(f"{which} {verb}.", where="rest", mend="Choose days without one.")
