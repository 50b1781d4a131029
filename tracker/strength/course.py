"""Whether somebody is on course for a load by a day, and since when: a rule with two bounds, that no rest breaks.

A week is judged by the chance, as it was known after its last hard day, that the nRM comes to the load by the day. On course
begins at one in two. It ends only where every hard day of two weeks and more was below one in three: so a chance that
goes to and fro between the two says nothing new. Days without a hard set are not judged, nor are the four weeks after two weeks
without training: a rest, a pause or an easy week changes nothing. The bounds are our own choice.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby, pairwise
from typing import Literal

from tracker.strength.estimator import LiftModel
from tracker.strength.filtering import Day
from tracker.strength.records import SetRecord

ON, OFF = 0.5, 1 / 3
LONG = timedelta(days=14)  # below `OFF` for so long
REST, AFTER_REST = timedelta(days=14), timedelta(days=28)
HARD = 0.85  # of the nRM for the set's repetitions: from here a set is a hard one
LEFT = 3  # reported to have been left at most
State = Literal["on course", "not on course", ""]


@dataclass(frozen=True, slots=True)
class Judged:
    """One hard day, and the chance as it was known after it."""

    day: date
    chance: float


@dataclass(frozen=True, slots=True)
class Course:
    """On course or not, and since when; empty where no week could be judged yet. `resting`: nothing is judged at present."""

    state: State = ""
    since: date | None = None
    resting: bool = False


def course_of(judged: Sequence[Judged], *, resting: bool = False) -> Course:
    """Go through judged days, oldest first."""
    state: State = ""
    since: date | None = None
    low: date | None = None
    for each in judged:
        low = None if each.chance >= OFF else low or each.day
        if each.chance >= ON and state != "on course":
            state, since = "on course", each.day
        elif not state or (state == "on course" and low is not None and each.day - low >= LONG):
            state, since = "not on course", each.day
    return Course(state, since, resting)


def asked_days(hard: Iterable[date], trained: Sequence[date], *, since: date, by: date, today: date) -> list[date]:
    """Choose the days that are judged: the one on which the goal was set, and the last hard one of each week after it.

    Args:
        hard: Days on which some set of the lift was a hard one.
        trained: All days of training of any kind, oldest first.
        since: The day on which the goal was set.
        by: The day by which.
        today: Up to which day.
    """
    found = [] if is_rest(trained, since) else [since]
    after = [day for day in sorted(hard) if since < day <= min(today, by) and not is_rest(trained, day)]
    return found + [list(week)[-1] for _, week in groupby(after, key=lambda day: day.isocalendar()[:2])]


def is_rest(trained: Sequence[date], day: date) -> bool:
    """Whether a day lies in two weeks without training or more, or in the four weeks after them."""
    before = [each for each in trained if each <= day]
    if not before:
        return True
    ends = [later for earlier, later in pairwise([*before, day]) if later - earlier >= REST]
    return bool(ends) and day - ends[-1] < AFTER_REST


def is_hard(day: Day, model: LiftModel, reps: int) -> bool:
    """Whether some set of a day told how strong one is: a test, a miss, little left, or a load near the nRM of its repetitions."""
    known = model.estimate(day.day).rep_max
    return any(
        each.kind == "test"
        or each.outcome == "missed"
        or (each.rir is not None and each.rir <= LEFT)
        or _near(each, known[min(max(each.reps, 1), max(known))].estimate)
        for each in day.records
        if each.kind != "ramp"
    )


def _near(each: SetRecord, most: float) -> bool:
    return each.load_kg >= HARD * most
