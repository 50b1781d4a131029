"""What a sheet changes against the earlier one of its title, session by session."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tracker.desk.sheet.sheet_text import split
from tracker.errors import BadInputError
from tracker.log import sheets as log_sheets
from tracker.log.sheets import WaveText
from tracker.log.unit_of_work import Reader
from tracker.prescription.sheet import SheetErrors, parse_sheet
from tracker.prescription.sheet.model import Session, Sheet
from tracker.prescription.sheet.written.said_back import item_words

Kind = Literal["added", "changed", "removed"]


@dataclass(frozen=True, slots=True)
class SessionChange:
    """One session that is other than before; `kept` is in how many calendars the former one stays, begun or done."""

    kind: Kind
    words: str  # which session
    before: tuple[str, ...]
    after: tuple[str, ...]
    kept: int = 0
    step_id: str | None = None
    new: int | None = None  # its place in the new sheet


def earlier_sheet(wave: WaveText) -> Sheet:
    """Read the sheet that a wave was made of.

    Raises:
        BadInputError: if the wave was not made of a sheet.
    """
    noted = split(wave.text)
    try:
        sheet = parse_sheet(noted.text, answers=noted.answers, today=noted.day)
    except SheetErrors:
        sheet = None
    if sheet is None or len(sheet.sessions) != len(wave.step_ids):
        raise BadInputError(
            f"There is a wave {wave.name} that was not read from a sheet.",
            where="sheet",
            mend="Give the sheet another title.",
        )
    return sheet


def changes_between(session: Reader, wave: WaveText, sheet: Sheet) -> tuple[SessionChange, ...]:
    """List what `sheet` changes, by session; sessions are the same ones where they have the same day."""
    before = earlier_sheet(wave)
    pairs = zip(before.sessions, wave.step_ids, strict=True)
    old = dict(zip(_days(before), pairs, strict=True))
    new = {day: (each, index) for index, (day, each) in enumerate(zip(_days(sheet), sheet.sessions, strict=True))}
    found: list[SessionChange] = []
    for day, (now, index) in new.items():
        if day not in old:
            found.append(SessionChange("added", _words(now), (), _said(now), new=index))
        elif old[day][0] != now:
            then, step = old[day]
            kept = log_sheets.begun_by(session, step)
            found.append(SessionChange("changed", _words(now), _said(then), _said(now), kept, step, index))
    for day, (then, step) in old.items():
        if day not in new:
            found.append(
                SessionChange("removed", _words(then), _said(then), (), log_sheets.begun_by(session, step), step)
            )
    return tuple(found)


def _days(sheet: Sheet) -> list[str]:
    """Name the day of each session; of several of one day, which of them it is."""
    days = [session.day_words or f"session {index + 1}" for index, session in enumerate(sheet.sessions)]
    return [f"{day}, {days[:at].count(day) + 1}" for at, day in enumerate(days)]


def _words(session: Session) -> str:
    return (
        ": ".join(part for part in (f"{session.day_words[:1].upper()}{session.day_words[1:]}", session.title) if part)
        or "The session"
    )


def _said(session: Session) -> tuple[str, ...]:
    return tuple(words for item in session.items for words in item_words(item))
