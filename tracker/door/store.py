"""The file that holds who is paired: beside the log, readable by its owner only, and no part of the log.

A backup of the log must not carry live keys, and a restore must not bring a removed device back; so neither lies in the
log. A file of SQLite, because two servers may use it at once, and a removal has to hold in both at the next request.
Whoever deletes the file ends every pairing.
"""

from __future__ import annotations

import os
import secrets
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tracker.errors import TidemarkError

VERSION = 1
BUSY_S = 5.0
TABLES = (
    "CREATE TABLE facts (name TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT",
    """CREATE TABLE devices (
        id TEXT PRIMARY KEY, name TEXT NOT NULL, kind TEXT NOT NULL CHECK (kind IN ('phone', 'laptop')),
        hash BLOB NOT NULL, encrypted INTEGER NOT NULL, paired_at REAL NOT NULL, seen_at REAL NOT NULL
    ) STRICT""",
    """CREATE TABLE codes (
        kind TEXT PRIMARY KEY CHECK (kind IN ('phone', 'laptop')), hash BLOB NOT NULL, made_at REAL NOT NULL,
        until REAL NOT NULL, wrong INTEGER NOT NULL DEFAULT 0, device TEXT NOT NULL DEFAULT ''
    ) STRICT""",
)


class DevicesUnreadableError(TidemarkError):
    """Who is paired can't be told, so nobody is let in."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(
            f"The list of paired devices can't be used: {why}.",
            where=str(path),
            mend="Try again; if it stays so, delete this file and pair the phones again.",
        )


class Store:
    """One open file of keys and codes; what a thread does with it is done alone."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._lock = threading.RLock()
        self._connection: sqlite3.Connection | None = None
        self._file: tuple[int, int] | None = None

    def close(self) -> None:
        with self._lock:
            if self._connection is not None:
                self._connection.close()
            self._connection = None

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Read what is on the disk now.

        Raises:
            DevicesUnreadableError: if the file is damaged, held or of another version.
        """
        with self._lock:
            try:
                yield self._open()
            except (sqlite3.Error, OSError) as err:
                raise DevicesUnreadableError(self.path, str(err)) from err

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """Read and write alone among all processes; all of it is on the disk at the end, or none.

        Raises:
            DevicesUnreadableError: as in `reading`, or if the disk takes nothing.
        """
        with self.reading() as connection:
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield connection
                connection.execute("COMMIT")
            finally:
                if connection.in_transaction:
                    connection.execute("ROLLBACK")

    def _open(self) -> sqlite3.Connection:
        if self._connection is not None and self._file == _which(self.path):
            return self._connection
        self.close()  # another file has this name now, or none: what was open here counts no more
        self.path.parent.mkdir(parents=True, exist_ok=True)
        os.close(os.open(self.path, os.O_RDWR | os.O_CREAT, 0o600))
        self.path.chmod(0o600)
        connection = sqlite3.connect(self.path, timeout=BUSY_S, isolation_level=None, check_same_thread=False)
        try:
            connection.execute("PRAGMA synchronous=EXTRA")  # a removal survives a loss of power
            connection.execute("PRAGMA secure_delete=ON")
            _make(connection)
        except BaseException:
            connection.close()
            raise
        self._connection, self._file = connection, _which(self.path)
        return connection


def _which(path: Path) -> tuple[int, int] | None:
    """Tell one file from another of the same name; None where there is none."""
    try:
        found = path.stat()
    except FileNotFoundError:
        return None
    return found.st_dev, found.st_ino


def _make(connection: sqlite3.Connection) -> None:
    """Make the tables in a new file, with a secret of its own."""
    if _version(connection) == VERSION:
        return
    connection.execute("BEGIN IMMEDIATE")
    try:
        found = _version(connection)  # another process may have made them meanwhile
        if found not in (0, VERSION):
            raise sqlite3.DatabaseError(f"it is of version {found}, which is unknown here")
        if found == 0:
            for table in TABLES:
                connection.execute(table)
            facts = {"secret": secrets.token_hex(32), "name": secrets.token_hex(4)}
            connection.executemany("INSERT INTO facts VALUES (?, ?)", facts.items())
            connection.execute(f"PRAGMA user_version={VERSION}")
        connection.execute("COMMIT")
    finally:
        if connection.in_transaction:
            connection.execute("ROLLBACK")


def _version(connection: sqlite3.Connection) -> int:
    return connection.execute("PRAGMA user_version").fetchone()[0]
