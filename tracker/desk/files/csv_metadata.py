"""What the columns of the exported CSV files are, in the W3C's words for it (tabular-metadata, 17 December 2015)."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from typing import IO, Any

from tracker.log.dump import Holds, TableShape, shapes

YES_NO = {"base": "boolean", "format": "yes|no"}
KINDS: dict[Holds, Any] = {  # decimals are as typed, moments have their offset, records are JSON
    "text": "string", "decimal": "decimal", "moment": "dateTimeStamp", "day": "date", "record": "json",
    "yes or no": YES_NO, "whole number": "integer",
}  # fmt: skip
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
    files += [_of_table(table, heading) for table in shapes()]
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


def _of_table(table: TableShape, heading: Callable[[str], tuple[str, ...]]) -> dict[str, Any]:
    columns: list[dict[str, Any]] = []
    for column in table.columns:
        first, *names = heading(column.name)
        text = column.holds == "text" and not column.identifies
        columns.append(_column(first, KINDS[column.holds], needed=not column.optional and not text))
        columns += [_column(name, "string", needed=False) for name in names]
    return _file(f"{table.name}.csv", table.words, columns, primaryKey=list(table.key))


def _column(name: str, kind: Any, *, needed: bool) -> dict[str, Any]:
    return {"name": name, "titles": name, "datatype": kind, "required": needed}
