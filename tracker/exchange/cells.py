"""One cell of a file, or one word of a command: read strictly, refused with what was wrong and how to mend it."""

from __future__ import annotations

import re
import unicodedata
from datetime import date

from tracker.errors import BadInputError

OLDEST_YEAR = 1950  # nobody types a set of before; a year below it is a slip of the finger
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)


def parse_day(text: str, *, where: str = "") -> date:
    """Read a date written YYYY-MM-DD.

    Raises:
        BadInputError: if it is written otherwise, is not in the calendar, or lies before 1950.
    """
    word = text.strip()
    if not _DAY.fullmatch(word):
        raise BadInputError(f"{shown(word)} is not a date.", where=where, mend="Write YYYY-MM-DD, such as 2026-03-02.")
    try:
        day = date.fromisoformat(word)
    except ValueError as err:
        raise BadInputError(
            f"{word} is not in the calendar.", where=where, mend="Check the day and the month."
        ) from err
    if day.year < OLDEST_YEAR:
        raise BadInputError(f"{word} is too long ago.", where=where, mend="Check the year.")
    return day


def shown(text: str, most: int = 40) -> str:
    """Quote what somebody typed so that it can be shown: short, and without signs that upset a terminal."""
    return repr(text if len(text) <= most else f"{text[:most]}...")


def has_control(text: str, *, line_breaks: bool = False) -> bool:
    """Tell whether a text holds control or invisible direction signs (line breaks and tabs pass where they are asked for)."""
    if text.isprintable():
        return False
    passing = "\n\r\t" if line_breaks else ""
    return any(unicodedata.category(sign) in ("Cc", "Cs", "Cn") and sign not in passing for sign in text)
