"""All records of one log into another that holds nothing yet."""

from __future__ import annotations

from sqlalchemy import Connection, Table, func, insert, select
from sqlalchemy.orm import Session as OrmSession

from tracker.errors import BadInputError
from tracker.log.faults import told_in_words
from tracker.log.open_format import tables
from tracker.log.unit_of_work import Log
from tracker.progress import tell

AT_ONCE = 2000  # rows in one statement


def copy_whole(source: Log, target: Log) -> dict[str, int]:
    """Copy every record in one transaction; return how many there are by kind.

    Raises:
        BadInputError: if the target holds anything; nothing is written then.
    """
    with source.reading() as reading, told_in_words(target.name), target.engine.begin() as writing:
        _refuse(target.name, writing)
        found = {table.name: _copy(reading, writing, table) for table in tables()}
        _go_on_counting(writing)
    target.written += 1
    return found


def refuse_filled(log: Log) -> None:
    """Refuse a log that holds anything but facts about itself.

    Raises:
        BadInputError: if it does.
    """
    with log.reading() as session:
        _refuse(log.name, session.connection())


def _refuse(name: str, connection: Connection) -> None:
    for table in tables():
        if table.name != "log_facts" and connection.scalar(select(func.count()).select_from(table)):
            mend = "Name a new log with --database, restore the file in place of this log, or import its sets.csv."
            what = f"A whole log goes into one that holds nothing, and this one has {table.name.replace('_', ' ')}."
            raise BadInputError(what, where=name, mend=mend)


def _copy(reading: OrmSession, writing: Connection, table: Table) -> int:
    number = 0
    if table.name == "log_facts":  # a fact of this log gives way to the file's
        writing.execute(table.delete())
    query = select(table).execution_options(yield_per=AT_ONCE)
    for part in reading.execute(query).mappings().partitions():
        tell(f"writing {table.name.replace('_', ' ')}", number)
        writing.execute(insert(table), [dict(row) for row in part])
        number += len(part)
    return number


def _go_on_counting(connection: Connection) -> None:
    """Let a server's count of the history go on after the highest number that came in."""
    if connection.dialect.name == "postgresql":
        connection.exec_driver_sql(
            "SELECT setval(pg_get_serial_sequence('changes', 'number'), (SELECT max(number) FROM changes))"
        )
