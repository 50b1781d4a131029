"""PostgreSQL's own tools, for dumps of a log and their way back: pg_dump, pg_restore, and a database that is let go again.

Passwords go to the tools by their environment, never on a command line, where everybody on the machine reads them
(postgresql.org/docs/15/libpq-envars.html).
"""

from __future__ import annotations

import os
import secrets
import shutil
import subprocess
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import Connection, text
from sqlalchemy.engine import URL
from sqlalchemy.exc import DBAPIError

from tracker.errors import BadInputError
from tracker.log.server import SECRETS, is_server, open_engine, shown

SCRATCH = "_rehearsal_"  # after the name of the database: what is found under such a name is nobody's log
BY_ENVIRONMENT = {"password": "PGPASSWORD", "passfile": "PGPASSFILE", "sslkey": "PGSSLKEY"}
LONGEST = 63  # bytes that a name may have there


class NoServerLogError(BadInputError):
    """A dump was asked for, and the log is a file."""

    def __init__(self, where: str) -> None:
        super().__init__(
            "This log is a file and not on PostgreSQL.", where=where, mend="Copy it with tidemark backup --out FILE."
        )


def dump(url: URL, to: Path) -> None:
    """Write the whole database into a file, in the tools' own compressed form, of one moment, while acts go on.

    Raises:
        NoServerLogError: if the log is a file.
        BadInputError: with what the tool said, if it could not; nothing is left under the name then.
    """
    part = to.with_name(f"{to.name}.part")
    try:
        _run("pg_dump", ["--format=custom", f"--file={part}", f"--dbname={_libpq(url)}"], url, "The dump was not made")
        with part.open("rb") as file:
            os.fsync(file.fileno())
        part.replace(to)
    finally:
        part.unlink(missing_ok=True)


@contextmanager
def put_back(url: URL, file: Path) -> Generator[URL]:
    """Put a dump into a new database beside the log's, for as long as the block goes on; then it is dropped.

    Raises:
        NoServerLogError: if the log is a file.
        BadInputError: if the user may make no database, or the dump can't be read to its end.
    """
    if not is_server(url):
        raise NoServerLogError(shown(url))
    name = f"{(url.database or '')[: LONGEST - len(SCRATCH) - 8]}{SCRATCH}{secrets.token_hex(4)}"
    scratch = url.set(database=name)
    with _at(url) as connection:
        try:
            connection.exec_driver_sql(
                f"CREATE DATABASE {_quoted(connection, name)} TEMPLATE template0 ENCODING 'UTF8'"
            )
        except DBAPIError as err:
            mend = f"Let it make databases: as the server's superuser run: ALTER ROLE {_user(connection)} CREATEDB"
            raise BadInputError(
                f"No database for the rehearsal: {err.orig}".strip(), where=shown(url), mend=mend
            ) from err
    try:
        options = ["--no-owner", "--exit-on-error", f"--dbname={_libpq(scratch)}", str(file)]
        _run("pg_restore", options, scratch, f"{file.name} can't be put back")
        yield scratch
    finally:
        with _at(url) as connection:
            connection.exec_driver_sql(f"DROP DATABASE IF EXISTS {_quoted(connection, name)} WITH (FORCE)")


@contextmanager
def _at(url: URL) -> Generator[Connection]:
    engine = open_engine(url)
    try:
        with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
            yield connection
    finally:
        engine.dispose()


def _quoted(connection: Connection, name: str) -> str:
    return connection.dialect.identifier_preparer.quote_identifier(name)


def _user(connection: Connection) -> str:
    return _quoted(connection, str(connection.execute(text("SELECT current_user")).scalar_one()))


def _libpq(url: URL) -> str:
    """The address as PostgreSQL's tools take it, without what is secret."""
    bare = URL.create("postgresql", url.username, None, url.host, url.port, url.database, url.query)
    return bare.difference_update_query(SECRETS).render_as_string()


def _run(tool: str, options: list[str], url: URL, told: str) -> None:
    if not is_server(url):
        raise NoServerLogError(shown(url))
    found = shutil.which(tool)
    if not found:
        mend = "Install it (apt-get install postgresql-client), of the server's version or newer."
        raise BadInputError(f"{tool} is not on this machine.", where=shown(url), mend=mend)
    known = {variable: str(value) for name, variable in BY_ENVIRONMENT.items() if (value := url.query.get(name))}
    if url.password:
        known["PGPASSWORD"] = str(url.password)
    ended = subprocess.run(
        [found, *options], env={**os.environ, **known}, stdin=subprocess.DEVNULL, capture_output=True, check=False
    )
    if ended.returncode:
        lines = ended.stderr.decode(errors="replace").strip().splitlines()
        said = next((line for line in lines if "error:" in line), lines[-1] if lines else f"status {ended.returncode}")
        raise BadInputError(
            f"{told}: {said}.", where=shown(url), mend="Look at what the tool said, and dump once more."
        )
