"""What the columns of the exported CSV files are, in the W3C's words for it (tabular-metadata, 17 December 2015)."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from typing import IO, Any

from sqlalchemy import Boolean, Column, Integer, Table

from tracker.log.columns import Day, Plain, TypedDecimal, UtcTime
from tracker.log.models import MODELS, LiftedSet
from tracker.log.open_format import tables

YES_NO = {"base": "boolean", "format": "yes|no"}
OF_SETS: dict[str, Any] = {  # what a column of sets.csv holds where it is no text
    "date": "date", "load": "decimal", "body_mass": "decimal", "reps": "nonNegativeInteger", "rir": "decimal",
    "order": "positiveInteger", "implements": "positiveInteger", "per_side": YES_NO,
}  # fmt: skip
NEEDED = ("member", "date", "lift", "load", "unit", "reps")
NOTE = (
    "UTF-8, commas, a heading. An empty cell is not recorded, which is not zero. A text that begins with =, +, -, @, a tab, a "
    "line break or an apostrophe has one apostrophe before it, so that no spreadsheet takes it for a formula; take it off."
)


def write(file: IO[str], set_columns: Sequence[str], heading: Callable[[str], tuple[str, ...]]) -> None:
    """Write the description of all files of an export.

    Args:
        file: Where to.
        set_columns: The columns of sets.csv and removed_sets.csv.
        heading: The columns that one column of a table becomes: itself, and the name of what it points to.
    """
    sets = [_column(name, OF_SETS.get(name, "string"), needed=name in NEEDED) for name in set_columns]
    files = [_file("sets.csv", "The sets as they stand; tidemark import takes them back.", sets)]
    files.append(_file("removed_sets.csv", "Sets that were removed.", sets))
    for table in tables():
        if table.name != LiftedSet.__tablename__:
            files.append(_of_table(table, heading))
    document = {
        "@context": ["http://www.w3.org/ns/csvw", {"@language": "en"}],
        "dc:description": NOTE,
        "dialect": {"header": True, "encoding": "utf-8"},
        "tables": files,
    }
    json.dump(document, file, indent=1)
    file.write("\n")


def _file(name: str, words: str, columns: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    return {"url": name, "dc:description": words, "tableSchema": {"columns": columns, **more}}


def _of_table(table: Table, heading: Callable[[str], tuple[str, ...]]) -> dict[str, Any]:
    columns = []
    for column in table.columns:
        first, *names = heading(column.name)
        text = _kind(column) == "string" and not (column.primary_key or column.foreign_keys)
        columns.append(_column(first, _kind(column), needed=not column.nullable and not text))
        columns += [_column(name, "string", needed=False) for name in names]
    words = " ".join((MODELS[table.name].__doc__ or "").split())
    return _file(f"{table.name}.csv", words, columns, primaryKey=[each.name for each in table.primary_key.columns])


def _column(name: str, kind: Any, *, needed: bool) -> dict[str, Any]:
    return {"name": name, "titles": name, "datatype": kind, "required": needed}


def _kind(column: Column[Any]) -> Any:
    """Return the datatype of a column; decimals are `decimal`, moments have their offset, records are JSON."""
    kind = column.type
    for known, word in (
        (TypedDecimal, "decimal"), (UtcTime, "dateTimeStamp"), (Day, "date"), (Plain, "json"), (Boolean, YES_NO), (Integer, "integer"),
    ):  # fmt: skip
        if isinstance(kind, known):
            return word
    return "string"
