"""Plain English that every room writes: things that are counted."""

from __future__ import annotations


def counted(number: int, what: str) -> str:
    """Count things: 1 set, 2 sets, 1,200 sets; 1 copy, 2 copies.

    >>> counted(1, "set"), counted(1200, "set"), counted(2, "copy")
    ('1 set', '1,200 sets', '2 copies')
    """
    if number == 1:
        return f"1 {what}"
    many = f"{what[:-1]}ies" if what.endswith("y") and what[-2:-1] not in "aeiou" else f"{what}s"
    return f"{number:,} {many}"
