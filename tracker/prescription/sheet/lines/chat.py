"""A session copied out of a group chat: the time and the sender before each message are no part of it.

Whoever wrote most of what was copied is the coach; what others wrote between stays as words where it stood.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

_CLOCK = r"\d{1,2}[:.]\d{2}(?:[:.]\d{2})?(?: ?[ap]\.?m\.?)?"
_DAY = r"\d{1,4}[./-]\d{1,2}(?:[./-]\d{2,4})?\.?"
_NAME = r"(?P<who>[^\W\d][^:\n]{0,29}?)"
# A day and a time in square brackets, or before a stroke, or a time alone; then the sender and a colon.
_STAMP = re.compile(
    rf"^\s*(?:\[(?:{_DAY},? )?{_CLOCK}(?:,? {_DAY})?\]|{_DAY},? {_CLOCK}(?= -)|{_CLOCK}(?= [^\W\d]))\s*-?\s*{_NAME}:\s",
    re.IGNORECASE,
)
LEAST = 2  # stamped lines; one alone may be a time of a class


def without_stamps(rows: Sequence[str]) -> tuple[list[str], frozenset[int]]:
    """Return the rows without their stamps, and which of them (counted from 0) somebody else than the coach wrote."""
    found = {place: stamp for place, row in enumerate(rows) if (stamp := _STAMP.match(row))}
    if len(found) < LEAST:
        return list(rows), frozenset()
    coach, _ = Counter(stamp["who"].strip().casefold() for stamp in found.values()).most_common(1)[0]
    parted: list[str] = []
    others: set[int] = set()
    of_coach = True
    for place, row in enumerate(rows):
        stamp = found.get(place)
        if stamp is not None:
            of_coach = stamp["who"].strip().casefold() == coach
        parted.append(row[stamp.end() :] if stamp is not None else row)
        if not of_coach and row.strip():
            others.add(place)
    return parted, frozenset(others)
