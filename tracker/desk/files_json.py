"""A whole log out as JSON, and back in: into a log that holds nothing yet, or in place of one that is kept beside it."""

from __future__ import annotations

import json
import sqlite3
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import IO, Any

from alembic import command
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, func, insert, select
from sqlalchemy.orm import Session as OrmSession

from tracker.desk.check import check_log
from tracker.desk.opening import open_log
from tracker.desk.roles import may
from tracker.errors import BadInputError
from tracker.exchange.log_json import AGAIN, LogFile, read_log, write_log
from tracker.log.engine import database_url, open_engine
from tracker.log.faults import told_in_words
from tracker.log.keeper import Log
from tracker.log.migrate import alembic_config
from tracker.log.open_format import records, tables
from tracker.progress import EVERY, tell

AT_ONCE = 2000  # rows in one statement


@dataclass(frozen=True, slots=True)
class Taken:
    """What came in: records by kind."""

    file: str
    records: dict[str, int]

    @property
    def sets(self) -> int:
        return self.records.get("sets", 0)


def write_json(session: OrmSession, file: IO[str], revision: str) -> int:
    """Write every record of a log, as one moment saw it."""
    return write_log(file, revision, ((table.name, records(session, table)) for table in tables()))


@may("run")
def take_log(log: Log, path: Path) -> Taken:
    """Take the whole log of a JSON file into a log that holds nothing yet; every record comes back as it was.

    Raises:
        BadInputError: if the log holds anything, or the file can't be taken; nothing is written then.
    """
    file = read_log(path)
    _refuse_filled(log)
    with tempfile.TemporaryDirectory(prefix="tidemark-") as folder:
        built = Path(folder) / "log.db"
        build(file, built)
        source = open_log(str(built))
        try:
            with source.reading() as reading, told_in_words(log.name), log.engine.begin() as writing:
                _refuse_filled(log, writing)
                found = {table.name: _copy(reading, writing, table) for table in tables()}
                _go_on_counting(writing)
            log.written += 1
        finally:
            source.close()
    return Taken(file.name, found)


def _refuse_filled(log: Log, connection: Connection | None = None) -> None:
    if connection is None:
        with log.reading() as session:
            _refuse_filled(log, session.connection())
        return
    for table in tables():
        if table.name != "log_facts" and connection.scalar(select(func.count()).select_from(table)):
            mend = "Name a new log with --database, restore the file in place of this log, or import its sets.csv."
            what = f"A whole log goes into one that holds nothing, and this one has {table.name.replace('_', ' ')}."
            raise BadInputError(what, where=log.name, mend=mend)


def _copy(reading: OrmSession, writing: Connection, table: Any) -> int:
    number = 0
    if table.name == "log_facts":  # a fact of this log gives way to the file's
        writing.execute(table.delete())
    query = select(table).execution_options(yield_per=AT_ONCE)
    for part in reading.execute(query).partitions():
        tell(f"writing {table.name.replace('_', ' ')}", number)
        writing.execute(insert(table), [dict(row._mapping) for row in part])
        number += len(part)
    return number


def _go_on_counting(connection: Connection) -> None:
    """Let a server's count of the history go on after the highest number that came in."""
    if connection.dialect.name == "postgresql":
        connection.exec_driver_sql(
            "SELECT setval(pg_get_serial_sequence('changes', 'number'), (SELECT max(number) FROM changes))"
        )


def build(file: LogFile, target: Path) -> None:
    """Make a log file of a document: in the layout it was written in, then brought up to date and looked over.

    Raises:
        BadInputError: if a record does not fit, or what comes of it is not in order.
    """
    scripts = ScriptDirectory.from_config(alembic_config())
    if file.revision not in {script.revision for script in scripts.walk_revisions()}:
        what = f"This log was written by a newer version of Tidemark (its revision {file.revision!r} is unknown here)."
        raise BadInputError(what, where=file.name, mend="Update Tidemark.")
    _make_tables(target, file.revision)
    with closing(sqlite3.connect(target, isolation_level=None)) as connection:
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute("BEGIN")
        _fill(connection, file)
        connection.execute("COMMIT")
    report = check_log(str(target))
    if not report.ok:
        raise BadInputError(f"The log in it is not in order: {report.problems[0]}", where=file.name, mend=AGAIN)


def _make_tables(target: Path, revision: str) -> None:
    engine = open_engine(database_url(str(target)), foreign_keys=False)
    try:
        with engine.begin() as connection:
            config = alembic_config()
            config.attributes["connection"] = connection
            command.upgrade(config, revision)
    finally:
        engine.dispose()


def _fill(connection: sqlite3.Connection, file: LogFile) -> None:
    known = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    for kind, rows in file.records.items():
        if kind not in known or kind == "alembic_version":
            raise BadInputError("There is no such kind of record.", where=f"{file.name}, records.{kind}", mend=AGAIN)
        columns = {
            row[1]: (row[2].split("(")[0], bool(row[3])) for row in connection.execute(f"PRAGMA table_info({kind})")
        }
        marks = ", ".join("?" * len(columns))
        words = f"INSERT INTO {kind} ({', '.join(columns)}) VALUES ({marks})"
        try:
            connection.executemany(words, _cells(f"{file.name}, records.{kind}", columns, rows))
        except sqlite3.IntegrityError as err:
            what = f"A record breaks a rule of the log: {err}."
            raise BadInputError(what, where=f"{file.name}, records.{kind}", mend=AGAIN) from err


def _cells(place: str, columns: Mapping[str, tuple[str, bool]], rows: list[dict[str, Any]]) -> Iterator[list[Any]]:
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
