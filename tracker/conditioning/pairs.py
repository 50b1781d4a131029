"""Two numbers for two groups, as coaches write them, and the words of one number or both: "43/30 kg", "24/20 inch"."""

from __future__ import annotations

import re
from decimal import Decimal

from tracker.units import Mass, parse_decimal, plain

_PAIR = re.compile(r"(\d+(?:\.\d+)?)/(\d+(?:\.\d+)?)\s*(inch(?:es)?|in|ft|feet)\b", re.IGNORECASE)


def pair_in(standard: str) -> tuple[str, str] | None:
    """Return the two lengths of a pair in words, "24/20 inch", the larger first; None where there is none.

    Feet and inches stay as they are written: in centimetres they would be no whole numbers. Half an inch (1/2) is no pair.
    """
    found = _PAIR.search(standard)
    if found is None or parse_decimal(found[1]) <= parse_decimal(found[2]):
        return None
    return f"{found[1]} {found[3]}", f"{found[2]} {found[3]}"


def standard_of(standard: str, at: int) -> str:
    """Return the words of a standard with one of the two lengths of a pair in it."""
    both = pair_in(standard)
    return _PAIR.sub(lambda _: both[at], standard, count=1) if both else standard


def load_words(load: Mass | tuple[Mass, Mass]) -> str:
    """Say a load, or a pair of loads as coaches write it: "43/30 kg"."""
    if isinstance(load, Mass):
        return str(load)
    larger, smaller = load
    return f"{plain(larger.amount)}/{smaller}" if larger.unit == smaller.unit else f"{larger}/{smaller}"


def cm_words(length: Decimal | tuple[Decimal, Decimal]) -> str:
    """Say a height in centimetres, or a pair of them: "61/51 cm"."""
    return f"{'/'.join(map(plain, length if isinstance(length, tuple) else (length,)))} cm"
