"""Dates of a sheet, in the languages that are read."""

from __future__ import annotations

import re
from calendar import monthrange
from datetime import date

from tracker.prescription.sheet.asks import Asker, Choice

_MONTHS = (
    r"jan(?:uary|uar|vier)?|feb(?:ruary|ruar)?|février|fevrier|mar(?:ch|s|zo)?|märz|maerz|mrz|apr(?:il)?|avril|abril|may|mai|mayo|june?|juni|juin|junio"
    r"|july?|juli|juillet|julio|aug(?:ust)?|août|agosto|sept?(?:ember|embre|iembre)?|oct(?:ober|obre|ubre)?|okt(?:ober)?|nov(?:ember|embre|iembre)?"
    r"|dec(?:ember)?|dez(?:ember)?|décembre|diciembre|enero|ene|febrero"
)
_MONTH_KEYS = ("jan ene", "feb fév fev", "mar mär mae mrz", "apr avr abr", "may mai", "jun jui", "jul", "aug aoû ago", "sep", "oct okt", "nov", "dec dez déc dic")  # fmt: skip
_DATE = (
    rf"(?P<iso>\d{{4}}[-/.]\d{{1,2}}[-/.]\d{{1,2}})|(?P<num>\d{{1,2}}(?:\.|/|-)\s?\d{{1,2}}(?:(?:\.|/|-)\s?(?:\d{{4}}|\d{{2}})|\.(?!\d)|(?=\s|$|:|,|\))))"
    rf"|(?P<d1>\d{{1,2}})(?:st|nd|rd|th|\.|er)?\s*(?:of\s+|de\s+)?(?P<m1>{_MONTHS})\b\.?,?(?:\s*(?:de\s+)?(?P<y1>\d{{4}})\b)?"
    rf"|(?P<m2>{_MONTHS})\.?\s+(?P<d2>\d{{1,2}})(?:st|nd|rd|th)?\b(?!\s*(?:x|sets|rounds|min|reps|@|%))(?:,?\s*(?P<y2>\d{{4}})\b)?"
)
DATE_AT = re.compile(rf"(?:on\s+|am\s+|the\s+|le\s+|el\s+|den\s+)?(?:{_DATE})", re.IGNORECASE)
_FULL_DATE = re.compile(r"(?<!\d)(\d{4})-(\d{2})-(\d{2})(?!\d)")


def date_of(
    found: re.Match[str], asker: Asker, line: int, text: str, weekday: int | None
) -> tuple[date | None, tuple[int, int] | None] | None:
    """Return a date, or month and day where no year is named; None where it is no day of the calendar."""
    try:
        if found["iso"]:
            year, month, day = (int(each) for each in re.findall(r"\d+", found["iso"]))
            return date(year, month, day), None
        if found["num"]:
            return _numeric(found["num"], asker, line, text, weekday)
        word, number, year_word = found["m1"] or found["m2"], found["d1"] or found["d2"], found["y1"] or found["y2"]
        month = month_of(word)
        if year_word:
            return date(int(year_word), month, int(number)), None
        return None, _checked(month, int(number))
    except ValueError:
        return None


def month_of(word: str) -> int:
    """Return 1 for January to 12 for December, in the languages that are read; 0 for no month."""
    key = word.lower()[:3]
    if word.lower().startswith(("juil", "jul")):
        return 7
    return next((place for place, keys in enumerate(_MONTH_KEYS, 1) if key in keys.split()), 0)


def _checked(month: int, day: int) -> tuple[int, int]:
    if not 1 <= month <= 12 or not 1 <= day <= monthrange(2024, month)[1]:
        raise ValueError
    return month, day


def _numeric(
    words: str, asker: Asker, line: int, text: str, weekday: int | None
) -> tuple[date | None, tuple[int, int] | None]:
    """Read 15.12.2026, 30/11/2026 or 18/4: the day first, but where only the month can be first; asked where both can be."""
    numbers = [int(each) for each in re.findall(r"\d+", words)]
    first, second = numbers[0], numbers[1]
    year = numbers[2] + (2000 if numbers[2] < 100 else 0) if len(numbers) > 2 else None
    if first > 12 or "." in words:
        day, month = first, second
    elif second > 12:
        day, month = second, first
    elif first == second:
        day, month = first, second
    else:
        day, month = first, second
        fits = [
            order
            for order, (d, m) in (("day first", (first, second)), ("month first", (second, first)))
            if year and weekday is not None and date(year, m, d).weekday() == weekday
        ]
        if len(fits) == 1:
            order = fits[0]
        else:
            choices = (
                Choice("day first", f"day {first}, month {second}"),
                Choice("month first", f"month {first}, day {second}"),
            )
            order = asker.choose("order of a date", line, text.strip(), f"Which day is {words.strip()}?", choices)
        if order == "month first":
            day, month = second, first
    if year is not None:
        return date(year, month, day), None
    return None, _checked(month, day)


def full_date(text: str) -> date | None:
    """Return the one date with its year that a line names, as 2026-12-01; None where it names none, or several."""
    found = set(_FULL_DATE.findall(text))
    if len(found) != 1:
        return None
    try:
        return date(*(int(each) for each in found.pop()))
    except ValueError:
        return None
