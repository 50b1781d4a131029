"""Looks the log over: the file, its tables against what this version expects, and every record against the rules.

The rules are those that pages and imports hold before they write; here they are read from the bare values, so that a
value that nothing should have written is found too.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy import Connection, text

from tracker.desk import backups, rules
from tracker.desk.opening import open_log, read_by_others
from tracker.desk.roles import may
from tracker.errors import BadInputError, TidemarkError
from tracker.log import held, server_check
from tracker.log.columns import Base, DamagedValueError, UtcTime
from tracker.log.engine import database_url, file_of
from tracker.log.keeper import Log
from tracker.log.migrate import shown
from tracker.progress import tell, through

MOST_TOLD = 50  # problems named; more are counted
MISSING = ("tables: add_table", "tables: add_column")  # what it would take to be right again: it is not there
COUNTED = {
    "sets": "SELECT count(*) FROM sets WHERE removed_at IS NULL",
    "removed_sets": "SELECT count(*) FROM sets WHERE removed_at IS NOT NULL",
    "sessions": "SELECT count(*) FROM sessions",
    "members": "SELECT count(*) FROM members WHERE removed_at IS NULL",
    "lifts": "SELECT count(*) FROM lifts",
    "changes": "SELECT count(*) FROM changes",
}


@dataclass(frozen=True, slots=True)
class Report:
    """What was found: no problems is a log in order."""

    log: str
    counts: dict[str, int] = field(default_factory=dict)
    facts: dict[str, str] = field(default_factory=dict)  # revision, database and journal
    problems: tuple[str, ...] = ()
    others: str = ""  # what other accounts of the machine can read, what holds a deleted member: no fault of the log

    @property
    def ok(self) -> bool:
        return not self.problems


@may("run")
def check_log(database: str | None, *, today: date | None = None) -> Report:
    """Check the file, the tables and the records of a log; it is opened, and brought up to date where it is older.

    Raises:
        TidemarkError: if it is no log, newer, or can't be opened.
    """
    url = database_url(database)
    path = file_of(url)
    tell("looking over the file")
    of_file = tuple(_file_problems(path)) if path and path.exists() else ()
    try:
        report = _opened_and_read(database, today or date.today())
    except (TidemarkError, ValueError, TypeError, ArithmeticError, LookupError):
        if not of_file:
            raise
        return Report(shown(url), problems=of_file)  # what can't be read any more was told by the file already
    return replace(
        report,
        problems=(*of_file, *report.problems),
        others="\n".join(filter(None, (report.others, read_by_others(url)))),
    )


def _opened_and_read(database: str | None, today: date) -> Report:
    log = open_log(database)
    try:
        with log.reading() as session:
            return replace(_report(log, session.connection(), today), others=_still_there(log))
    finally:
        log.close()


def _still_there(log: Log) -> str:
    """Name the copies that hold a deleted member and could not be let go of."""
    left = [each.name for each in backups.still_going(log)]
    if not left:
        return ""
    return f"These copies hold a deleted member and could not be deleted: {', '.join(left)}. Make room, or delete them."


def _file_problems(path: Path) -> Iterator[str]:
    try:
        with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=rw", uri=True, timeout=10)) as connection:
            connection.text_factory = lambda content: content.decode(errors="replace")  # SQLite quotes damaged names
            yield from (f"file: {row[0]}" for row in connection.execute("PRAGMA integrity_check") if row[0] != "ok")
            for table, row, parent, _ in connection.execute("PRAGMA foreign_key_check"):
                yield f"{table}, row {row}: points to one of the {parent} that is not there"
    except UnicodeDecodeError:  # what SQLite itself says quotes a damaged name
        yield "file: a name in it can't be read"
    except sqlite3.DatabaseError as err:
        if "locked" in str(err) or "not a database" in str(err):
            return  # opening it says so in words
        yield f"file: {err}"


def _report(log: Log, connection: Connection, today: date) -> Report:
    of_tables = (*_schema_problems(connection), *_foreign_problems(connection))
    if any(problem.startswith(MISSING) for problem in of_tables):
        unread = "records: not read, because a table or a column is missing"
        return Report(log.name, {}, _facts(connection), (*of_tables[: MOST_TOLD - 1], unread))
    counts = {name: connection.execute(text(query)).scalar_one() for name, query in COUNTED.items()}
    found = [*of_tables, *_orphans(connection), *_record_problems(connection, today), *_moment_problems(connection)]
    found += _history_problems(connection)
    more = [f"and {len(found) - MOST_TOLD:,} more"] if len(found) > MOST_TOLD else []
    return Report(log.name, counts, _facts(connection), (*found[:MOST_TOLD], *more))


def _facts(connection: Connection) -> dict[str, str]:
    revision = connection.execute(text("SELECT version_num FROM alembic_version")).scalar_one()
    facts = {"revision": str(revision), "database": connection.dialect.name}
    if connection.dialect.name == "sqlite":
        journal = connection.execute(text("PRAGMA journal_mode")).scalar_one()
        facts |= {"database": f"SQLite {sqlite3.sqlite_version}", "journal": str(journal)}
    else:
        facts |= server_check.facts(connection)
    return facts


def _schema_problems(connection: Connection) -> Iterator[str]:
    """Compare tables, columns, indexes and constraints with the models."""
    for difference in compare_metadata(MigrationContext.configure(connection), Base.metadata):
        steps = difference if isinstance(difference, list) else [difference]
        for step in steps:
            yield f"tables: {' '.join(_word(part) for part in step if part is not None)}"


def _foreign_problems(connection: Connection) -> Iterator[str]:
    """Find what no version of ours makes: triggers and views, which could change records behind our back."""
    if connection.dialect.name == "sqlite":
        found = connection.execute(text("SELECT type, name FROM sqlite_master WHERE type IN ('trigger', 'view')"))
        yield from (f"tables: a {kind} {name} that Tidemark does not make" for kind, name in found)
    else:
        yield from server_check.foreign_problems(connection)


def _orphans(connection: Connection) -> Iterator[str]:
    """Find references to nothing; SQLite's file was asked for them before it was opened."""
    if connection.dialect.name != "sqlite":
        yield from server_check.orphans(connection)


def _word(part: Any) -> str:
    return str(getattr(part, "name", part))


def _record_problems(connection: Connection, today: date) -> Iterator[str]:
    latest = today + timedelta(days=1)
    for table, (columns, rule) in rules.RULES.items():
        rows = connection.exec_driver_sql(f"SELECT {', '.join(columns)} FROM {rules.SOURCES.get(table, table)}")
        for row in through(f"reading every record: {table.replace('_', ' ')}", rows, 0):
            values = dict(zip((_short(name) for name in columns), row, strict=True))
            try:
                rule(values, latest)
            except BadInputError as err:
                yield f"{table}, {values['id']}: {err}"
            except (ValueError, TypeError, ArithmeticError, LookupError, AttributeError) as err:
                yield f"{table}, {values['id']}: a value that can't be read ({err})"


def _moment_problems(connection: Connection) -> Iterator[str]:
    """Read every moment of every table; each has a day and a time."""
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


def _history_problems(connection: Connection) -> Iterator[str]:
    """Hold every record against the history, and the history against its seals."""
    if connection.dialect.name == "sqlite":
        yield from held.odd_values(connection)
    try:
        yield from held.problems(connection)
    except (DamagedValueError, ValueError, TypeError, LookupError, AttributeError):
        yield "history: not all of it could be compared with the records, because a value can't be read"


def _short(column: str) -> str:
    """Return what a column of a query is called in its rows."""
    return column.rsplit(" AS ", maxsplit=1)[-1].rsplit(".", maxsplit=1)[-1]
