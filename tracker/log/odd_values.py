"""Values that say the right thing and were not written by this program."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from sqlalchemy import Connection

from tracker.log.columns import Base, Checked, DamagedValueError
from tracker.progress import through

KINDS: dict[type, Callable[[Any], bool]] = {
    str: lambda value: isinstance(value, str),
    int: lambda value: isinstance(value, int),
    bool: lambda value: isinstance(value, int) and value in (0, 1),
}


def odd_values(connection: Connection) -> Iterator[str]:
    """Find values that say the right thing and were not written by this program: SQLite keeps whatever bytes there are."""
    dialect = connection.dialect
    for table in Base.metadata.sorted_tables:
        typed = [column for column in table.columns if isinstance(column.type, Checked)]
        plainly = [column for column in table.columns if not isinstance(column.type, Checked)]
        key = next(iter(table.primary_key.columns)).name
        names = [key, *(column.name for column in (*typed, *plainly))]
        kept = [(column.name, column.type.dialect_impl(dialect)) for column in typed]
        ways = [(name, kind.result_processor(dialect, None), kind.bind_processor(dialect)) for name, kind in kept]
        kinds = [(column.name, KINDS[column.type.python_type]) for column in plainly]
        rows = connection.exec_driver_sql(f"SELECT {', '.join(names)} FROM {table.name}")
        for row in through(f"reading every value: {table.name.replace('_', ' ')}", rows, 0):
            values = row[1:]
            for (name, read, write_), value in zip(ways, values, strict=False):
                if value is not None and not _goes_round(read or _same, write_ or _same, value):
                    yield f"{table.name}, {row[0]}: {name} is not written as this program writes it"
            for (name, kind), value in zip(kinds, values[len(ways) :], strict=True):
                if value is not None and not kind(value):
                    yield f"{table.name}, {row[0]}: {name} has another type than it should"


def _goes_round(read: Callable[[Any], Any], write_: Callable[[Any], Any], value: Any) -> bool:
    try:
        return bool(write_(read(value)) == value)
    except DamagedValueError:
        return False


def _same(value: Any) -> Any:
    return value
