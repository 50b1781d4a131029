"""Opens the database: which file, with which settings, and how a transaction begins; PostgreSQL's part is in server.py.

Each choice was measured or is documented by SQLite: `BEGIN IMMEDIATE`, since a read that turns into a write under a
plain BEGIN fails at once when another process wrote in between; `synchronous=EXTRA`, so that a set that was said to be
saved survives a loss of power: under FULL the folder is not synced after the rollback journal is deleted, which is the
commit, and a journal that comes back takes the last set away (sqlite.org/pragma.html#pragma_synchronous); WAL only
where the SQLite in use has the repair of the WAL-reset fault (3.51.3, 3.53.0, or the back-ports 3.44.6 and 3.50.7),
else the rollback journal.
"""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from platformdirs import user_data_dir
from sqlalchemy import Engine, create_engine, event
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DisconnectionError

from tracker.errors import BadInputError
from tracker.log import server
from tracker.private import make_file, make_folder

Address = URL  # of a log, for the rooms above, which know no SQLAlchemy
BUSY_TIMEOUT_MS = 10_000
VARIABLE = "TIDEMARK_DATABASE"
MEMORY = ":memory:"  # as SQLite calls it
DRIVERS = ("sqlite", "sqlite+pysqlite", "postgresql", f"postgresql+{server.DRIVER}")


def default_path() -> Path:
    """Return where the log lies when nothing else is said: in the user's data directory."""
    return Path(user_data_dir("tidemark", appauthor=False)) / "log.db"


def database_url(where: str | None = None) -> URL:
    """Turn an SQLAlchemy URL, SQLite's own `file:...`, or a path (given, else from TIDEMARK_DATABASE, else the default file) into a URL.

    Raises:
        BadInputError: if it is neither, or a database that Tidemark does not run on.
    """
    url = _read(where)
    if url.get_backend_name() == "sqlite" and _is_memory(url):
        raise BadInputError(
            "A log can't be kept in memory.",
            where=VARIABLE,
            mend="Give a path to a file, or to one in a folder that goes.",
        )
    return url


def password_of(where: str | None = None) -> str:
    """Return the password that stands in an address, so that it can be kept out of what is written; empty without one."""
    return str(database_url(where).password or "")


def _is_memory(url: URL) -> bool:
    """Tell whether an SQLite address names no file; as a path it would make one of that name where one happens to be."""
    name = (url.database or "").removeprefix("file:").partition("?")[0]
    return name in ("", MEMORY) or Path(name) == Path(MEMORY).absolute() or url.query.get("mode") == "memory"


def _read(where: str | None) -> URL:
    text = where or os.environ.get(VARIABLE, "")
    if text.startswith("file:"):  # as SQLite writes it; as a path it would make a folder of that name
        text = f"sqlite:///{text}"
    if "://" not in text:
        path = Path(text).expanduser() if text else default_path()
        return URL.create("sqlite", database=str(path.absolute()))
    try:
        url = make_url(text)
    except (ArgumentError, ValueError):  # its words repeat the address, and a password may stand in that
        raise BadInputError(
            f"What begins with {text.split('://', maxsplit=1)[0] + '://'!r} is not a database address.",
            where=VARIABLE,
            mend="Give a path to a file, or a URL such as postgresql+psycopg://user@host/name.",
        ) from None
    if url.drivername not in DRIVERS:
        raise BadInputError(
            f"Tidemark does not run on {url.drivername}.",
            where=VARIABLE,
            mend="Use an SQLite file, or PostgreSQL as postgresql+psycopg://user@host/name.",
        )
    if (url.database or "").startswith("file:") and url.get_backend_name() == "sqlite":
        return url.update_query_dict({"uri": "true"})  # without it SQLite would take all of it for a name
    return url


def file_of(url: URL) -> Path | None:
    """Return the file that an SQLite address names, by its path or as `file:...?uri=true`; None for a server or memory."""
    if url.get_backend_name() != "sqlite" or not url.database or url.database == MEMORY:
        return None
    if url.database.startswith("file:"):
        return Path(unquote(urlsplit(url.database).path))
    return Path(url.database)


def is_read_only(url: URL) -> bool:
    """Tell whether the address itself asks to read only."""
    return url.query.get("mode") == "ro" or url.query.get("immutable") == "1"


def wal_is_safe(version: tuple[int, int, int] = sqlite3.sqlite_version_info) -> bool:
    """Tell whether this SQLite has the repair of the WAL-reset fault of 3.7.0 to 3.51.2."""
    if version[:2] in ((3, 44), (3, 50)):
        return version >= ((3, 44, 6) if version[1] == 44 else (3, 50, 7))
    return version >= (3, 53, 0) or (version[:2] == (3, 51) and version >= (3, 51, 3))


class FileGoneError(Exception):
    """The file that was opened is not there any more; opening it again would make an empty one."""


def _which(path: Path | None) -> tuple[int, int] | None:
    """Tell one file from another of the same name; None where there is none."""
    try:
        found = path.stat() if path else None
    except FileNotFoundError:
        return None
    return (found.st_dev, found.st_ino) if found else None


def open_engine(url: URL, *, foreign_keys: bool = True, there: bool = False) -> Engine:
    """Make an engine whose SQLite connections carry the settings above; the folder of a new file is made.

    Args:
        url: Where the database is.
        foreign_keys: Off only while tables are changed.
        there: The file is there already, and must not be begun anew where it is not there any more.
    """
    if server.is_server(url):
        return server.open_engine(url)
    path, read_only = file_of(url), is_read_only(url)
    if path and not read_only:
        make_folder(path.parent)
        if not there:
            make_file(path)  # SQLite would let every account of the machine read it
    # Without its parameters an error holds no name and no note, so that none reaches a terminal or a report of a fault.
    engine = create_engine(url, connect_args={"timeout": BUSY_TIMEOUT_MS / 1000}, hide_parameters=True)
    journal = "WAL" if wal_is_safe() else "DELETE"

    @event.listens_for(engine, "connect")
    def settings(connection: Any, _record: Any) -> None:
        connection.isolation_level = None  # we begin transactions ourselves, DDL included
        cursor = connection.cursor()
        cursor.execute(f"PRAGMA busy_timeout={BUSY_TIMEOUT_MS}")
        if not read_only and cursor.execute("PRAGMA journal_mode").fetchone()[0].upper() != journal:
            cursor.execute(f"PRAGMA journal_mode={journal}")
        cursor.execute("PRAGMA synchronous=EXTRA")
        cursor.execute(f"PRAGMA foreign_keys={'ON' if foreign_keys else 'OFF'}")
        cursor.close()

    @event.listens_for(engine, "do_connect")
    def not_anew(_dialect: Any, _record: Any, _arguments: Any, _named: Any) -> None:
        if there and path and not path.exists():
            raise FileGoneError(path)

    @event.listens_for(engine, "connect")
    def remember_file(_connection: Any, record: Any) -> None:
        record.info["file"] = _which(path)

    @event.listens_for(engine, "checkout")
    def same_file(_connection: Any, record: Any, _proxy: Any) -> None:
        if _which(path) != record.info.get(
            "file"
        ):  # restored or gone meanwhile: what is open here has no name any more
            raise DisconnectionError

    @event.listens_for(engine, "begin")
    def begin(connection: Any) -> None:
        connection.exec_driver_sql("BEGIN" if connection.get_execution_options().get("reading") else "BEGIN IMMEDIATE")

    return engine
