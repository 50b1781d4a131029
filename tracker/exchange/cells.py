"""One cell of a file, or one word of a command: read strictly, refused with what was wrong and how to mend it.

A text that a spreadsheet would take for a formula is written with an apostrophe before it (the way of OWASP's note on
CSV injection), and so is a text that begins with such an apostrophe; reading takes exactly one off again.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date
from decimal import Decimal
from typing import Any, NamedTuple
from unicodedata import normalize

from tracker.errors import BadInputError
from tracker.limits import LEAST_BODY_KG, MOST_BODY_KG, MOST_DIGITS, MOST_NAME, MOST_NOTE
from tracker.units import KG_PER_LB, LEAST_KG, MOST_KG, Unit, parse_unit, plain

OLDEST_YEAR = 1950  # nobody types a set of before; a year below it is a slip of the finger
MOST_RESERVE = 100
FORMULA_SIGNS = "=+-@\u2212"  # and their full-width and small forms
UNSEEN = " \t\r\n\v\f\u00a0\u200b\u200e\u200f\u2060\u3000\ufeff"  # what may stand before one
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)", re.ASCII)
_WHOLE = re.compile(r"\+?(\d{1,9})(?:\.0*)?", re.ASCII)


class Cache(dict[str, Any]):
    """Values by the text they were read from: a file says the same dates, lifts and numbers again and again."""

    def __init__(self, read: Callable[[str], Any]) -> None:
        super().__init__()
        self.read = read

    def __missing__(self, text: str) -> Any:
        value = self[text] = self.read(text)
        return value


def one_line(text: str) -> None:
    """Refuse line breaks and tabs, which only a note may have.

    Raises:
        BadInputError: if there is one.
    """
    if any(sign in text for sign in "\n\r\t"):
        raise BadInputError("There is a line break or a tab in the cell.", mend="Write it on one line.")


def printable(text: str) -> str:
    """Return a file's name as it can be shown and kept: signs that can't be become question marks."""
    return "".join(sign if sign.isprintable() else "?" for sign in text)


def harmless(text: str) -> str:
    """Write a text so that no spreadsheet takes it for a formula; `unharmed` gives it back."""
    return f"'{text}" if text[:1] == "'" or _begins_formula(text) else text


def unharmed(text: str) -> str:
    """Give a text back as it was before `harmless`."""
    return text[1:] if text[:1] == "'" and harmless(text[1:]) == text else text


def _begins_formula(text: str) -> bool:
    """Tell whether the first sign, or the first that is seen, begins a formula; spreadsheets take full-width ones as well."""
    seen = text.lstrip(UNSEEN)[:1]
    return text.startswith(("\t", "\r")) or (bool(seen) and normalize("NFKC", seen)[0] in FORMULA_SIGNS)


def shown(text: str, most: int = 40) -> str:
    """Quote what somebody typed so that it can be shown: short, and without signs that upset a terminal."""
    return ascii(text if len(text) <= most else f"{text[:most]}...") if not text.isprintable() else repr(text[:most])


def parse_day(text: str, *, where: str = "") -> date:
    """Read a date written YYYY-MM-DD.

    Raises:
        BadInputError: if it is written otherwise, is not in the calendar, or lies before 1950.
    """
    word = text.strip()
    if not _DAY.fullmatch(word):
        raise BadInputError(f"{shown(word)} is not a date.", where=where, mend="Write YYYY-MM-DD, such as 2026-03-02.")
    try:
        day = date.fromisoformat(word)
    except ValueError as err:
        raise BadInputError(
            f"{word} is not in the calendar.", where=where, mend="Check the day and the month."
        ) from err
    if day.year < OLDEST_YEAR:
        raise BadInputError(f"{word} is too long ago.", where=where, mend="Check the year.")
    return day


def parse_name(text: str, what: str, *, needed: bool = False) -> str:
    """Read a name without surplus space; empty where it may be."""
    name = " ".join(unharmed(text.strip()).split())
    if needed and not name:
        raise BadInputError(f"The {what} is empty.", mend=f"Write which {what} it was.")
    if len(name) > MOST_NAME:
        raise BadInputError(f"The {what} has {len(name):,} letters.", mend=f"Use at most {MOST_NAME}.")
    if not name.isprintable():
        raise BadInputError(
            f"The {what} {shown(name)} holds signs that can't be shown.", mend="Use letters and digits."
        )
    return name


def parse_note(text: str) -> str:
    """Read a note, which may have several lines."""
    if len(text) > MOST_NOTE:
        raise BadInputError(f"The note has {len(text):,} letters.", mend=f"Use at most {MOST_NOTE:,}.")
    return unharmed(text)


def parse_whole(text: str, what: str, *, most: int) -> int:
    """Read a whole number from 0 to `most`; 5.0 is whole, 5.5 is not."""
    found = _WHOLE.fullmatch(text.strip())
    if not found:
        raise BadInputError(f"{shown(text.strip())} is not a whole number of {what}.", mend="Write such as 5.")
    number = int(found[1])
    if number > most:
        raise BadInputError(f"{number:,} {what} can't be.", mend=f"Write a whole number up to {most:,}.")
    return number


def parse_reserve(text: str) -> Decimal | None:
    """Read repetitions in reserve: blank, or 0 and more in halves."""
    if not text.strip():
        return None
    number = parse_amount(text)
    if not 0 <= number <= MOST_RESERVE or number * 2 != int(number * 2):
        mend = "Write 0 or more, halves allowed, or leave it blank."
        raise BadInputError(f"{plain(number)} repetitions in reserve can't be.", mend=mend)
    return number


def parse_word(text: str, words: Sequence[str], default: str, what: str) -> str:
    """Read one of a few words in any case; blank is the default."""
    word = text.strip().lower()
    if word in words:
        return word
    if not word:
        return default
    raise BadInputError(f"{shown(text.strip())} is not {what}.", mend=f"Write one of {', '.join(words)}.")


def parse_flag(text: str) -> bool | None:
    """Read yes or no; blank is not said."""
    word = text.strip().lower()
    if word in ("", "yes", "no"):
        return None if not word else word == "yes"
    raise BadInputError(f"{shown(text.strip())} is neither yes nor no.", mend="Write yes or no, or leave it blank.")


def parse_amount(text: str) -> Decimal:
    """Read a plain decimal with a point; nan, inf, exponents and commas are refused, so nothing has to be guessed."""
    word = text.strip()
    if not _NUMBER.fullmatch(word):
        raise BadInputError(f"{shown(word)} is not a number.", mend="Write digits with a point, such as 92.5.")
    if len(word) > MOST_DIGITS:
        raise BadInputError(f"The number has {len(word):,} signs.", mend=f"Write at most {MOST_DIGITS}.")
    return Decimal(word)


class Lifted(NamedTuple):
    """A load with its unit and, where the body is lifted, the body mass; and the texts that the log keeps of them."""

    amount: Decimal
    unit: Unit
    body_mass: Decimal | None  # in `unit`
    typed: str
    body_typed: str | None
    facts: str  # load, unit and body mass as a set's identity has them


def parse_load(load: str, unit: str, body_mass: str) -> Lifted:
    """Read a load with its unit, and the body mass where the body is lifted.

    Raises:
        BadInputError: if what is moved is not above zero, or is over 1,000 kg; `where` is the column.
    """
    for column, text in (("load", load), ("unit", unit), ("body mass", body_mass)):
        _on_one_line(column, text)
    measure = parse_unit_cell(unit)
    amount = parse_in("load", load)
    body = parse_in("body mass", body_mass) if body_mass.strip() else None
    _check_moved(amount, body, measure)
    facts = "\x1f".join((plain(amount), measure, "" if body is None else plain(body)))
    return Lifted(amount, measure, body, format(amount, "f"), None if body is None else format(body, "f"), facts)


def _check_moved(amount: Decimal, body: Decimal | None, unit: Unit) -> None:
    factor = KG_PER_LB if unit == "lb" else Decimal(1)
    if abs(amount) * factor > MOST_KG:
        mend = "Loads go up to 1,000 kg; check the number and its unit."
        raise BadInputError(f"{shown_number(amount)} {unit} is more than anyone lifts.", where="load", mend=mend)
    if amount and abs(amount) * factor < LEAST_KG:
        mend = f"The least that is lifted is {plain(LEAST_KG)} kg; check the number and its unit."
        raise BadInputError(f"A load of {shown_number(amount)} {unit} can't be.", where="load", mend=mend)
    if body is None and amount <= 0:
        mend = "Write a load above zero, or the body mass where the body is lifted."
        raise BadInputError(f"A load of {plain(amount)} {unit} can't be.", where="load", mend=mend)
    if body is not None and not LEAST_BODY_KG <= body * factor <= MOST_BODY_KG:
        mend = "Check the number and its unit."
        raise BadInputError(f"A body mass of {shown_number(body)} {unit} can't be.", where="body mass", mend=mend)
    if body is not None and amount + body <= 0:
        mend = "Assistance is less than the body mass."
        raise BadInputError(f"{plain(amount)} {unit} leaves nothing to lift.", where="load", mend=mend)


def _on_one_line(column: str, text: str) -> None:
    try:
        one_line(text)
    except BadInputError as err:
        raise BadInputError(err.what, where=column, mend=err.mend) from err


def parse_in(column: str, text: str) -> Decimal:
    """Read a number of a column; what is wrong names the column."""
    try:
        return parse_amount(text)
    except BadInputError as err:
        raise BadInputError(err.what, where=column, mend=err.mend) from err


def parse_unit_cell(text: str) -> Unit:
    """Read kg or lb."""
    return parse_unit(text, where="unit")


def shown_number(number: Decimal) -> str:
    """Write a number that may be far too long to read."""
    text = plain(number)
    return text if len(text) <= 12 else f"{text[:12]}..."
