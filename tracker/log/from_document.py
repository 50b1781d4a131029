"""A new log file out of the records of a document: in the layout they were written in, each value in its column."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from alembic import command
from alembic.script import ScriptDirectory

from tracker.errors import BadInputError
from tracker.log.engine import database_url, open_engine
from tracker.log.migrate import alembic_config
from tracker.progress import EVERY, tell

AGAIN = "Make the export again, or use another copy of it."  # as exchange/log_json.py says it
Records = Mapping[str, Sequence[Mapping[str, Any]]]  # by kind


def fill_new(name: str, revision: str, records: Records, target: Path) -> None:
    """Make a log file that holds the records of a document.

    Args:
        name: What the document is called where something is said of it.
        revision: The layout of its records.
        records: Its records by kind, as JSON has them.
        target: The file to be made.

    Raises:
        BadInputError: if a record does not fit.
    """
    scripts = ScriptDirectory.from_config(alembic_config())
    if revision not in {script.revision for script in scripts.walk_revisions()}:
        what = f"This log was written by a newer version of Tidemark (its revision {revision!r} is unknown here)."
        raise BadInputError(what, where=name, mend="Update Tidemark.")
    _make_tables(target, revision)
    with closing(sqlite3.connect(target, isolation_level=None)) as connection:
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute("BEGIN")
        _fill(connection, name, records)
        connection.execute("COMMIT")


def _make_tables(target: Path, revision: str) -> None:
    engine = open_engine(database_url(str(target)), foreign_keys=False)
    try:
        with engine.begin() as connection:
            config = alembic_config()
            config.attributes["connection"] = connection
            command.upgrade(config, revision)
    finally:
        engine.dispose()


def _fill(connection: sqlite3.Connection, name: str, records: Records) -> None:
    known = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    for kind, rows in records.items():
        if kind not in known or kind == "alembic_version":
            raise BadInputError("There is no such kind of record.", where=f"{name}, records.{kind}", mend=AGAIN)
        columns = {
            row[1]: (row[2].split("(")[0], bool(row[3])) for row in connection.execute(f"PRAGMA table_info({kind})")
        }
        marks = ", ".join("?" * len(columns))
        words = f"INSERT INTO {kind} ({', '.join(columns)}) VALUES ({marks})"
        try:
            connection.executemany(words, _cells(f"{name}, records.{kind}", columns, rows))
        except sqlite3.IntegrityError as err:
            what = f"A record breaks a rule of the log: {err}."
            raise BadInputError(what, where=f"{name}, records.{kind}", mend=AGAIN) from err


def _cells(
    place: str, columns: Mapping[str, tuple[str, bool]], rows: Sequence[Mapping[str, Any]]
) -> Iterator[list[Any]]:
    for number, row in enumerate(rows):
        where = f"{place}[{number}]"
        for name in row.keys() ^ columns.keys():
            what = "This is not known." if name in row else "This is missing."
            raise BadInputError(what, where=f"{where}.{name}", mend=AGAIN)
        if number % EVERY == 0:
            tell(f"reading {place}", number, len(rows))
        yield [_cell(f"{where}.{name}", kind, row[name], needed) for name, (kind, needed) in columns.items()]


def _cell(where: str, kind: str, value: Any, needed: bool) -> Any:
    """Turn a value of JSON into what stands in a column of that type."""
    if value is None:
        if needed:
            raise BadInputError("This may not be null.", where=where, mend=AGAIN)
        return None
    wanted = WANTED.get(kind, str)
    if not isinstance(value, wanted) or (wanted is int and isinstance(value, bool)):
        raise BadInputError("This has another type than it should.", where=where, mend="See log.schema.json.")
    if kind == "JSON":
        return json.dumps(value)
    return _moment(where, value) if kind == "DATETIME" else value


def _moment(where: str, text: str) -> str:
    try:
        moment = datetime.fromisoformat(text)
    except ValueError as err:
        raise BadInputError("This is no moment.", where=where, mend="Write such as 2026-03-02T09:30:00Z.") from err
    if moment.tzinfo is None:
        raise BadInputError("This moment has no offset.", where=where, mend="Write such as 2026-03-02T09:30:00Z.")
    return moment.astimezone(UTC).strftime("%Y-%m-%d %H:%M:%S.%f")  # as the log keeps it


WANTED: dict[str, Any] = {"INTEGER": int, "BOOLEAN": bool, "JSON": (dict, list)}
