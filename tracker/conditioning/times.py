"""Times of a piece, read and said as minutes and seconds."""

from __future__ import annotations

import re
from decimal import Decimal

from tracker.errors import BadInputError

_CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):(\d{2})", re.ASCII)
_UNITS = re.compile(r"(\d{1,5})\s*(s|sec|seconds?|min|minutes?|h|hours?)", re.ASCII | re.IGNORECASE)


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


def time_words(seconds: float | Decimal) -> str:
    """Say seconds as 8:41, or 1:02:03 from an hour on; parts of a second are dropped, as on a wall clock.

    >>> time_words(521)
    '8:41'
    """
    whole = int(seconds)
    minutes, left = divmod(whole, 60)
    return f"{minutes}:{left:02d}" if minutes < 60 else f"{minutes // 60}:{minutes % 60:02d}:{left:02d}"
