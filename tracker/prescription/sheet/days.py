"""Which day each session of a sheet falls on: headings in their order, and what can't be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Literal

from tracker.prescription.sheet.line_parts import Heading
from tracker.prescription.sheet.lines import Line
from tracker.prescription.sheet.model import WEEKDAYS, Item, Session
from tracker.prescription.sheet.problems import Problem

Style = Literal["no day", "numbered", "weekdays", "dates"]
EXAMPLE = "Week 1, day 1: Front squat"


class Days:
    """The session that is being read, and the days of those before it."""

    def __init__(self) -> None:
        self._week = 1
        self._now: Session | None = None
        self._week_only = False  # `Week 2` alone: it may yet be followed by its days
        self._unread = False
        self._past: list[tuple[Session, Style]] = []

    @property
    def begun(self) -> bool:
        """Whether a session's heading stands above."""
        return self._now is not None

    def heading(self, found: Heading, line: Line) -> list[Problem]:
        """Begin a session, or only its week."""
        problems = []
        if self._week_only and self._now is not None and not (found.week and found.week != self._week):
            if self._now.title and found.week is None:
                what = "The week has a title, and its day another."
                problems.append(
                    _problem(line, what, "the title with the day", f"Week {self._week}, day 1: {self._now.title}")
                )
        elif self._week_only and self._now is not None:
            problems.append(_empty(self._now))
        self._week = found.week or self._week
        week = None if found.on is not None else self._week
        alone = found.week is not None and found.day is None and found.weekday is None
        day = 1 if alone else found.day
        self._now = Session((), found.title, week, day, found.weekday, found.on, line.number)
        self._week_only = alone
        return problems

    def unread(self, line: Line) -> None:
        """Begin a session whose heading could not be read: nothing is said of its day."""
        self._now, self._week_only, self._unread = Session((), line=line.number), False, True

    def item(self, line: int) -> None:
        """Take note that the session has something in it, and open one that has no heading."""
        self._week_only = False
        if self._now is None:
            self._now = Session((), line=line)

    def end(self, items: tuple[Item, ...], *, broken: bool) -> tuple[Session | None, list[Problem]]:
        """End the session, if one is open."""
        if self._now is None or (self._week_only and not items):
            if broken:
                self._week_only = False
            return None, []
        done, self._now = replace(self._now, items=items), None
        problems = [] if items or broken else [_empty(done)]
        if self._unread:
            self._unread = False
            return (done if items else None), problems
        style: Style = (
            "dates" if done.on else "weekdays" if done.weekday is not None else "numbered" if done.week else "no day"
        )
        problems += self._against_past(done, style)
        self._past.append((done, style))
        return (done if items else None), problems

    def finish(self, sessions: Sequence[Session], starts: date | None, line: int) -> list[Problem]:
        """Check the last heading, and the sheet's date against the days of its sessions."""
        problems = [_empty(self._now)] if self._now is not None and self._week_only else []
        if not sessions or starts is None:
            return problems
        first = sessions[0]
        if first.on is not None and first.on != starts:
            what = f"The sheet starts on {starts}, its first session is on {first.on}."
            problems.append(Problem(line, 1, what, "the same day in both", f"Date: {first.on}"))
        if first.weekday is not None and first.weekday != starts.weekday():
            what = f"{starts} is a {WEEKDAYS[starts.weekday()]}, the first session is on {WEEKDAYS[first.weekday]}."
            problems.append(Problem(line, 1, what, f"a {WEEKDAYS[first.weekday]}", _next(starts, first.weekday)))
        return problems

    def _against_past(self, done: Session, style: Style) -> list[Problem]:
        if not self._past:
            return []
        before, earlier = self._past[-1]
        if style != earlier or style == "no day":
            what = f"The session above has {_said(earlier)} for its day, and this one has {_said(style)}."
            expected = "days of one kind: all with week and day, all with weekdays, or all with dates"
            return [Problem(done.line, 1, what, expected, _after(before, earlier))]
        if done.place <= before.place:
            what = f"{done.day_words.capitalize()} does not come after {before.day_words}."
            mended = replace(done, day=None if done.day is None else done.day + 1)
            later = mended.place > before.place and (mended.day or 1) <= 7
            example = f"{mended.day_words.capitalize()}" if later and done.day else ""
            return [Problem(done.line, 1, what, "days in their order, each once", example)]
        return []


def _after(before: Session, style: Style) -> str:
    """Write a day after that of the session above, in its manner; where it has none, what would stand above its first line."""
    if style == "dates" and before.on is not None:
        return f"On {date.fromordinal(before.on.toordinal() + 1)}"
    if style == "weekdays":
        return f"Week {(before.week or 1) + 1}, {WEEKDAYS[before.weekday or 0]}"
    return f"Week {(before.week or 1) + 1}, day 1" if style == "numbered" else EXAMPLE


def _said(style: Style) -> str:
    return {"no day": "nothing", "numbered": "a number", "weekdays": "a weekday", "dates": "a date"}[style]


def _empty(session: Session) -> Problem:
    what = f"There is nothing in {session.day_words or 'this session'}."
    return Problem(
        session.line, 1, what, "a lift, a piece or text under it; leave days of rest out", "Note: rest, or an easy walk"
    )


def _next(starts: date, weekday: int) -> str:
    later = date.fromordinal(starts.toordinal() + (weekday - starts.weekday()) % 7)
    return f"Date: {later}"


def _problem(line: Line, what: str, expected: str, example: str) -> Problem:
    return Problem(line.number, line.offset + 1, what, expected, example, line.words)
