"""Dates and numbers as people and programs write them: what a cell can mean, and what it can't be told to mean.

A date is read only where its order of day, month and year is known. A number may have a decimal point or a decimal
comma, and marks between thousands only where both signs stand in it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date, timedelta
from decimal import Decimal
from typing import Literal, cast

from tracker.errors import BadInputError
from tracker.exchange.cells import OLDEST_YEAR, shown
from tracker.limits import MOST_DIGITS
from tracker.units import Unit

DateOrder = Literal["ymd", "dmy", "mdy"]
ORDERS: dict[DateOrder, str] = {"ymd": "year, month, day", "dmy": "day, month, year", "mdy": "month, day, year"}
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
MOST_LETTERS = 60  # of a date or a number; longer ones are neither, and patterns would go over them again and again
_TIME = r"(?:[T ,]+\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?\s*(?:[ap]m)?\s*(?:Z|[+-]\d{2}:?\d{2})?)?"
_NUMBERS = re.compile(rf"(\d{{1,4}})\s?([-/. ])\s?(\d{{1,2}})\s?\2\s?(\d{{1,4}})\.?{_TIME}", re.IGNORECASE | re.ASCII)
_DAY_NAME = re.compile(r"^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+", re.IGNORECASE)
_DAY_MONTH = re.compile(rf"(\d{{1,2}})\.?[ -]([a-z]{{3,9}})\.?,?[ -](\d{{4}}){_TIME}", re.IGNORECASE | re.ASCII)
_MONTH_DAY = re.compile(rf"([a-z]{{3,9}})\.? (\d{{1,2}}),? (\d{{4}}){_TIME}", re.IGNORECASE | re.ASCII)
_NUMBER = re.compile(r"([+-]?[\d.,'\s]*\d[.,]?)\s*(kgs?|lbs?)?\.?", re.IGNORECASE | re.ASCII)
_GROUPED = re.compile(r"[+-]?\d{1,3}(?:([.,' \u00a0\u202f])\d{3})(?:\1\d{3})*(?:([.,])\d+)?")


def day_in(text: str, order: DateOrder | None) -> date:
    """Read a date, with or without a time of day.

    Raises:
        BadInputError: if it is none, or if it can be read only with an order that is not known.
    """
    try:
        word = _word(text)
        year, month, day = _parts(word, order)
        return date(year, month, day)
    except (ValueError, KeyError) as err:
        what = f"{shown(text)} is not a date" + (f" written {ORDERS[order]}." if order else ".")
        raise BadInputError(what, mend="Write such as 2026-03-02, or say in which order day and month stand.") from err


def _word(text: str) -> str:
    if len(text) > MOST_LETTERS:
        raise ValueError(text)
    return _DAY_NAME.sub("", " ".join(text.split()))


def _parts(word: str, order: DateOrder | None) -> tuple[int, int, int]:
    if found := _DAY_MONTH.fullmatch(word):
        return int(found[3]), _month(found[2]), int(found[1])
    if found := _MONTH_DAY.fullmatch(word):
        return int(found[3]), _month(found[1]), int(found[2])
    found = _NUMBERS.fullmatch(word)
    if not found:
        raise ValueError(word)
    parts = (found[1], found[3], found[4])
    if len(parts[0]) == 4:  # a year that leads is followed by the month everywhere
        order = "ymd"
    if order is None or len(parts[0 if order == "ymd" else 2]) not in (2, 4):
        raise ValueError(word)
    by = dict(zip(order, parts, strict=True))
    year = int(by["y"])
    return year + (0 if len(by["y"]) == 4 else 2000 if year < 70 else 1900), int(by["m"]), int(by["d"])


def _month(word: str) -> int:
    at = MONTHS.index(word[:3].lower())  # ValueError where it is no month
    full = (
        "january",
        "february",
        "march",
        "april",
        "may",
        "june",
        "july",
        "august",
        "september",
        "october",
        "november",
        "december",
    )[at]
    if not full.startswith(word.lower()) and word.lower() != "sept":
        raise ValueError(word)
    return at + 1


def orders_of(texts: Iterable[str], today: date) -> tuple[DateOrder, ...]:
    """Return the orders in which all these dates can be read, none of them still to come; one where they all agree.

    A text that is no date in any order is passed over: it is wrong by itself. None: two dates contradict each other, or
    there is no date at all.
    """
    dates = [days for text in set(texts) if (days := days_in(text))]
    latest, oldest = today + timedelta(days=1), date(OLDEST_YEAR, 1, 1)
    possible: list[DateOrder] = [order for order in ORDERS if dates and all(order in days for days in dates)]
    timely: list[DateOrder] = [order for order in possible if all(oldest <= days[order] <= latest for days in dates)]
    can = timely or possible
    if can and all(days[order] == days[can[0]] for order in can for days in dates):
        return (can[0],)
    return tuple(can)


def days_in(text: str) -> dict[DateOrder, date]:
    """Return the day that a text is in each order in which it can be read; none where it is no date."""
    if len(text) > MOST_LETTERS or not any(sign.isdecimal() for sign in text):
        return {}
    word = _word(text)
    found = _NUMBERS.fullmatch(word)
    if found is None or len(found[1]) == 4:  # one reading, whatever the order
        day = _day(word, None)
        return {} if day is None else dict.fromkeys(ORDERS, day)
    return {order: day for order in ORDERS if (day := _day(word, order)) is not None}


def _day(word: str, order: DateOrder | None) -> date | None:
    try:
        return date(*_parts(word, order))
    except (ValueError, KeyError):
        return None


def number_in(text: str) -> tuple[Decimal, Unit | None]:
    """Read a number, with a point or a comma, and its unit where one stands behind it.

    Raises:
        BadInputError: if it is no number, or its marks can't be told apart.
    """
    found = _NUMBER.fullmatch(text.strip()) if len(text) <= MOST_LETTERS else None
    plain = None if found is None else _plain(found[1].strip())
    if found is None or plain is None or len(plain) > MOST_DIGITS:
        raise BadInputError(
            f"{shown(text.strip())} is not a number.", mend="Write digits with a point or a comma, such as 92.5."
        )
    unit = found[2].lower().removesuffix("s") if found[2] else None
    return Decimal(plain), cast("Unit | None", unit)


def _plain(text: str) -> str | None:
    """Write a number with a point and without marks between thousands; None where it is none."""
    if text.count(".") + text.count(",") <= 1 and not re.search(r"[\s']", text):
        plain = text.replace(",", ".")
    else:
        found = _GROUPED.fullmatch(text)
        if found is None or found[1] == found[2]:
            return None
        plain = re.sub(r"[\s']", "", text.replace(found[1], "")).replace(",", ".")
    return plain if re.fullmatch(r"[+-]?(?:\d+\.?\d*|\.\d+)", plain) else None
