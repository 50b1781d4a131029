"""What a member touched on phones: which of it the log has, and what is to be asked about it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import groupby
from typing import Any

from tracker.desk.base.roles import may
from tracker.desk.maxes.words import day_words, set_words
from tracker.desk.people.people import latest_day
from tracker.log import sets as log_sets
from tracker.log import touches_read
from tracker.log.records import SetRow
from tracker.log.touches import FAR_S, act_id_of
from tracker.log.touches_read import TouchRow
from tracker.log.unit_of_work import Log
from tracker.wording import counted


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer to a question: its words, and what it says to the log."""

    words: str
    says: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Question:
    """Something of the day that only the member knows; asked once, whichever phone answers."""

    key: str
    words: str
    answers: tuple[Answer, ...]


@may("see")
def touch_known(log: Log, member_id: str, touch_id: str) -> TouchRow | None:
    """Return what the log has of a member's touch; None where it has nothing."""
    with log.reading() as session:
        return touches_read.known(session, act_id_of(member_id, touch_id))


@may("see")
def touches(log: Log, member_id: str) -> tuple[TouchRow, ...]:
    """List a member's newest touches, the newest first."""
    with log.reading() as session:
        return touches_read.newest(session, member_id)


@may("see")
def set_now(log: Log, member_id: str, set_id: str) -> SetRow | None:
    """Return a set of a member as it is now; None where it is gone, or another's."""
    with log.reading() as session:
        row = log_sets.one_set(session, set_id)
    return row if row and row.removed_at is None and row.member_id == member_id else None


@may("change")
def note_touch(log: Log, member_id: str, words: str) -> None:
    """Let the history say what was touched, where it changes no record."""
    with log.act(words, member_id, own=True):
        pass


@may("see")
def questions(log: Log, member_id: str, day: date, sets: Iterable[SetRow]) -> tuple[Question, ...]:
    """List what is to be asked of a day: a planned set that was done twice, and a clock that was far off."""
    known = touches(log, member_id)
    answered = {each.said.get("question") for each in known if not each.undone}
    found = (*_twice(sets), *_far(log, member_id, day, known))
    return tuple(each for each in found if each.key not in answered)


def _twice(sets: Iterable[SetRow]) -> Iterator[Question]:
    planned = [row for row in sets if row.planned_set_id and row.member_step_id and row.kind != "test"]
    planned.sort(
        key=lambda row: (str(row.member_step_id), str(row.planned_set_id), row.planned_round or 0, row.position)
    )
    for _, group in groupby(planned, key=lambda row: (row.member_step_id, row.planned_set_id, row.planned_round)):
        first, *more = group
        for row in more:
            apart = max(1, round(abs((row.logged_at - first.logged_at).total_seconds()) / 60))
            yield Question(
                f"twice {row.id}",
                f"{row.lift.title}: the same planned set is logged twice, {counted(apart, 'minute')} apart "
                f"({set_words(first)}; {set_words(row)}). Both are kept. Was it one set?",
                (
                    Answer("One set", {"remove": row.id}),
                    Answer("Two sets", {"keep": row.id}),
                ),
            )


def _far(log: Log, member_id: str, day: date, known: Iterable[TouchRow]) -> Iterator[Question]:
    """Ask for the day of sets whose phone had another time than the server; both times are kept."""
    far: dict[str, list[str]] = {}
    skew = 0.0
    for each in known:
        made = each.made.get("sets")
        if not each.undone and made and each.said.get("day") == day.isoformat() and abs(each.said["skew_s"]) > FAR_S:
            far.setdefault(str(each.said["device"]), []).append(made)
            skew = float(each.said["skew_s"])
    for device, ids in far.items():
        rows = [row for row in (set_now(log, member_id, each) for each in ids) if row and row.day == day]
        if rows:
            by = _span_words(abs(skew))
            yield Question(
                f"day {device} {day.isoformat()}",
                f"The clock of the phone that logged {counted(len(rows), 'set')} is {by} {'ahead' if skew > 0 else 'behind'}. "
                "Which day was it?",
                tuple(
                    Answer(
                        day_words(when, day) if when != day else f"{when:%A} {when.day} {when:%B}, as it stands",
                        {"day": when.isoformat(), "sets": [row.id for row in rows]},
                    )
                    for when in (day, day - timedelta(days=1), day + timedelta(days=1))
                    if when <= latest_day()
                ),
            )


def _span_words(seconds: float) -> str:
    if seconds < 5400:
        return counted(max(1, round(seconds / 60)), "minute")
    if seconds < 129_600:
        return counted(round(seconds / 3600), "hour")
    return counted(round(seconds / 86_400), "day")
