"""A movement's name as one says it after a count: 10 goblet squats, 1 burpee over the bar, 8 push-ups from the knees."""

from __future__ import annotations

import re

_BEHIND = re.compile(
    r",|\s(?:over|with|from|to|on|in|off|onto|at|without)\s", re.IGNORECASE
)  # the name itself ends here
_MEASURED = re.compile(r"(?:cal|m|s)\s")  # 12 cal row, 200 m run: counted in something else
_ALONE = re.compile(r"[^a-z]$|(?<!s)s$|-to-[a-z]+$", re.IGNORECASE)  # stays as it is: toes-to-bar, line hops, V2


def after_count(name: str, number: int | None = None) -> str:
    """Return the name as it stands after a count of repetitions; `number` None for any that is not one.

    The ending goes to the name itself, not to what says how it is done behind it.
    """
    if number == 1 or _MEASURED.match(name):
        return name
    end = _BEHIND.search(name)
    head, tail = (name[: end.start()], name[end.start() :]) if end else (name, "")
    if not head or _ALONE.search(head):
        return name
    if head.endswith(("ch", "sh", "ss", "x")):
        return f"{head}es{tail}"
    if head.endswith("y") and head[-2:-1] not in ("a", "e", "i", "o", "u"):
        return f"{head[:-1]}ies{tail}"
    return f"{head}s{tail}"


def measured(name: str, measure: str) -> str:
    """Return the name behind what it is counted in: `cal row`; of repetitions the name alone."""
    return name if measure == "reps" else f"{measure} {name}"


def many(name: str, number: int) -> str:
    """Say so many repetitions of a movement: `15 kettlebell swings`."""
    return f"{number:,} {after_count(name, number)}"
