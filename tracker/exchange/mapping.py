"""Which column of a table is which fact of a set: guessed, corrected by the person, remembered; and what is still open."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping as Columns
from dataclasses import dataclass, replace
from datetime import date
from typing import cast

from tracker.exchange.foreign_values import ORDERS, DateOrder, days_in, orders_of
from tracker.exchange.sets_csv import COLUMNS
from tracker.exchange.tables import Table
from tracker.units import UNITS, Unit

TIMES = "equal sets"  # one row stands for so many equal sets
ROLES = (*COLUMNS, TIMES)
NEEDED = ("date", "lift", "load", "reps")
MOST_SETS_A_ROW = 20


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


def open_questions(table: Table, mapping: Mapping, today: date) -> Open:
    """Say what must still be answered: columns, kg or lb, and the order of day and month where both could be."""
    missing = tuple(role for role in NEEDED if role not in mapping.columns)
    unit = "load" in mapping.columns and "unit" not in mapping.columns and mapping.unit is None
    unit = unit and not units_within(table, mapping.columns["load"])
    orders: tuple[DateOrder, ...] = ()
    if "date" in mapping.columns and mapping.date_order is None:
        days = table.column(mapping.columns["date"])
        found = orders_of(days, today)
        contradict = not found and any(map(days_in, set(days)))
        orders = tuple(ORDERS) if contradict else () if len(found) == 1 else found
    return Open(missing, unit, orders)


def units_within(table: Table, at: int) -> bool:
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
