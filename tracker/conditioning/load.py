"""Training load by the session-rating method: rating x minutes, by week, with monotony and strain as published.

Foster et al. 2001, JSCR 15(1):109-115 (abstract): the rating of the whole session times its minutes. Foster 1998, MSSE
30(7):1164-1168 (abstract): monotony is the mean of the days' loads over their standard deviation, and load x monotony is
what that paper calls strain. Which standard deviation was not found in either, so both are given and named. No fixed
limits: the 1998 abstract speaks of limits individual to each athlete. No ratio of recent to earlier load: a randomised
trial found no protection from steering by it (Dalen-Lorentsen et al. 2021, BJSM 55(2):108-114, abstract).

Our choice, without a source: a day without an entry counts as rest in a week with a session, unless the member says
otherwise; a week without any entry is not known, and stays out of what is usual. What is usual are the last weeks that are
known, from the least to the most of them. Monotony says little of a week with few sessions, since it is then the days of
rest that make it, and is told from five days of training on.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from statistics import fmean, median, pstdev, stdev
from typing import Literal

from tracker.errors import BadInputError
from tracker.limits import MOST_MINUTES, MOST_RATING

Deviation = Literal["sample", "population"]  # divided by n - 1, or by n
# Anchors of the 2001 modified CR-10 scale, as quoted in a text that reports it; 6, 8 and 9 carry no word.
ANCHORS: Mapping[int, str] = {
    0: "Rest", 1: "Very, very easy", 2: "Easy", 3: "Moderate", 4: "Somewhat hard", 5: "Hard", 7: "Very hard", 10: "Maximal",
}  # fmt: skip
HARD_RATING = 7  # "very hard" and above
USUAL_OF, USUAL_WITHIN, USUAL_LEAST = 6, 10, 3  # known weeks that make the usual, of how many, and how many at least
MONOTONY_FROM = 5  # days of training in a week from which its monotony is told
BACK_AFTER_DAYS = 14  # days without a session after which the next ones are marked as the first ones back; our choice


@dataclass(frozen=True, slots=True)
class Rated:
    """One session: day, minutes and rating of 0 to 10 for the whole of it; either may be missing."""

    day: date
    minutes: float | None
    rating: float | None

    def __post_init__(self) -> None:
        if self.rating is not None and not 0 <= self.rating <= MOST_RATING:
            raise BadInputError(f"A rating of {self.rating} can't be.", mend="Rate the whole session from 0 to 10.")
        if self.minutes is not None and not 0 < self.minutes <= MOST_MINUTES:
            raise BadInputError(
                f"{self.minutes} minutes can't be.", mend="Write the minutes of the session, up to 1,440."
            )

    @property
    def load(self) -> float | None:
        """Rating x minutes, in arbitrary units; None where either is missing."""
        return None if self.minutes is None or self.rating is None else self.minutes * self.rating


@dataclass(frozen=True, slots=True)
class Week:
    """Seven days of load from `first`, in arbitrary units; None for a day that is not known.

    A day without any entry is not known, unless somebody says that they rested, or it was `assumed`: taken as rest by the
    rule above.
    """

    first: date
    days: tuple[float | None, ...]
    sessions: int
    unrated: int
    minutes: float
    hard_sessions: int
    unrated_days: tuple[int, ...] = ()  # of the seven, counted from 0
    assumed: tuple[int, ...] = ()  # the same: taken as rest, because the week has a session and nobody said otherwise

    @property
    def silent(self) -> bool:
        """Whether nothing is known of the week but days of rest that were said."""
        return not self.sessions and self.unknown_days > 0

    @property
    def trained_days(self) -> int:
        """Days with a session, rated or not; one that was rated 0 counts as rest."""
        return sum(n in self.unrated_days or (day or 0) > 0 for n, day in enumerate(self.days))

    def up_to(self, days: int) -> float | None:
        """Load of the first `days` of the week; None while one of them is not known."""
        known = [day for day in self.days[:days] if day is not None]
        return sum(known) if len(known) == days else None

    @property
    def unknown_days(self) -> int:
        return sum(day is None for day in self.days)

    @property
    def rest_days(self) -> int:
        return sum(day == 0 for day in self.days)

    @property
    def load(self) -> float | None:
        """Load of the week; None while a session of it is unrated or a day of it is not known."""
        return None if self.unknown_days else sum(day for day in self.days if day is not None)

    @property
    def known_load(self) -> float:
        """What is known of the load: at least this much."""
        return sum(day for day in self.days if day is not None)

    def monotony(self, deviation: Deviation = "sample") -> float | None:
        """Mean over standard deviation of the days' loads; None with an unknown day or seven equal days."""
        return monotony(self.days, deviation)

    @property
    def tells_monotony(self) -> bool:
        """Whether monotony means something here: the whole week is known, and most of its days were trained on."""
        return self.trained_days >= MONOTONY_FROM and self.monotony() is not None

    def load_x_monotony(self, deviation: Deviation = "sample") -> float | None:
        """Load of the week x monotony, "strain" in Foster 1998; None where monotony is."""
        evenness = self.monotony(deviation)
        return None if evenness is None or self.load is None else self.load * evenness


def monotony(days: Sequence[float | None], deviation: Deviation = "sample") -> float | None:
    """Mean over standard deviation of seven days' loads; None where a day is unknown or all are equal."""
    known = [day for day in days if day is not None]
    if len(known) < len(days) or len(set(known)) < 2:
        return None
    return fmean(known) / (stdev(known) if deviation == "sample" else pstdev(known))


def weeks(
    sessions: Sequence[Rated], first: date, count: int, rest: Collection[date] = (), *, rests_before: date | None = None
) -> tuple[Week, ...]:
    """Return `count` weeks of seven days from `first`.

    Args:
        sessions: The sessions, in any order.
        first: The first day of the first week.
        count: How many weeks.
        rest: Days on which the member says that they rested.
        rests_before: Silent days before this one count as rest where their week has a session; None: they are not known.

    Raises:
        BadInputError: if a day is both a rest day and one with a session.
    """
    by_day: dict[date, list[Rated]] = {}
    for session in sessions:
        by_day.setdefault(session.day, []).append(session)
    if both := sorted(set(rest) & set(by_day)):
        raise BadInputError(f"{both[0]} has a session, so it is no rest day.", mend="Take one of the two away.")
    before = rests_before or first
    return tuple(_week(by_day, first + timedelta(weeks=number), frozenset(rest), before) for number in range(count))


def _week(by_day: Mapping[date, Sequence[Rated]], first: date, rest: frozenset[date], rests_before: date) -> Week:
    days = [first + timedelta(days=number) for number in range(7)]
    done = [session for day in days for session in by_day.get(day, ())]
    silent = [n for n, day in enumerate(days) if day not in by_day and day not in rest]
    assumed = tuple(n for n in silent if done and days[n] < rests_before)
    return Week(
        first,
        tuple(_day_load(by_day.get(day, ()), rested=day in rest or n in assumed) for n, day in enumerate(days)),
        sessions=len(done),
        unrated=sum(session.load is None for session in done),
        minutes=sum(session.minutes or 0 for session in done),
        hard_sessions=sum((session.rating or 0) >= HARD_RATING for session in done),
        unrated_days=tuple(
            number for number, day in enumerate(days) if any(session.load is None for session in by_day.get(day, ()))
        ),
        assumed=assumed,
    )


def _day_load(sessions: Sequence[Rated], *, rested: bool) -> float | None:
    if not sessions:
        return 0.0 if rested else None
    loads = [session.load for session in sessions]
    known = [load for load in loads if load is not None]
    return sum(known) if len(known) == len(loads) else None


Stand = Literal["more", "as usual", "less"]


@dataclass(frozen=True, slots=True)
class Usual:
    """What is usual for a member: least, middle (median) and most of some known weeks, and how many these are."""

    low: float
    middle: float
    high: float
    weeks: int

    def stand(self, amount: float) -> Stand:
        """Say how an amount stands to it: more or less than in any of those weeks, or among them."""
        return "more" if amount > self.high else "less" if amount < self.low else "as usual"


def usual(amounts: Sequence[float | None]) -> Usual | None:
    """Return what is usual, of amounts a week, oldest first; None for a week that is not known, which is left out.

    It is made of the last six known weeks among the last ten, and is None where fewer than three of them are known.
    """
    known = [each for each in amounts[-USUAL_WITHIN:] if each is not None][-USUAL_OF:]
    if len(known) < USUAL_LEAST:
        return None
    return Usual(min(known), median(known), max(known), len(known))


def days_off_before(training_days: Collection[date], day: date) -> int | None:
    """Whole days without a session just before `day`; None where there was never one."""
    earlier = [each for each in training_days if each < day]
    return (day - max(earlier)).days - 1 if earlier else None


def back_words(days_off: int | None) -> str:
    """Say neutrally that this is the first session back; empty below 14 days."""
    return f"first session after {days_off} days without one" if (days_off or 0) >= BACK_AFTER_DAYS else ""


def week_words(week: Week, *, over: int = 7) -> str:
    """Say a week's load and what is missing from it: "at least 1,210; 1 session without a rating, 2 days not known".

    `over` is how many of its days are over: of a week that is on, what may come on the others is not missing.
    """
    if week.silent:
        return "nothing logged" if over >= len(week.days) else "nothing logged yet"
    nobody_said = {number for number, day in enumerate(week.days[:over]) if day is None} - set(week.unrated_days)
    so_far, unknown = " so far" if over < len(week.days) else "", len(nobody_said)
    missing = [
        f"{week.unrated} session{'' if week.unrated == 1 else 's'} without a rating" if week.unrated else "",
        f"{unknown} day{'' if unknown == 1 else 's'} not known" if unknown else "",
    ]
    said = ", ".join(part for part in missing if part)
    return f"at least {week.known_load:,.0f}{so_far}; {said}" if said else f"{week.known_load:,.0f}{so_far}"
