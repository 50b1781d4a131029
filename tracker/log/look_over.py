"""What a look over a log asks of the database: the file, the tables against the models, and all that the history tells."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import text
from sqlalchemy.orm import Session as OrmSession

from tracker.log import held, server_check
from tracker.log.columns import Base, DamagedValueError, UtcTime
from tracker.log.odd_values import odd_values
from tracker.narrow import is_list

COUNTED = {
    "sets": "SELECT count(*) FROM sets WHERE removed_at IS NULL",
    "removed_sets": "SELECT count(*) FROM sets WHERE removed_at IS NOT NULL",
    "sessions": "SELECT count(*) FROM sessions",
    "members": "SELECT count(*) FROM members WHERE removed_at IS NULL",
    "lifts": "SELECT count(*) FROM lifts",
    "changes": "SELECT count(*) FROM changes",
}


def file_problems(path: Path) -> Iterator[str]:
    """Let SQLite look over its file: pages, and references to nothing."""
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True, timeout=10)) as connection:
            connection.text_factory = _readable  # SQLite quotes damaged names
            yield from (f"file: {row[0]}" for row in connection.execute("PRAGMA integrity_check") if row[0] != "ok")
            for table, row, parent, _ in connection.execute("PRAGMA foreign_key_check"):
                yield f"{table}, row {row}: points to one of the {parent} that is not there"
    except UnicodeDecodeError:  # what SQLite itself says quotes a damaged name
        yield "file: a name in it can't be read"
    except sqlite3.DatabaseError as err:
        if "locked" in str(err) or "not a database" in str(err):
            return  # opening it says so in words
        yield f"file: {err}"


def _readable(content: bytes) -> str:
    return content.decode(errors="replace")


def counts(session: OrmSession) -> dict[str, int]:
    """Count what a log holds."""
    connection = session.connection()
    return {name: connection.execute(text(query)).scalar_one() for name, query in COUNTED.items()}


def facts(session: OrmSession) -> dict[str, str]:
    """Return revision, database and journal, or the server's version and whether it notices a damaged page."""
    connection = session.connection()
    revision = connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one()
    found = {"revision": str(revision), "database": connection.dialect.name}
    if connection.dialect.name == "sqlite":
        journal = connection.execute(text("PRAGMA journal_mode")).scalar_one()
        found |= {"database": f"SQLite {sqlite3.sqlite_version}", "journal": str(journal)}
    else:
        found |= server_check.facts(connection)
    return found


def schema_problems(session: OrmSession) -> Iterator[str]:
    """Compare tables, columns, indexes and constraints with the models."""
    from alembic.autogenerate import compare_metadata  # late: opening a log that is up to date needs no Alembic
    from alembic.migration import MigrationContext

    connection = session.connection()
    for difference in compare_metadata(MigrationContext.configure(connection), Base.metadata):
        steps = difference if is_list(difference) else [difference]
        for step in steps:
            yield f"tables: {' '.join(_word(part) for part in step if part is not None)}"


def foreign_problems(session: OrmSession) -> Iterator[str]:
    """Find what no version of ours makes: triggers and views, which could change records behind our back."""
    connection = session.connection()
    if connection.dialect.name == "sqlite":
        found = connection.execute(text("SELECT type, name FROM sqlite_master WHERE type IN ('trigger', 'view')"))
        yield from (f"tables: a {kind} {name} that Tidemark does not make" for kind, name in found)
    else:
        yield from server_check.foreign_problems(connection)


def orphans(session: OrmSession) -> Iterator[str]:
    """Find references to nothing; SQLite's file was asked for them before it was opened."""
    connection = session.connection()
    if connection.dialect.name != "sqlite":
        yield from server_check.orphans(connection)


def _word(part: Any) -> str:
    return str(getattr(part, "name", part))


def values(session: OrmSession, columns: Sequence[str], source: str) -> Iterator[dict[str, Any]]:
    """Yield the bare values of every record of a table, or of tables that are joined, by the short names of the columns."""
    names = [_short(name) for name in columns]
    for row in session.connection().exec_driver_sql(f"SELECT {', '.join(columns)} FROM {source}"):
        yield dict(zip(names, row, strict=True))


def _short(column: str) -> str:
    """Return what a column of a query is called in its rows."""
    return column.rsplit(" AS ", maxsplit=1)[-1].rsplit(".", maxsplit=1)[-1]


def moment_problems(session: OrmSession) -> Iterator[str]:
    """Read every moment of every table; each has a day and a time."""
    connection = session.connection()
    for table in Base.metadata.sorted_tables:
        key = next(iter(table.primary_key.columns)).name
        for column in (each.name for each in table.columns if isinstance(each.type, UtcTime)):
            for name, value in connection.exec_driver_sql(
                f"SELECT {key}, {column} FROM {table.name} WHERE {column} IS NOT NULL"
            ):
                try:
                    datetime.fromisoformat(str(value))
                except ValueError:
                    yield f"{table.name}, {name}: {column} is no moment"


def history_problems(session: OrmSession) -> Iterator[str]:
    """Hold every record against the history, and the history against its seals."""
    connection = session.connection()
    if connection.dialect.name == "sqlite":
        yield from odd_values(connection)
    try:
        yield from held.problems(connection)
    except (DamagedValueError, ValueError, TypeError, LookupError, AttributeError):
        yield "history: not all of it could be compared with the records, because a value can't be read"
