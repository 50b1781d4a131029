"""The whole log as files: sets in the columns that an import reads, a CSV of every other kind of record, and all as JSON.

Each has its description beside it: csv-metadata.json (W3C, Metadata Vocabulary for Tabular Data) and log.schema.json.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tracker.desk.base.roles import may
from tracker.desk.files import csv_metadata
from tracker.desk.files.files_json import write_json
from tracker.exchange.csv_out import Outbox, outbox
from tracker.log import dump
from tracker.log.open_format import SCHEMA
from tracker.log.row_access import ALONE
from tracker.log.unit_of_work import Log, Reader

SET_COLUMNS = dump.DumpedSet._fields


@dataclass(frozen=True, slots=True)
class Exported:
    """The folder, and how many records each of its files has."""

    folder: Path
    files: dict[str, int]


@may("run")
def export(log: Log, folder: Path) -> Exported:
    """Write the whole log into a folder, as one moment saw it.

    `sets.csv` holds the sets as they stand, `removed_sets.csv` those that were removed; every other table has a file of
    its own name with all of its columns, and the names of what its ids stand for; what members say of pain is in none of
    these. `log.json` is the log itself: it holds every record with nothing left out but who signs in, and comes back
    without loss.

    Raises:
        TidemarkError: if the folder can't be written; files that were there stay as they were.
    """
    with log.reading() as session, outbox(folder) as box:
        _tables(session, box)
        box.write_text("csv-metadata.json", lambda file: csv_metadata.write(file, SET_COLUMNS, _heading))
        box.write_text("log.json", lambda file: write_json(session, file, log.schema))
        box.write_text("log.schema.json", lambda file: file.write(SCHEMA.read_text(encoding="utf-8")))
    return Exported(folder, dict(box.rows))


@may("common")
def export_seen(log: Log, folder: Path) -> Exported:
    """Write the CSV files of all that the one who asks sees."""
    with log.reading() as session, outbox(folder) as box:
        _tables(session, box)
    return Exported(folder, dict(box.rows))


def _tables(session: Reader, box: Outbox) -> None:
    box.write("sets.csv", SET_COLUMNS, dump.sets(session, removed=False))
    box.write("removed_sets.csv", SET_COLUMNS, dump.sets(session, removed=True))
    names = dump.names(session)
    for table in dump.shapes():
        heading = [word for column in table.columns for word in _heading(column.name)]
        box.write(f"{table.name}.csv", heading, _records(session, table, names))


def _heading(column: str) -> tuple[str, ...]:
    named = ("member_id", "place_id", "wave_id", "piece_id", "lift_id")
    return (column, column.removesuffix("_id")) if column in named else (column,)


def _records(session: Reader, table: dump.TableShape, names: Mapping[str, Mapping[Any, Any]]) -> Iterator[list[Any]]:
    import json

    columns = [column.name for column in table.columns]
    about = columns.index("record") if table.name == "changes" else None
    for row in dump.rows(session, table.name):
        if about is not None and row[about] in ALONE:  # nobody's but the member's: in no table that is handed on
            continue
        cells: list[Any] = []
        for column, value in zip(columns, row, strict=True):
            cells.append(json.dumps(value, ensure_ascii=False) if isinstance(value, dict | list) else value)
            if column in names:
                cells.append(names[column].get(value))
        yield cells
