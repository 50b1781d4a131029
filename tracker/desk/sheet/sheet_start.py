"""By what title a sheet is known in the log, and on which day its first session is."""

from __future__ import annotations

from datetime import date, timedelta

from tracker.errors import BadInputError
from tracker.limits import MOST_TITLE
from tracker.prescription.sheet.model import WEEKDAYS, LiftBlock, Sheet
from tracker.prescription.sheet.piece import PieceBlock
from tracker.prescription.sheet.written.piece_scored import piece_title

MOST_UNTITLED = 40  # letters of a title that nobody gave: a date may come behind it


def title_of(sheet: Sheet) -> str:
    """Return the title, by which a later sheet is known to change this one; without one that of the first session, or its day."""
    if sheet.title:
        return usable(sheet.title) or "Sheet"
    first = sheet.sessions[0]
    day = first.day_words[:1].upper() + first.day_words[1:]
    lift = next((item.name for item in first.items if isinstance(item, LiftBlock)), "")
    piece = next((piece_title(item) for item in first.items if isinstance(item, PieceBlock)), "")
    return usable(first.title or day or lift or piece, MOST_UNTITLED) or "Session"


def usable(text: str, most: int = MOST_TITLE) -> str:
    """Return what a coach typed as a name: without signs that can't be shown, cut where it is too long; never refused."""
    shown = "".join(sign if sign.isprintable() else " " for sign in text)
    name = " ".join(shown.split())
    return name if len(name) <= most else name[: most - 1].rstrip(" ,") + "…"


def first_day_of(sheet: Sheet) -> date | None:
    return sheet.starts or sheet.sessions[0].on


def suggested_start(sheet: Sheet, today: date) -> date:
    """Return the day that the sheet names for its first session; else today, or the next day of its first weekday."""
    named = first_day_of(sheet)
    weekday = sheet.sessions[0].weekday
    if named is not None or weekday is None:
        return named or today
    return today + timedelta(days=(weekday - today.weekday()) % 7)


def check_start(sheet: Sheet, start: date | None) -> date:
    """Return the day of the first session.

    Raises:
        BadInputError: if nobody named it, or it is another weekday than the sheet's first.
    """
    first = start or first_day_of(sheet)
    if first is None:
        raise BadInputError(
            "Nobody said when it begins.", where="start", mend='Choose the first day, or add a line "Date: 2026-11-30".'
        )
    wanted = sheet.sessions[0].weekday
    if wanted is not None and first.weekday() != wanted:
        better = first + timedelta(days=(wanted - first.weekday()) % 7)
        raise BadInputError(
            f"The sheet begins on a {WEEKDAYS[wanted]}, and {first.isoformat()} is a {WEEKDAYS[first.weekday()]}.",
            where="start", mend=f"Choose a {WEEKDAYS[wanted]}, such as {better.isoformat()}.",
        )  # fmt: skip
    return first
