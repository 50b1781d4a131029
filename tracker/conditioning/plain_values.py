"""Plain values of a record, as JSON holds them: each of the type, the size and the choices that it has to be of, or refused."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields
from decimal import Decimal
from typing import TYPE_CHECKING, Any, cast

from tracker.errors import BadInputError
from tracker.limits import MOST_DIGITS
from tracker.units import Mass, parse_decimal, plain

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

MOST_LETTERS = 10_000  # of a text in a record; the forms and files that make them allow fewer
MOST_WHOLE = 1_000_000_000  # as databases keep whole numbers
MOST_LISTED = 2_000
MEND = "Use a value that can be."


def fits(record: DataclassInstance, *more: int, where: str) -> None:
    """Refuse what a record can't hold: a text, a number or a list of `record`, or one of `more`, that is too long.

    Raises:
        BadInputError: for the first of them.
    """
    for field in fields(record):
        value: object = getattr(record, field.name)
        for each in listed(cast("object", value), where) if isinstance(value, tuple) else (value,):
            _fits(each, f"{where}, {field.name}")
    for each in more:
        whole(each, where)


def _fits(value: object, where: str) -> None:
    if isinstance(value, str):
        text(value, where)
    elif isinstance(value, int) and not isinstance(value, bool):
        whole(value, where)
    elif isinstance(value, Decimal):
        decimal(plain(value), where)
    elif isinstance(value, Mass):
        decimal(plain(value.amount), where)


def text(value: object, where: str) -> str:
    """Return a text that can be written as UTF-8.

    Raises:
        BadInputError: if it is none, is endless, or holds half of a sign.
    """
    if not isinstance(value, str):
        raise BadInputError(f"{_seen(value)} is no text.", where=where, mend=MEND)
    if len(value) > MOST_LETTERS:
        raise BadInputError(f"A text has {len(value):,} letters.", where=where, mend=f"Use at most {MOST_LETTERS:,}.")
    if not value.isascii() and any("\ud800" <= sign <= "\udfff" for sign in value):
        raise BadInputError("A text holds half of a sign.", where=where, mend=MEND)
    return value


def choice(value: object, choices: Sequence[str], where: str) -> str:
    """Return one of the words that there are."""
    if not isinstance(value, str) or value not in choices:
        raise BadInputError(
            f"{_seen(value)} is not known here.", where=where, mend=f"Use one of: {', '.join(choices)}."
        )
    return value


def flag(value: object, where: str) -> bool:
    """Return yes or no."""
    if not isinstance(value, bool):
        raise BadInputError(f"{_seen(value)} is neither true nor false.", where=where, mend=MEND)
    return value


def whole(value: object, where: str) -> int:
    """Return a whole number, of either sign."""
    if isinstance(value, bool) or not isinstance(value, int):
        raise BadInputError(f"{_seen(value)} is not a whole number.", where=where, mend="Write such as 12.")
    if abs(value) > MOST_WHOLE:
        raise BadInputError("A number is far too large.", where=where, mend="Write such as 12.")
    return value


def decimal(value: object, where: str) -> Decimal:
    """Return a number; one with decimals is written as a text in our own records, so that 92.5 stays 92.5."""
    if isinstance(value, float):
        value = repr(value)
    if isinstance(value, bool) or not isinstance(value, str | int):
        raise BadInputError(f"{_seen(value)} is not a number.", where=where, mend="Write such as 92.5.")
    if isinstance(value, int):
        return Decimal(whole(value, where))
    if len(value) > MOST_DIGITS:
        raise BadInputError(f"The number has {len(value):,} signs.", where=where, mend=f"Write at most {MOST_DIGITS}.")
    return parse_decimal(value, where=where)


def listed(value: object, where: str) -> list[Any]:
    """Return a list."""
    if not isinstance(value, list | tuple):
        raise BadInputError(f"{_seen(value)} is no list.", where=where, mend=MEND)
    found = list(cast("Sequence[Any]", value))
    if len(found) > MOST_LISTED:
        raise BadInputError(f"A list has {len(found):,} entries.", where=where, mend=f"Use at most {MOST_LISTED:,}.")
    return found


def keyed(value: object, where: str) -> dict[str, Any]:
    """Return keys and values."""
    if not isinstance(value, dict):
        raise BadInputError(f"{_seen(value)} is no record.", where=where, mend=MEND)
    return cast("dict[str, Any]", value)


def place(value: object) -> str:
    """Say a name as a part of a place in a message, whatever it holds: what can't be shown is written out."""
    said = str(value)[:100]
    return said if said.isprintable() else ascii(said)


def _seen(value: object) -> str:
    """Quote a value shortly; an endless number is not written out."""
    if isinstance(value, int) and not isinstance(value, bool) and abs(value) > MOST_WHOLE:
        return "A number that is far too large"
    return ascii(type(value).__name__ if _holds_others(value) else value)[:60]


def _holds_others(value: object) -> bool:
    return isinstance(value, dict | list)
