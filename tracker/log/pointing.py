"""Which tables point to which, and in which order they stand: looked up once, for each act that takes something away asks."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from sqlalchemy import Column, ForeignKey, Select, Table, bindparam, select

from tracker.log.columns import Base


@cache
def order() -> Mapping[str, int]:
    """Return of each table, by its name, where it stands: what is pointed to comes first."""
    return {table.name: at for at, table in enumerate(Base.metadata.sorted_tables)}


@cache
def pointing_to(name: str) -> tuple[tuple[Table, Column[Any], ForeignKey], ...]:
    """Return the columns that point to a table, each with its own table and how it does."""
    return tuple(
        (table, key.parent, key)
        for table in Base.metadata.sorted_tables
        for key in sorted(table.foreign_keys, key=lambda each: each.parent.name)
        if key.column.table.name == name
    )


@cache
def rows_pointing(column: Column[Any]) -> Select[Any]:
    """Ask for the rows of a table whose `column` is :which."""
    return select(column.table).where(column == bindparam("which"))


@cache
def one_pointing(column: Column[Any]) -> Select[Any]:
    """Ask whether there is any such row."""
    return select(column).where(column == bindparam("which")).limit(1)
