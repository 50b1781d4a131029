"""Numbers, times and names of a sheet's tokens, each checked for what can be; a `TroubleError` says where it can't."""

from __future__ import annotations

import re
from calendar import month_abbr, month_name
from datetime import date
from decimal import Decimal
from typing import cast

from lark import Token

from tracker.prescription.sheet.model import Implement
from tracker.prescription.sheet.problems import TroubleError
from tracker.units import LEAST_KG, MOST_KG, Mass, parse_unit

MOST_SETS, MOST_REPS, MOST_PERCENT, MOST_RM = 50, 100, 200, 30  # more is a slip of the finger; design choice
MOST_WEEKS, MOST_DAYS = 52, 7
LONGEST_S = 24 * 3600
_IMPLEMENTS: dict[str, Implement] = {
    "barbell": "barbell", "dumbbells": "dumbbells", "dumbbell": "dumbbell", "kettlebells": "kettlebells",
    "kettlebell": "kettlebell", "machine": "machine", "cable": "machine", "body": "body", "bodyweight": "body",
    "other": "other",
}  # fmt: skip
_AMOUNT = re.compile(r"([0-9]+(?::[0-5][0-9])?)\s*([a-z]*)", re.IGNORECASE)


def whole(token: Token, most: int, what: str, *, least: int = 1) -> int:
    """Read a whole number from `least` to `most`."""
    number = int(token) if len(token) <= 9 else 10**9
    if not least <= number <= most:
        raise TroubleError(_column(token), f"{token} {what} can't be.", f"{least} to {most:,} {what}")
    return number


def decimal(token: Token, most: int, what: str) -> Decimal:
    """Read a number above zero, with a point or a comma."""
    number = Decimal(token.replace(",", "."))
    if not 0 < number <= most:
        raise TroubleError(_column(token), f"{token} {what} can't be.", f"more than 0, up to {most:,} {what}")
    return number


def mass(number: Token, unit: str) -> Mass:
    """Read a mass up to 1,000 kg."""
    found = Mass(Decimal(number.replace(",", ".")), parse_unit("lb" if unit.lower().startswith("pound") else unit))
    if not LEAST_KG <= found.kg <= MOST_KG:
        raise TroubleError(_column(number), f"{found} can't be.", "a load above zero, up to 1,000 kg")
    return found


def seconds(token: Token) -> int:
    """Read a time such as 3:00, 90 s or 2 min."""
    text = token.lower()
    if ":" in text:
        parts = [int(part[:9]) for part in text.split(":")]
        total = sum(part * 60**place for place, part in enumerate(reversed(parts)))
    else:
        number, unit = cast("re.Match[str]", _AMOUNT.match(text)).groups()
        total = int(number[:9]) * {"s": 1, "m": 60, "h": 3600}[unit[0]]
    if not 0 < total <= LONGEST_S:
        raise TroubleError(_column(token), f"A time of {token} can't be.", "a time above zero, up to 24 hours")
    return total


def amount(token: Token) -> tuple[int, str]:
    """Read a count with its measure: 200 m, 12 cal, 30 s; kilometres become metres, minutes seconds."""
    number, unit = cast("re.Match[str]", _AMOUNT.match(token)).groups()
    word = unit.lower()
    if ":" in number or word[:1] in ("s", "h") or word.startswith("min"):
        return seconds(token), "s"
    bare = Token("INT", number, column=token.column)
    if word.startswith("c"):
        return whole(bare, 10_000, "calories"), "cal"
    return whole(bare, 1_000_000, "metres") * (1000 if word == "km" else 1), "m"


def rep_max(token: Token) -> int:
    """Read 5RM, 5 RM or 5-RM."""
    number = re.match("[0-9]+", token)
    bare = Token("INT", number[0] if number else "", column=token.column)
    count = int(bare) if len(bare) <= 9 else 10**9
    if not 1 <= count <= MOST_RM:
        raise TroubleError(_column(token), f"A {bare}RM can't be.", f"1RM to {MOST_RM}RM")
    return count


def implement(token: Token) -> Implement:
    word = re.sub(r"^(two|2|one|1)\s+", "", token.lower())
    found = _IMPLEMENTS[re.sub(r"\s", "", word)]
    pair = token.lower().startswith(("two", "2"))
    return cast("Implement", found + "s") if pair and found in ("dumbbell", "kettlebell") else found


def tempo(token: Token) -> str:
    return "-".join(re.findall("[0-9X]", token.upper()))


def name(token: Token) -> str:
    """Return a name without surplus space, at most 60 letters."""
    found = " ".join(token.split())
    if len(found) > 60:
        raise TroubleError(_column(token), f"The name has {len(found)} letters.", "a name of at most 60 letters")
    return found


def day(token: Token) -> date:
    """Read 2026-11-30 or 30 November 2026."""
    try:
        if iso := re.fullmatch(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})", token):
            return date(int(iso[1]), int(iso[2]), int(iso[3]))
        found = cast("re.Match[str]", re.fullmatch(r"([0-9]+)\.?\s*([a-z]+)\.?,?\s*([0-9]{4})", token, re.IGNORECASE))
        return date(int(found[3]), _month(found[2]), int(found[1]))
    except ValueError as err:
        raise TroubleError(_column(token), f"{token} is no day.", "a day of the calendar") from err


def _month(word: str) -> int:
    known = [each.lower() for each in month_abbr]
    full = [each.lower() for each in month_name]
    lower = word.lower()
    if lower in full[1:]:
        return full.index(lower)
    return known.index(lower[:3]) if lower in (*known[1:], "sept") else 0


def weekday(token: Token) -> int:
    """Return 0 for Monday to 6 for Sunday."""
    return ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].index(token.lower()[:3])


def _column(token: Token) -> int:
    return token.column or 1
