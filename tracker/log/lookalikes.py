"""Names that look alike though they are written with other signs: one member must not pass for another.

A name is brought to the signs that it looks like, and two names of the same signs are twins. The table is a small part, for
Latin, Greek and Cyrillic letters, of what Unicode Technical Standard #39 calls confusable, from memory; it has letters that
look the same in most typefaces, each in its own case, and leaves out what only resembles.
"""

from __future__ import annotations

import unicodedata

_PAIRS = {
    # Cyrillic
    "а": "a", "с": "c", "ԁ": "d", "е": "e", "һ": "h", "і": "i", "ј": "j", "ӏ": "l", "о": "o", "р": "p", "ԛ": "q", "ѕ": "s",
    "ԝ": "w", "х": "x", "у": "y", "ү": "y", "ѵ": "v",
    "А": "A", "В": "B", "С": "C", "Е": "E", "Н": "H", "І": "I", "Ј": "J", "К": "K", "Ӏ": "I", "М": "M", "О": "O", "Р": "P",
    "Ԛ": "Q", "Ѕ": "S", "Т": "T", "Ѵ": "V", "Ԝ": "W", "Х": "X", "У": "Y", "Ү": "Y",
    # Greek
    "α": "a", "ι": "i", "κ": "k", "ν": "v", "ο": "o", "ρ": "p", "υ": "u", "χ": "x", "γ": "y", "ϳ": "j", "ϲ": "c",
    "Α": "A", "Β": "B", "Ε": "E", "Ζ": "Z", "Η": "H", "Ι": "I", "Κ": "K", "Μ": "M", "Ν": "N", "Ο": "O", "Ρ": "P", "Τ": "T",
    "Υ": "Y", "Χ": "X", "Ϲ": "C", "Ϳ": "J",
    # Latin and digits
    "ı": "i", "ɑ": "a", "ɡ": "g", "ſ": "f", "I": "l", "|": "l", "1": "l", "0": "o", "’": "'", "‘": "'", "–": "-", "‐": "-", "‑": "-",
}  # fmt: skip
_TABLE = str.maketrans(_PAIRS | {sign: "l" for sign, like in _PAIRS.items() if like == "I"})


def skeleton(name: str) -> str:
    """Return the signs that a name looks like, without case and without what can't be seen."""
    seen = unicodedata.normalize("NFC", "".join(map(_compatible, name)))
    seen = "".join(sign for sign in seen if unicodedata.category(sign) not in ("Cf", "Mn", "Me") or _stands(sign))
    return " ".join(seen.translate(_TABLE).casefold().split())


def _compatible(sign: str) -> str:
    """Write a sign as the plain one that it is a form of: full-width, of another style."""
    return sign if sign in _PAIRS else unicodedata.normalize("NFKC", sign)


def _stands(sign: str) -> bool:
    """Whether a mark is one that is seen: an accent that no letter takes in, but no selector of a form."""
    return unicodedata.category(sign) == "Mn" and not "\ufe00" <= sign <= "\ufe0f" and sign != "\u034f"
