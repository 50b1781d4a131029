"""PostgreSQL: the address of a log on a server, the settings of a connection, and who waits for whom.

What SQLite's BEGIN IMMEDIATE does for a file, locks do here, all of them given back with the transaction
(postgresql.org/docs/15/explicit-locking.html#ADVISORY-LOCKS):

- An act has the log to itself, unless it says that it touches nothing but its own member's records: then it shares the
  log with the acts of other members and has its member to itself. So two members who log a set do not wait for each
  other, and two acts of one member do. Whoever holds these locks reads the newest committed state with each statement
  (READ COMMITTED), and nobody else can change what it reads: no update is lost, and nothing has to be done twice.
- The history is written last, by one act at a time, from its first entry to the commit. So entries are numbered in the
  order in which they can be seen, and whatever is kept in memory under the newest number is true.

Reading takes one snapshot (REPEATABLE READ), waits for nobody and is waited for by nobody.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any
from zlib import crc32

from sqlalchemy import Connection, Engine, create_engine, event, text
from sqlalchemy.engine import URL, ExceptionContext
from sqlalchemy.exc import DBAPIError

from tracker.errors import BadInputError, TidemarkError

DIALECT, DRIVER = "postgresql", "psycopg"
WAIT_S = 10  # for a lock, for the server's answer to a connection, for a free connection
CONNECTIONS = 20  # of one process at once; those over the first five are closed after use
SECRETS = ("password", "sslpassword", "passfile", "sslkey")  # what may stand in the query of an address
SNAPSHOT = {"isolation_level": "REPEATABLE READ"}  # SQLAlchemy's read-only would later undo what the keeper set
_OF_LOG, _OF_MEMBER = 7_369, 7_370  # the two classes of our locks; a lock holds within its database only
_ALL, _HISTORY = 0, 1


# What is said to be saved is on the server's disk, whatever the server was set to; a lock is not waited for endlessly; a
# program that is gone without a word (its machine lost power) gives its locks back within minutes and not hours.
_SETTINGS = """
    SELECT set_config('lock_timeout', '{wait_s}s', false), set_config('TimeZone', 'UTC', false),
           set_config('idle_in_transaction_session_timeout', '5min', false),
           set_config('tcp_keepalives_idle', '30', false), set_config('tcp_keepalives_interval', '10', false),
           set_config('tcp_keepalives_count', '3', false),
           CASE current_setting('synchronous_commit') WHEN 'off' THEN set_config('synchronous_commit', 'on', false) END
"""


_OF_OTHERS = text(
    """
    SELECT tableowner, current_user, schemaname, current_database() FROM pg_tables
    WHERE schemaname = current_schema() AND NOT pg_has_role(tableowner, 'USAGE')
        AND (:to_change OR NOT has_table_privilege(format('%I.%I', schemaname, tablename), 'SELECT'))
    LIMIT 1
    """
)
_PLAIN = re.compile(r"[A-Za-z0-9_-]+")


class DriverMissingError(TidemarkError):
    """The log is on PostgreSQL, and its driver is not installed."""

    def __init__(self, where: str) -> None:
        super().__init__(
            "A log on PostgreSQL wants the driver psycopg, which is not installed.",
            where=where,
            mend="Install Tidemark with it: .venv/bin/pip install '.[server]' --constraint .ci/tested-versions.txt",
        )


class WrongEncodingError(TidemarkError):
    """The database can't keep every letter."""

    def __init__(self, where: str, encoding: str) -> None:
        super().__init__(
            f"This database keeps its texts as {encoding}, which has not every letter. Nothing was changed.",
            where=where,
            mend="Make one with: createdb --template=template0 --encoding=UTF8 NAME",
        )


class OtherOwnerError(TidemarkError):
    """The tables are somebody else's: most often they were restored by another user of the database."""

    def __init__(self, where: str, owner: str, user: str, schema: str, database: str) -> None:
        tables = f"SELECT format('ALTER TABLE %I.%I OWNER TO %I', schemaname, tablename, '{user}') FROM pg_tables"
        told = all(
            _PLAIN.fullmatch(each) for each in (user, schema, database)
        )  # else a shell might read them otherwise
        command = f"""echo "{tables} WHERE schemaname = '{schema}' \\gexec" | psql {database}"""
        super().__init__(
            f"The tables of this log belong to {owner}, and {user} may not use them. Nothing was changed.",
            where=where,
            mend=f"To use the log beside {owner}, let {owner} run: GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN "
            f"SCHEMA {schema} TO {user}. If it was put back by the wrong user, make it yours: as {owner} or as the "
            f"database's superuser run: {command}"
            if told
            else f"Let {owner} or the database's superuser grant the rights to {user}, or give each table to {user} with "
            "ALTER TABLE ... OWNER TO.",
        )


class NoFileError(BadInputError):
    """A copy of a file was asked for, and the log is on a server."""

    def __init__(self, where: str) -> None:
        super().__init__(
            "This log is on PostgreSQL and no file.",
            where=where,
            mend="Copy it with pg_dump --format=custom and put it back with pg_restore, as the README says.",
        )


def is_server(url: URL) -> bool:
    return url.get_backend_name() == DIALECT


def shown(url: URL) -> str:
    """Return an address without anything that is secret in it."""
    return url.difference_update_query(SECRETS).render_as_string(hide_password=True)


def open_engine(url: URL) -> Engine:
    """Make an engine whose connections carry the settings above.

    Raises:
        DriverMissingError: if psycopg is not installed.
    """
    try:
        engine = create_engine(
            url.set(drivername=f"{DIALECT}+{DRIVER}"),
            connect_args={"connect_timeout": WAIT_S, "client_encoding": "utf8", "fallback_application_name": "tidemark"},
            isolation_level="READ COMMITTED",
            hide_parameters=True,
            pool_pre_ping=True,  # the server may have been started anew meanwhile
            pool_size=5,
            max_overflow=CONNECTIONS - 5,
            pool_timeout=WAIT_S,
        )  # fmt: skip
    except ModuleNotFoundError as err:
        raise DriverMissingError(shown(url)) from err

    @event.listens_for(engine, "connect")
    def settings(connection: Any, _record: Any) -> None:
        with connection.cursor() as cursor:
            cursor.execute(_SETTINGS.format(wait_s=WAIT_S))
        connection.commit()

    event.listen(engine, "handle_error", _without_details)
    return engine


def _without_details(context: ExceptionContext) -> None:
    """Leave out of an error what the server adds to its first line: whole records may stand there."""
    err = context.original_exception
    first = getattr(getattr(err, "diag", None), "message_primary", None)
    if first is None:
        return
    said = str(err)
    for each in (err, context.sqlalchemy_exception):
        if each is not None:
            each.args = tuple(part.replace(said, first) if isinstance(part, str) else part for part in each.args)


def check_owner(connection: Connection, where: str, *, to_change: bool = False) -> None:
    """Refuse tables that somebody else owns and gave no right to read, or to change where they are to be changed.

    Raises:
        OtherOwnerError: if there are any.
    """
    found = connection.execute(_OF_OTHERS, {"to_change": to_change}).first()
    if found is not None:
        raise OtherOwnerError(where, *found)


def check_encoding(connection: Connection, where: str) -> None:
    """Refuse a database in which a member's name might have no letters.

    Raises:
        WrongEncodingError: if it is not in UTF-8.
    """
    encoding = str(connection.execute(text("SHOW server_encoding")).scalar_one())
    if encoding != "UTF8":
        raise WrongEncodingError(where, encoding)


def take_all(connection: Connection, *, wait_s: float | None = None) -> None:
    """Wait until no act is under way, and let none begin before this transaction ends."""
    if wait_s is not None:
        connection.exec_driver_sql(f"SET LOCAL lock_timeout TO '{wait_s:g}s'")
    _lock(connection, "pg_advisory_xact_lock", _OF_LOG, _ALL)


def take_member(connection: Connection, member_id: str) -> None:
    """Wait until no act of this member is under way, and none that has the log to itself."""
    _lock(connection, "pg_advisory_xact_lock_shared", _OF_LOG, _ALL)
    _lock(connection, "pg_advisory_xact_lock", _OF_MEMBER, crc32(member_id.encode()) - 2**31)


def take_history(connection: Connection) -> None:
    """Wait until nobody else is between the first entry of an act in the history and its commit."""
    _lock(connection, "pg_advisory_xact_lock", _OF_LOG, _HISTORY)


def write_anew(engine: Engine, tables: Sequence[str]) -> bool:
    """Write tables anew, without what was deleted; False where another connection does not let go of one in time."""
    with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
        try:
            for table in tables:
                connection.exec_driver_sql(f"VACUUM (FULL) {table}")
        except DBAPIError:
            return False
    return True


def _lock(connection: Connection, function: str, kind: int, which: int) -> None:
    connection.exec_driver_sql(f"SELECT {function}({kind}, {which})")
