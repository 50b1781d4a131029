"""Which column of a table is which fact of a set: guessed by what the cells hold, corrected by the person, remembered.

The guess looks at dates, numbers, small whole numbers, the words kg and lb, and words that come again and again. It
knows no program's layout; the only column names that it knows are our own.
"""

from __future__ import annotations

import hashlib
import re
from collections import Counter
from collections.abc import Mapping as Columns
from dataclasses import dataclass, replace
from datetime import date
from itertools import pairwise
from statistics import median
from typing import cast

from tracker.errors import BadInputError
from tracker.exchange.foreign_values import ORDERS, DateOrder, number_in, orders_of
from tracker.exchange.sets_csv import COLUMNS
from tracker.exchange.tables import Table
from tracker.units import UNITS, Unit

TIMES = "equal sets"  # one row stands for so many equal sets
ROLES = (*COLUMNS, TIMES)
NEEDED = ("date", "lift", "load", "reps")
MOST_SETS_A_ROW = 20
LOOKED_AT = 2000  # rows; enough to tell what a column holds
NEARLY_ALL = 0.9  # of a column's filled cells: one slip must not hide what it is
MOST_GUESSED_REPS, MOST_GUESSED_LOAD = 50, 1500
UNIT_WORDS: dict[str, Unit] = {
    "kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilogram": "kg", "kilograms": "kg",
    "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb",
}  # fmt: skip
COMES_AGAIN = 1.5  # rows for each different word, before a column is taken for lifts


@dataclass(frozen=True, slots=True)
class Mapping:
    """Which column holds which fact, and what the whole file says: unit and order of the date where no cell does."""

    columns: Columns[str, int]  # fact to column, counted from 0
    unit: Unit | None = None
    date_order: DateOrder | None = None

    def put(self, role: str, at: int | None) -> Mapping:
        """Return the mapping with one fact read from another column, or from none."""
        rest = {known: column for known, column in self.columns.items() if known != role and column != at}
        return replace(self, columns=rest if at is None else {**rest, role: at})


@dataclass(frozen=True, slots=True)
class Open:
    """What must be asked before the table can be read."""

    columns: tuple[str, ...] = ()  # facts whose column was not found
    unit: bool = False
    date_orders: tuple[DateOrder, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.columns or self.unit or self.date_orders)


def guess(table: Table, today: date) -> Mapping:
    """Guess by content which column is which; what can't be told is left open."""
    texts = [[cell for cell in table.column(at)[:LOOKED_AT] if cell] for at in range(len(table.heading))]
    named = [" ".join(each.replace("_", " ").split()).lower() for each in table.heading]
    columns = {role: named.index(role) for role in ROLES if role in named}
    left = [at for at in range(len(texts)) if texts[at] and at not in columns.values()]
    for role, choose in (("date", _dates), ("unit", _units)):
        if role not in columns and (found := [at for at in left if choose(texts[at], today)]):
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


def open_questions(table: Table, mapping: Mapping, today: date) -> Open:
    """Say what must still be answered: columns, kg or lb, and the order of day and month where both could be."""
    missing = tuple(role for role in NEEDED if role not in mapping.columns)
    unit = "load" in mapping.columns and "unit" not in mapping.columns and mapping.unit is None
    unit = unit and not _units_within(table, mapping.columns["load"])
    orders: tuple[DateOrder, ...] = ()
    if "date" in mapping.columns and mapping.date_order is None:
        days = table.column(mapping.columns["date"])
        found = orders_of(days, today)
        contradict = not found and any(orders_of([day], today) for day in days)
        orders = tuple(ORDERS) if contradict else () if len(found) == 1 else found
    return Open(missing, unit, orders)


def _dates(texts: list[str], today: date) -> bool:
    return any(len(orders_of([text], today)) > 0 for text in texts[:1]) and (
        sum(bool(orders_of([text], today)) for text in texts) >= NEARLY_ALL * len(texts)
    )


def _units(texts: list[str], _today: date) -> bool:
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
            says = {at: _units_within(table, at) or _unit_of(table, at) is not None for at in rest}
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


def _units_within(table: Table, at: int) -> bool:
    """Tell whether every filled cell of a column says its unit itself."""
    filled = [cell for cell in table.column(at) if cell]
    return bool(filled) and all(cell.lower().rstrip(".").removesuffix("s").endswith(UNITS) for cell in filled)


def layout_of(table: Table) -> str:
    """Name a layout by its heading, so that the next file of the same kind is known; 32 hexadecimal digits."""
    words = "\x1f".join(" ".join(each.casefold().split()) for each in table.heading)
    return hashlib.blake2b(words.encode(), digest_size=16).hexdigest()


def to_text(mapping: Mapping) -> str:
    """Write a mapping in one short line, to be remembered."""
    columns = ",".join(f"{role}={at}" for role, at in mapping.columns.items())
    return f"{columns};{mapping.unit or ''};{mapping.date_order or ''}"


def from_text(text: str, table: Table) -> Mapping | None:
    """Read a remembered mapping; None where it does not fit the table."""
    try:
        columns, unit, order = text.split(";")
        pairs = [each.split("=") for each in columns.split(",") if each]
        read = {role: int(at) for role, at in pairs}
    except ValueError:
        return None
    if unit not in ("", *UNITS) or order not in ("", *ORDERS) or not read.keys() <= set(ROLES):
        return None
    if any(not 0 <= at < len(table.heading) for at in read.values()):
        return None
    return Mapping(read, cast("Unit | None", unit or None), cast("DateOrder | None", order or None))
