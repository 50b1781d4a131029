"""Guesses which column of a table is which fact of a set, by what the cells hold.

It looks at dates, numbers, small whole numbers, the words kg and lb, and words that come again and again. It knows no
program's layout; the only column names that it knows are our own.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping as Columns
from datetime import date
from itertools import pairwise
from statistics import median

from tracker.errors import BadInputError
from tracker.exchange.foreign_values import days_in, number_in, orders_of
from tracker.exchange.mapping import ROLES, Mapping, units_within
from tracker.exchange.tables import Table
from tracker.units import UNITS, Unit

LOOKED_AT = 2000  # rows; enough to tell what a column holds
NEARLY_ALL = 0.9  # of a column's filled cells: one slip must not hide what it is
MOST_GUESSED_REPS, MOST_GUESSED_LOAD = 50, 1500
UNIT_WORDS: dict[str, Unit] = {
    "kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
    "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb",
}  # fmt: skip
COMES_AGAIN = 1.5  # rows for each different word, before a column is taken for lifts


def guess(table: Table, today: date) -> Mapping:
    """Guess by content which column is which; what can't be told is left open."""
    texts = [[cell for cell in table.column(at)[:LOOKED_AT] if cell] for at in range(len(table.heading))]
    named = [" ".join(each.replace("_", " ").split()).lower() for each in table.heading]
    columns = {role: named.index(role) for role in ROLES if role in named}
    left = [at for at in range(len(texts)) if texts[at] and at not in columns.values()]
    for role, choose in (("date", _dates), ("unit", _units)):
        if role not in columns and (found := [at for at in left if choose(texts[at])]):
            columns[role] = found[0]
            left = [at for at in left if at not in found]  # a second date is no lift
    numbers = {at: values for at in left if (values := _numbers(texts[at]))}
    _guess_numbers(columns, numbers, table)
    if "lift" not in columns and (words := {at: _again(texts[at]) for at in left if at not in numbers}):
        best = max(words, key=lambda at: words[at])
        if words[best] > 0:
            columns["lift"] = best
    orders = orders_of(table.column(columns["date"]), today) if "date" in columns else ()
    unit = None if "unit" in columns or "load" not in columns else _unit_of(table, columns["load"])
    return Mapping(columns, unit, orders[0] if len(orders) == 1 else None)


def _dates(texts: list[str]) -> bool:
    return bool(days_in(texts[0])) and sum(bool(days_in(text)) for text in texts) >= NEARLY_ALL * len(texts)


def _units(texts: list[str]) -> bool:
    return all(text.lower().removesuffix("s") in UNITS for text in texts)


def _numbers(texts: list[str]) -> list[float]:
    """Return the numbers of a column that holds hardly anything else."""
    found = []
    for text in texts:
        try:
            found.append(float(number_in(text)[0]))
        except BadInputError:
            continue
    return found if len(found) >= NEARLY_ALL * len(texts) else []


def _guess_numbers(columns: dict[str, int], numbers: Columns[int, list[float]], table: Table) -> None:
    """Take small whole numbers for repetitions and the largest others for the load."""
    whole = {at: values for at, values in numbers.items() if all(value == int(value) for value in values)}
    if "reps" not in columns:
        many = NEARLY_ALL * min(len(table.rows), LOOKED_AT)
        full = [at for at, values in whole.items() if _small(values) and len(values) >= many]
        small = [at for at in full if not _counts(whole[at])] or full  # a number of the set goes up by one each time
        heavy = [at for at in numbers if "load" not in columns and _like_load(numbers[at])]
        rest = [at for at in small if len(heavy) > 1 or at not in heavy] or small
        if rest:
            columns["reps"] = max(rest, key=lambda at: (len(set(whole[at])) > 1, median(whole[at])))
    if "load" not in columns:
        rest = [at for at in numbers if at not in columns.values() and _like_load(numbers[at])]
        if rest:
            says = {at: units_within(table, at) or _unit_of(table, at) is not None for at in rest}
            columns["load"] = max(
                rest, key=lambda at: (says[at], not _counts(numbers[at]), median(map(abs, numbers[at])))
            )


def _small(values: list[float]) -> bool:
    return min(values) >= 0 and 1 <= median(values) <= MOST_GUESSED_REPS


def _counts(values: list[float]) -> bool:
    """Tell whether a column only counts: each value one more than the last, or one again."""
    steps = sum(now in (before + 1, 1) for before, now in pairwise(values))
    return len(set(values)) > 1 and steps >= NEARLY_ALL * (len(values) - 1)


def _like_load(values: list[float]) -> bool:
    return median(map(abs, values)) >= 2 and max(values) <= MOST_GUESSED_LOAD


def _again(texts: list[str]) -> float:
    """Rate how much a column looks like lifts: words that come again, and many different ones of these."""
    words = [text.casefold() for text in texts]
    different = len(set(words))
    if different * COMES_AGAIN > len(words) or not all(any(sign.isalpha() for sign in word) for word in words):
        return 0
    again = sum(times for times in Counter(words).values() if times > 1)
    return different * again / len(words)


def _unit_of(table: Table, at: int) -> Unit | None:
    """Read the unit in a heading such as "load (kg)" or "pounds"."""
    words = re.findall(r"[a-z]+", table.heading[at].lower())
    found: set[Unit] = {UNIT_WORDS[word] for word in words if word in UNIT_WORDS}
    return found.pop() if len(found) == 1 else None
