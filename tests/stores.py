"""Where the logs of tests lie: files, or databases of a throw-away PostgreSQL. Each test copies what was made once."""

from __future__ import annotations

import fcntl
import hashlib
import itertools
import os
import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from sqlalchemy import text

from tests import kept
from tests.day import this_day

if TYPE_CHECKING:
    from psycopg import Connection

    from tests.server.cluster import Cluster
    from tracker.log.unit_of_work import Log

Fill = Callable[["Log"], Any]


class Store(Protocol):
    """Makes logs: `copy("demo", fill, folder)` is the address of a fresh copy of what `fill` once wrote."""

    def copy(self, kind: str, fill: Fill | None, folder: Path) -> str: ...

    def drop(self, address: str) -> None: ...


def address_of(log: Log) -> str:
    """Return what TIDEMARK_DATABASE or `--database` would say to mean this log."""
    from tracker.log.engine import file_of

    return str(file_of(log.url) or log.url.render_as_string(hide_password=False))


def digest(address: str | Path) -> str:
    """Return what changes with any change."""
    return hashlib.sha256(content(address)).hexdigest()


def content(address: str | Path) -> bytes:
    """Return all that a log holds: the bytes of a file, or every row of every table of a database."""
    if "://" not in str(address):
        return Path(address).read_bytes()
    from tracker.log.columns import Base
    from tracker.log.engine import database_url, open_engine

    engine, found = open_engine(database_url(str(address))), []
    with engine.connect() as connection:
        for table in Base.metadata.sorted_tables:
            for row in sorted(map(repr, connection.execute(text(f"SELECT * FROM {table.name}")))):
                found.append(f"{table.name}: {row}")
    engine.dispose()
    return "\n".join(found).encode()


@contextmanager
def one_at_a_time(path: Path) -> Iterator[None]:
    """Let one process of the run do what all of them need."""
    with path.open("w") as handle:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield


def _written(address: str, fill: Fill | None) -> None:
    from tracker.desk.base.opening import open_log

    log = open_log(address)
    if fill is not None:
        fill(log)
    log.close()


class Files:
    """SQLite files, made once for all processes of a run in the folder that they share."""

    def __init__(self, shared: Path) -> None:
        self.shared = shared

    def copy(self, kind: str, fill: Fill | None, folder: Path) -> str:
        name = "log" if kind == "empty" else kind
        names = (f"{name}{more}.db" for more in ("", *(f"-{number}" for number in range(2, 1000))))
        path = next(folder / each for each in names if not (folder / each).exists())
        if kept.NOTHING:
            _written(str(path), fill)
        else:
            shutil.copyfile(self._made(f"{kind}-{this_day()}", fill), path)
        return str(path)

    def _made(self, name: str, fill: Fill | None) -> Path:
        made, part = self.shared / f"{name}.db", self.shared / f"{name}-part.db"
        with one_at_a_time(self.shared / f"{name}.making"):
            if not made.exists():
                if fill is not None:  # the migrations are done once, not for each that is filled
                    shutil.copyfile(self._made(f"empty-{this_day()}", None), part)
                _written(str(part), fill)
                part.rename(made)
        return made

    def drop(self, address: str) -> None:
        """The folder goes anyway, and whoever looks for the fault wants to see the file."""


class Databases:
    """Databases of one server; in each template the migrations were done once."""

    def __init__(self, cluster: Cluster, shared: Path) -> None:
        self.cluster, self.shared = cluster, shared
        self.numbers = itertools.count()
        self._admin: Connection | None = None

    @property
    def admin(self) -> Connection:
        """A connection from which databases are made and dropped."""
        if self._admin is None or self._admin.closed:
            import psycopg

            address = self.cluster.address("postgres").replace("+psycopg", "")
            self._admin = psycopg.connect(address, autocommit=True)
        return self._admin

    def copy(self, kind: str, fill: Fill | None, folder: Path) -> str:
        name = f"test_{os.getpid()}_{next(self.numbers)}"
        if kept.NOTHING:
            self.create(name, "template0")
            _written(self.cluster.address(name), fill)
            return self.cluster.address(name)
        template = f"made_{kind}_{this_day():%Y%m%d}"
        with one_at_a_time(self.shared / f"{template}.making"):
            if not (self.shared / template).exists():
                self.create(template, "template0")
                _written(self.cluster.address(template), fill)
                (self.shared / template).touch()
        self.create(name, template)
        return self.cluster.address(name)

    def create(self, name: str, template: str) -> None:
        # Copied file by file: twice as quick here as through the write-ahead log, which is the server's own choice.
        self.admin.execute(f"CREATE DATABASE {name} TEMPLATE {template} STRATEGY file_copy")  # type: ignore[arg-type]

    def drop(self, address: str) -> None:
        self.admin.execute(f"DROP DATABASE {address.rpartition('/')[2]} WITH (FORCE)")  # type: ignore[arg-type]
