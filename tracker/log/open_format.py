"""All records of a log as plain values, table by table, and the JSON Schema that describes them.

The schema is made from the models and kept as a file in the package; a test holds the two equal. After a change of the
models `python -m tracker.log.open_format` writes the file anew.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

from sqlalchemy import Boolean, CheckConstraint, Column, Integer, Table, select
from sqlalchemy.orm import Session as OrmSession
from sqlalchemy.types import String

from tracker.log.columns import Base, Day, Plain, TypedDecimal, UtcTime
from tracker.log.models import MODELS

FORMAT, VERSION = "tidemark log", 1
SCHEMA = Path(__file__).with_name("log.schema.json")
STAYS = frozenset({"accounts", "group_coaches"})  # who may sign in here is no part of what is taken along


def tables() -> tuple[Table, ...]:
    """Return the tables that go into an export, what is pointed to first."""
    return tuple(table for table in Base.metadata.sorted_tables if table.name not in STAYS)


def records(session: OrmSession, table: Table) -> Iterator[dict[str, Any]]:
    """Yield the rows of a table as JSON values, by their key."""
    names = [column.name for column in table.columns]
    query = select(table).order_by(*table.primary_key.columns).execution_options(yield_per=1000)
    for row in session.execute(query):
        yield dict(zip(names, map(plain, row), strict=True))


def all_records(session: OrmSession) -> Iterator[tuple[str, Iterator[dict[str, Any]]]]:
    """Yield the tables of an export by name, each with its rows."""
    return ((table.name, records(session, table)) for table in tables())


def plain(value: Any) -> Any:
    """Write a value so that JSON has it without loss: decimals as typed, moments in UTC."""
    if isinstance(value, Decimal):
        return format(value, "f")
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")
    return value.isoformat() if isinstance(value, date) else value


def schema() -> dict[str, Any]:
    """Describe an export of this version as JSON Schema, draft 2020-12."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A Tidemark log",
        "description": (
            "All records of a training log. Loads are decimal text as it was typed, with their unit; moments are in UTC; a "
            "null was not recorded, which is not zero. `revision` names the layout of the records."
        ),
        "type": "object",
        "additionalProperties": False,
        "required": ["format", "version", "revision", "made_at", "records"],
        "properties": {
            "format": {"const": FORMAT},
            "version": {"const": VERSION},
            "revision": {"type": "string", "pattern": "^[0-9]{4}$"},
            "made_at": {"type": "string", "format": "date-time"},
            "records": {
                "type": "object",
                "additionalProperties": False,
                "required": [table.name for table in tables()],
                "properties": {table.name: _of_table(table) for table in tables()},
            },
        },
    }


def _of_table(table: Table) -> dict[str, Any]:
    names = [column.name for column in table.columns]
    return {
        "description": " ".join((MODELS[table.name].__doc__ or "").split()),
        "type": "array",
        "items": {
            "type": "object",
            "additionalProperties": False,
            "required": names,
            "properties": {column.name: _of_column(table, column) for column in table.columns},
        },
    }


def _of_column(table: Table, column: Column[Any]) -> dict[str, Any]:
    found = dict(_of_type(column))
    if words := _words(table, column):
        found["enum"] = [*words, None] if column.nullable else words
    if column.nullable:
        kinds = found["type"]
        found["type"] = [*(kinds if isinstance(kinds, list) else [kinds]), "null"]
    for key in column.foreign_keys:
        found["description"] = f"The {key.column.name} of one of {key.column.table.name}."
    return found


def _of_type(column: Column[Any]) -> dict[str, Any]:
    kind = column.type
    if isinstance(kind, TypedDecimal):
        return {"type": "string", "pattern": r"^-?[0-9]+(\.[0-9]+)?$"}
    if isinstance(kind, UtcTime | Day):
        return {"type": "string", "format": "date-time" if isinstance(kind, UtcTime) else "date"}
    if isinstance(kind, Plain):
        return {"type": ["object", "array"]}
    if isinstance(kind, Boolean):
        return {"type": "boolean"}
    if isinstance(kind, Integer):
        return {"type": "integer"}
    assert isinstance(kind, String), kind
    return {"type": "string"} | ({"maxLength": kind.length} if kind.length else {})


def _words(table: Table, column: Column[Any]) -> list[str]:
    """Return the words that a column may hold, where a constraint lists them."""
    for constraint in table.constraints:
        if isinstance(constraint, CheckConstraint):
            found = re.search(rf"^(?:{column.name} IS NULL OR )?{column.name} IN \((.*)\)$", str(constraint.sqltext))
            if found:
                return re.findall(r"'([^']*)'", found[1])
    return []


def written_schema() -> str:
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    SCHEMA.write_text(written_schema(), encoding="utf-8")
