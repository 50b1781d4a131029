"""Times of a piece, read and said as minutes and seconds."""

from __future__ import annotations

import re
from decimal import Decimal

from tracker.errors import BadInputError

_CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):(\d{2})", re.ASCII)
_UNITS = re.compile(r"(\d{1,5})\s*(s|sec|seconds?|min|minutes?|h|hours?)", re.ASCII | re.IGNORECASE)
_TENTHS = re.compile(r"((?:\d{1,2}:)?\d{1,3}:\d{2}|\d{1,5})[.,](\d)(\s*s(?:ec(?:onds?)?)?)?", re.ASCII | re.IGNORECASE)
Seconds = int | Decimal  # a decimal has tenths


def parse_time(text: str, *, where: str = "") -> int:
    """Read whole seconds from `8:41`, `1:02:03`, `45 s` or `12 min`.

    Raises:
        BadInputError: if it is no time, or has more than 59 seconds after its minutes.
    """
    word = text.strip()
    if found := _CLOCK.fullmatch(word):
        hours, minutes, seconds = int(found[1] or 0), int(found[2]), int(found[3])
        if seconds < 60 and (not found[1] or minutes < 60):
            return 3600 * hours + 60 * minutes + seconds
    elif found := _UNITS.fullmatch(word):
        return int(found[1]) * {"s": 1, "m": 60, "h": 3600}[found[2][0].lower()]
    raise BadInputError(f"{word!r} is not a time.", where=where, mend="Write minutes and seconds, such as 8:41.")


def parse_seconds(text: str, *, where: str = "") -> Seconds:
    """Read a time as `parse_time` does, or with tenths where they are given: `1:42.6`, `42,6 s`.

    >>> parse_seconds("1:42.6"), parse_seconds("1:42")
    (Decimal('102.6'), 102)

    Raises:
        BadInputError: if it is no time, or is finer than a tenth.
    """
    found = _TENTHS.fullmatch(text.strip())
    if found is None:
        return parse_time(text, where=where)
    return parse_time(f"{found[1]}{found[3] or ''}", where=where) + Decimal(f"0.{found[2]}")


def seconds_words(seconds: Seconds) -> str:
    """Say seconds of a score, with the tenth where it is known.

    >>> seconds_words(Decimal("102.6")), seconds_words(102)
    ('1:42.6', '1:42')
    """
    tenth = f".{int(seconds * 10) % 10}" if isinstance(seconds, Decimal) else ""
    return f"{time_words(seconds)}{tenth}"


def time_words(seconds: float | Decimal) -> str:
    """Say seconds as 8:41, or 1:02:03 from an hour on; parts of a second are dropped, as on a wall clock.

    >>> time_words(521)
    '8:41'
    """
    whole = int(seconds)
    minutes, left = divmod(whole, 60)
    return f"{minutes}:{left:02d}" if minutes < 60 else f"{minutes // 60}:{minutes % 60:02d}:{left:02d}"
