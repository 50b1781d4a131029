"""Training load by week: session rating x minutes with what is missing said, what is usual, and what is planned next."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from statistics import fmean, median
from typing import Literal

from tracker.conditioning.counts import NOTHING, Count
from tracker.conditioning.load import (
    Rated,
    Stand,
    Usual,
    Week,
    back_words,
    days_off_before,
    usual,
    week_words,
    weeks,
)
from tracker.conditioning.volume import Lifted, LiftVolume, volume_by_lift
from tracker.desk.base.roles import may
from tracker.desk.day.minutes import session_minutes
from tracker.desk.history import silent
from tracker.desk.history.silent import SilentWeeks
from tracker.log import choices as log_choices
from tracker.log import pieces as log_pieces
from tracker.log import rest as log_rest
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.records import MemberStepRow, SessionRow, SetRow
from tracker.log.unit_of_work import Log, Reader

Figure = Literal["load", "time", "how hard", "sessions"]
WEEKS = 26
ASKED_DAYS = (
    14  # of the last days without an entry it is asked whether they were rest, where they are not taken as rest
)


@dataclass(frozen=True, slots=True)
class LoadWeek:
    """One week from its Monday: its load, what is missing from it, and what was lifted."""

    week: Week
    words: str
    volume: tuple[LiftVolume, ...]
    sets_by_day: tuple[int, ...] = ()  # without those that ramp up
    ratings: tuple[int, ...] = ()  # of its sessions, 0 to 10, as far as they were rated
    sessions_by_day: tuple[int, ...] = ()
    minutes_by_day: tuple[int | None, ...] = ()  # None where a session of the day has no minutes

    @property
    def sets(self) -> int:
        return sum(self.sets_by_day)

    def minutes_up_to(self, days: int) -> int | None:
        """Its minutes up to a day; None where those of a session are not known."""
        known = [each for each in self.minutes_by_day[:days] if each is not None]
        return sum(known) if len(known) == len(self.minutes_by_day[:days]) else None

    @property
    def tonnage_kg(self) -> float:
        return sum(each.tonnage_kg for each in self.volume)

    @property
    def hard_sets(self) -> Count:
        return sum((each.hard_sets for each in self.volume), NOTHING)

    @property
    def rating(self) -> float | None:
        """The mean rating of its sessions, 0 to 10; None where none was rated."""
        return fmean(self.ratings) if self.ratings else None


@dataclass(frozen=True, slots=True)
class Compared:
    """A week beside what is usual: for a week that is on, up to the same weekday of those before."""

    each: LoadWeek
    days: int  # of the week that count: 7 where it is over
    load: float | None
    usual: Usual | None
    usual_minutes: Usual | None
    usual_sessions: Usual | None
    usual_rating: Usual | None  # of the mean ratings of those weeks, to a tenth

    @property
    def stands(self) -> dict[Figure, Stand]:
        """How each of its figures stands to its usual range; those are left out of which either is not known.

        Of a load from which a rating is missing it is known that it is more where already what is known is.
        """
        found: dict[Figure, Stand] = {}
        if not self.days:
            return found
        least = round(self.each.week.known_load)
        if self.usual is not None and (self.load is not None or least > self.usual.high):
            found["load"] = self.usual.stand(least if self.load is None else self.load)
        minutes = self.each.minutes_up_to(self.days)
        if self.usual_minutes is not None and minutes is not None:
            found["time"] = self.usual_minutes.stand(minutes)
        if self.usual_rating is not None and self.each.rating is not None:
            found["how hard"] = self.usual_rating.stand(round(self.each.rating, 1))
        if self.usual_sessions is not None:
            found["sessions"] = self.usual_sessions.stand(sum(self.each.sessions_by_day[: self.days]))
        return found

    @property
    def stand(self) -> Stand | None:
        """More than usual: at least half of its figures are above their range and none is below it; less the other way round.

        The rule is our own choice; None where no figure can be compared.
        """
        stands = list(self.stands.values())
        if not stands:
            return None
        more, less = stands.count("more"), stands.count("less")
        if more * 2 >= len(stands) and not less:
            return "more"
        return "less" if less * 2 >= len(stands) and not more else "as usual"


@dataclass(frozen=True, slots=True)
class Ahead:
    """What is planned in a week, or in what is left of it: sessions, their sets and pieces."""

    first: date
    sessions: int
    sets: int
    pieces: int
    load: float | None  # in arbitrary units, were each session as long and hard as half of the last ones were


@dataclass(frozen=True, slots=True)
class LoadReport:
    """A member's last weeks, oldest first; the last one is the week that is on."""

    weeks: tuple[LoadWeek, ...]
    this_week: Compared
    last_week: Compared
    back: str  # "first session after 20 days without one", in the week of that session
    unrated: tuple[SessionRow, ...]  # newest first
    open_days: tuple[date, ...]  # where silent days are not taken as rest: the last ones of which nothing is known
    rested: frozenset[date]
    silent_rests: bool  # whether days without an entry count as rest in a week with a session
    silent_weeks: SilentWeeks | None  # the newest ones without an entry of which nobody has said anything yet
    left: Ahead  # of this week
    ahead: Ahead  # next week

    def usual_of(self, amount: Callable[[LoadWeek], float], *, rated: bool = False) -> Usual | None:
        """Return what is usual of an amount, over the whole weeks; silent ones are left out, with `rated` unrated ones too."""
        return usual([_known(each, amount, rated=rated) for each in self.weeks[:-1]])


def _known(each: LoadWeek, amount: Callable[[LoadWeek], float], *, rated: bool) -> float | None:
    return None if each.week.silent or (rated and each.week.load is None) else amount(each)


@may("see")
def load_report(log: Log, member_id: str, today: date, *, count: int = WEEKS) -> LoadReport:
    """Read the training load of a member's last `count` weeks, at least two, up to the one of `today`."""
    monday = today - timedelta(days=today.weekday())
    first = monday - timedelta(weeks=max(count, 2) - 1)
    with log.reading() as session:
        days = log_sessions.training_days(session, member_id, today)
        sets = log_sets.sets_of(session, member_id, since=first, until=today)
        scores = log_scores.scores_of(session, member_id, since=first, until=today)
        sessions = [row for row in log_sessions.sessions_of(session, member_id, until=today) if row.day >= first]
        rested = log_rest.rest_days(session, member_id, first)
        chosen = log_choices.choices(session, member_id)
        planned = _planned(session, member_id, today, monday + timedelta(days=13))
    alive = {row.session_id for row in sets}
    scored = {row.score.day for row in scores}
    sessions = [replace(row, minutes=session_minutes(row, sets, scores)) for row in sessions]
    done = [row for row in sessions if row.id in alive or row.day in scored or row.minutes or row.rating is not None]
    trained = {row.day for row in done}
    rest = {day for day in rested if day not in trained}
    rests, asked = silent.rests(chosen), monday - timedelta(weeks=silent.ASKED_WEEKS)
    rated = [Rated(row.day, row.minutes, row.rating) for row in done]
    found = weeks(rated, first, max(count, 2), rest, rests_before=today if rests else None)
    every = tuple(_week(week, today, sets, done) for week in found)
    # What is done today belongs to what was done so far; where nothing was yet, today is not over.
    so_far = today.weekday() + (today in trained)
    per_session = [each.load for each in rated if each.load is not None]
    likely = median(per_session) if len(per_session) >= 3 else None
    return LoadReport(
        every,
        _compared(every, so_far),
        _compared(every[:-1], 7),
        _back(days, today),
        tuple(row for row in done if (row.rating is None or row.minutes is None) and row.day >= asked),
        () if rests else _open_days(trained | rest, days, today),
        frozenset(rest),
        rests,
        silent.to_ask(found[:-1], days[0] if days else today, chosen),
        _ahead(monday, planned, likely),
        _ahead(monday + timedelta(days=7), planned, likely),
    )


def _week(week: Week, today: date, sets: Sequence[SetRow], done: Sequence[SessionRow]) -> LoadWeek:
    last, days = week.first + timedelta(days=6), [week.first + timedelta(days=n) for n in range(7)]
    mine = [row for row in sets if week.first <= row.day <= last]
    return LoadWeek(
        week,
        week_words(week, over=min(7, (today - week.first).days)),
        volume_by_lift(_lifted(row) for row in mine),
        tuple(sum(row.kind != "ramp" and row.day == week.first + timedelta(days=n) for row in mine) for n in range(7)),
        tuple(row.rating for row in done if row.rating is not None and week.first <= row.day <= last),
        tuple(sum(row.day == day for row in done) for day in days),
        tuple(_minutes([row for row in done if row.day == day]) for day in days),
    )


def _minutes(sessions: Sequence[SessionRow]) -> int | None:
    return None if any(not row.minutes for row in sessions) else sum(row.minutes or 0 for row in sessions)


def _compared(every: Sequence[LoadWeek], days: int) -> Compared:
    """Set the last of some weeks beside those before it, each up to the same day."""
    each, before = every[-1], every[:-1]
    amounts = [None if one.week.silent else one.week.up_to(days) for one in before]
    known = [None if one.week.silent else one for one in before]
    minutes = usual([one and one.minutes_up_to(days) for one in known])
    sessions = usual([one and sum(one.sessions_by_day[:days]) for one in known])
    rating = usual([None if one is None or one.rating is None else round(one.rating, 1) for one in known])
    return Compared(each, days, each.week.up_to(days), usual(amounts), minutes, sessions, rating)


def _planned(session: Reader, member_id: str, today: date, until: date) -> list[tuple[MemberStepRow, int]]:
    """The sessions that are still to be done, from today on, with the number of their pieces."""
    steps = log_waves.member_steps(session, member_id)
    ahead = [step for step in steps if step.state == "planned" and today <= step.due <= until]
    return [(step, len(log_pieces.pieces_of_step(session, step.step_id))) for step in ahead]


def _ahead(first: date, planned: Sequence[tuple[MemberStepRow, int]], likely: float | None) -> Ahead:
    mine = [(step, pieces) for step, pieces in planned if first <= step.due < first + timedelta(days=7)]
    return Ahead(
        first,
        len(mine),
        sum(each.sets for step, _ in mine for each in step.sets),
        sum(pieces for _, pieces in mine),
        likely * len(mine) if likely is not None and mine else None,
    )


def _lifted(row: SetRow) -> Lifted:
    """A set as the sums read it: each implement counts, and so does the body where it is lifted."""
    return Lifted(
        row.lift.title, max(0.0, row.moved_kg), row.reps, None if row.rir is None else float(row.rir), row.outcome, row.kind,
        1 if row.lift.body else row.lift.implements, row.each_side,
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
