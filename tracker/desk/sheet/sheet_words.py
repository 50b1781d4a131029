"""What the rows of a plan hold only in words: heads of texts, ranges of loads, pairs of which each member takes a side."""

from __future__ import annotations

import re
from decimal import Decimal

from tracker.prescription.sheet.model import MassRange, Percent
from tracker.prescription.sheet.piece import Pair
from tracker.units import Mass, plain

HEADS = {"warm-up": "Warm-up: ", "cool-down": "Cool-down: ", "note": ""}  # by which a step's text tells what it was
_PAIR = re.compile(
    r"(?:^|; )(?P<larger>\d+(?:\.\d+)?)/(?P<smaller>\d+(?:\.\d+)?) (?P<unit>kg|lb), one of the two is yours(?=$|;)"
)


def range_words(load: object) -> str:
    """Say the upper end of a range, whose lower end is what is offered."""
    if isinstance(load, Percent) and load.high is not None:
        return f"up to {plain(load.high)} %"
    return f"up to {load.high}" if isinstance(load, MassRange) else ""


def pair_words(pair: Pair) -> str:
    """Say a pair of loads in the words that `pair_in` finds again."""
    return f"{pair}, one of the two is yours"


def pair_in(words: str) -> tuple[Mass, Mass] | None:
    """Find a pair of loads, the larger first, in the words of planned sets."""
    found = _PAIR.search(words)
    if found is None:
        return None
    unit = "kg" if found["unit"] == "kg" else "lb"
    return Mass(Decimal(found["larger"]), unit), Mass(Decimal(found["smaller"]), unit)


def parts_of(text: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Part the coach's text of a session into what stands before its lifts, and what closes it: the cool-down.

    Notes below the cool-down stay there; a warm-up is never the end of a session.
    """
    before: list[str] = []
    closing: list[str] = []
    into = before
    for line in text.split("\n"):
        if line.startswith(HEADS["cool-down"]):
            into = closing
        elif line.startswith(HEADS["warm-up"]):
            into = before
        if line.strip():
            into.append(line)
    return tuple(before), tuple(closing)
