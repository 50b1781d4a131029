"""Makes the tables and brings an older log up to date; refuses a newer one and leaves it untouched."""

from __future__ import annotations

import os
import sqlite3
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import inspect, text
from sqlalchemy.engine import URL
from sqlalchemy.exc import DatabaseError

from tracker import asset_folder
from tracker.errors import TidemarkError
from tracker.log.engine import open_engine

if TYPE_CHECKING:
    from collections.abc import Iterator


class NewerLogError(TidemarkError):
    """The log was written by a newer version of the program."""

    def __init__(self, where: str, revision: str) -> None:
        super().__init__(
            f"This log was written by a newer version of Tidemark (its revision {revision} is unknown here). Nothing was changed.",
            where=where,
            mend="Update Tidemark, or name another log with --database.",
        )


class NotALogError(TidemarkError):
    """The file is something else, or damaged."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"This is not a Tidemark log: {why}. Nothing was changed.",
            where=where,
            mend="Name the log with --database, or restore a backup.",
        )


class LogUnreachableError(TidemarkError):
    """The file or the server can't be opened."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"The log can't be opened: {why}. Nothing was changed.",
            where=where,
            mend="Check that the folder exists and may be written to, or name another log with --database.",
        )


def alembic_config() -> Config:
    """Point Alembic at our migrations, wherever the package lies."""
    config = Config()
    config.set_main_option("script_location", str(asset_folder("migrations")).replace("%", "%%"))
    return config


def shown(url: URL) -> str:
    """Name a log for a person: the path of a file, or the address without its password."""
    return url.database or "" if url.get_backend_name() == "sqlite" else url.render_as_string(hide_password=True)


def bring_up_to_date(url: URL) -> None:
    """Make a new log or migrate an older one, in one transaction, a verified copy of an existing file made first.

    Raises:
        NewerLogError: the log's revision is unknown to this version.
        NotALogError: the file is not an SQLite file, or holds other tables.
        LogUnreachableError: it can't be opened or written.
    """
    scripts = ScriptDirectory.from_config(alembic_config())
    head = scripts.get_current_head()
    try:
        found, tables = _look(url)
    except DatabaseError as err:
        reason = str(err.orig)
        if "not a database" in reason or "malformed" in reason:
            raise NotALogError(shown(url), reason) from err
        raise LogUnreachableError(shown(url), reason) from err
    except OSError as err:
        raise LogUnreachableError(shown(url), err.strerror or str(err)) from err
    if found == head:
        return
    if found is None and tables:
        raise NotALogError(shown(url), f"it holds other tables ({', '.join(sorted(tables)[:3])})")
    known = {script.revision for script in scripts.walk_revisions()}
    if found is not None and found not in known:
        raise NewerLogError(shown(url), found)
    try:
        with _one_at_a_time(url):
            if _look(url)[0] == head:  # another process was quicker
                return
            if found is not None and url.get_backend_name() == "sqlite":
                _copy_before(Path(url.database or ""), found)
            _upgrade(url)
    except OSError as err:  # no folder, no room, or no right to write
        raise LogUnreachableError(shown(url), err.strerror or str(err)) from err


def _look(url: URL) -> tuple[str | None, set[str]]:
    if url.get_backend_name() == "sqlite" and url.database and not Path(url.database).exists():
        return None, set()
    engine = open_engine(url)
    try:
        with engine.connect().execution_options(reading=True) as connection:
            tables = set(inspect(connection).get_table_names())
            revision = (
                MigrationContext.configure(connection).get_current_revision() if "alembic_version" in tables else None
            )
            return revision, tables
    finally:
        engine.dispose()


def _upgrade(url: URL) -> None:
    # Foreign keys off before BEGIN: SQLite's batch migration drops the old table, and a cascade would take the children.
    engine = open_engine(url, foreign_keys=False)
    try:
        with engine.begin() as connection:
            config = alembic_config()
            config.attributes["connection"] = connection
            command.upgrade(config, "head")
            if connection.dialect.name == "sqlite" and (
                broken := connection.execute(text("PRAGMA foreign_key_check")).fetchall()
            ):
                raise TidemarkError(
                    f"The update would leave {len(broken)} records without what they belong to. Nothing was changed.",
                    where=shown(url),
                )
    finally:
        engine.dispose()


@contextmanager
def _one_at_a_time(url: URL) -> Iterator[None]:
    """Let one process migrate; the others wait and then find it done."""
    if url.get_backend_name() != "sqlite" or os.name == "nt":
        yield
        return
    import fcntl

    lock = Path(f"{url.database}.lock")
    lock.parent.mkdir(parents=True, exist_ok=True)
    with lock.open("w") as handle:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield


def _copy_before(path: Path, revision: str) -> Path:
    """Copy the log beside itself with SQLite's backup interface, verified, before its tables change."""
    stamp = datetime.now().astimezone().strftime("%Y%m%d-%H%M%S")
    target = path.with_name(f"{path.stem}-before-{revision}-{stamp}{path.suffix}")
    with sqlite3.connect(path) as source, sqlite3.connect(target) as copy:
        source.backup(copy)
        if copy.execute("PRAGMA integrity_check").fetchone()[0] != "ok":
            raise TidemarkError("The log is damaged; it was not updated.", where=str(path), mend="Run tidemark check.")
    source.close()
    copy.close()
    return target
