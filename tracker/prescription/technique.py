"""Technique lifts: the snatch, the clean, the jerk and their kin. They fail by a hair long before strength does.

So repetitions in reserve say little of them, a miss says less than elsewhere, and their rep-maxes are asked for up to the
3RM (all of it common practice).
"""

from __future__ import annotations

import re

MOST_SHOWN = 3  # 1RM to 3RM; more repetitions of them are seldom tested (common practice)
_QUICK = re.compile(r"\b(?:snatch(?:es)?|cleans?|jerks?|c&j|c\+j)\b")
_SLOW = re.compile(
    r"\b(?:grip|pulls?|deadlifts?|shrugs?|rows?|press(?:es)?|high[ -]?pulls?)\b"
)  # named after one, and lifted slowly
_WITH = re.compile(r"\b(?:dumb-?bells?|kettle-?bells?|db|kb|sandbags?|d-?balls?|balls?|logs?|axle)\b")


def technique(name: str) -> bool:
    """Whether a lift of this name is a technique lift: with a bar, and thrown rather than pushed.

    >>> [technique(name) for name in ("power clean", "Split jerk", "hang snatch", "snatch-grip deadlift", "clean pull")]
    [True, True, True, False, False]
    """
    lift = name.casefold()
    if _WITH.search(lift):
        return False
    found = _QUICK.findall(lift)
    if not found:
        return False
    slow = _SLOW.search(lift)
    return slow is None or len(found) > 1 or "+" in lift  # a complex with a pull in it still has its clean


def most_reps_shown(name: str, known: int, *, most: int) -> int:
    """Return up to which nRM a page shows a lift: 3RM for a technique lift, unless one of more repetitions is `known`."""
    return max(MOST_SHOWN, known) if technique(name) else most
