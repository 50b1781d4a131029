"""Makes the tables and brings an older log up to date; refuses a newer one and leaves it untouched."""

from __future__ import annotations

import sqlite3
from contextlib import closing, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection, inspect, text
from sqlalchemy.engine import URL

from tracker import asset_folder
from tracker.errors import TidemarkError
from tracker.log import held, leftovers, server
from tracker.log.backups import folder_of, free_name
from tracker.log.copies import in_folder, to_disk
from tracker.log.engine import file_of, is_read_only, open_engine
from tracker.log.faults import (
    DamagedLogError,
    LogUnreachableError,
    NoTablesError,
    NotALogError,
    ReadOnlyLogError,
    ServerReadOnlyError,
    of_the_disk,
    told_in_words,
    told_to_reader,
)
from tracker.log.lock import one_at_a_time
from tracker.log.seal import seal, state, unseal
from tracker.private import make_file
from tracker.wording import counted

if TYPE_CHECKING:
    from alembic.config import Config

LONGEST_WAIT_S = 60.0  # for another process that is migrating the same log
REVISION = "SELECT version_num FROM alembic_version"
LEAST_BYTES = 512  # SQLite's smallest page

__all__ = [
    "DamagedLogError", "LogUnreachableError", "MigrationFailedError", "NewerLogError", "NotALogError", "OlderLogError",
    "alembic_config", "bring_up_to_date", "shown",
]  # fmt: skip


class NewerLogError(TidemarkError):
    """The log was written by a newer version of the program."""

    def __init__(self, where: str, revision: str) -> None:
        super().__init__(
            f"This log was written by a newer version of Tidemark (its revision {revision} is unknown here). Nothing was changed.",
            where=where,
            mend="Update Tidemark and start it again, or name another log with --database.",
        )


class OlderLogError(TidemarkError):
    """The log wants to be brought up to date and can only be read."""

    def __init__(self, where: str) -> None:
        super().__init__(
            "This log is from an older version of Tidemark and can only be read here, so it can't be updated. Nothing was changed.",
            where=where,
            mend="Open it where it may be written, or a copy of it.",
        )


class MigrationFailedError(TidemarkError):
    """The log could not be brought up to date, and is as it was."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"The log could not be updated: {why}. Nothing was changed.",
            where=where,
            mend="Run tidemark check with the version that wrote the log, and report this message.",
        )


def alembic_config() -> Config:
    """Point Alembic at our migrations, wherever the package lies."""
    from alembic.config import Config  # late: most logs are up to date, and Alembic is much to import

    config = Config()
    config.set_main_option("script_location", str(asset_folder("migrations")).replace("%", "%%"))
    return config


def revisions() -> tuple[str, ...]:
    """Return the revisions that this version knows, the oldest first, by the names of the migrations' files."""
    files = (asset_folder("migrations") / "versions").glob("[0-9]*_*.py")
    return tuple(sorted(each.name.partition("_")[0] for each in files))


def shown(url: URL) -> str:
    """Name a log for a person: the path of a file, or the address without its password."""
    return server.shown(url) if server.is_server(url) else str(file_of(url) or url.database or "")


def bring_up_to_date(url: URL) -> str:
    """Make a new log or migrate an older one, in one transaction, a verified copy of an existing file made first.

    Returns:
        The revision that the log then has.

    Raises:
        NewerLogError: the log's revision is unknown to this version.
        NotALogError: the file is not an SQLite file, or holds other tables.
        DamagedLogError: bytes of it are not what was written, or it is empty where copies of a log lie beside it.
        OlderLogError: it wants to be migrated and can only be read.
        MigrationFailedError: the migration failed, and nothing was changed.
        LogUnreachableError: it can't be opened or written.
    """
    try:
        if (path := file_of(url)) and not is_read_only(url):
            leftovers.sweep(path)
        with told_in_words(shown(url)):
            return _bring_up_to_date(url)
    except OSError as err:  # no folder, no room, or no right to write
        told = of_the_disk(err, shown(url))
        if not isinstance(told, ReadOnlyLogError):
            raise told from err
        if _is_there(url):  # a log that only had to be opened was opened before
            raise OlderLogError(shown(url)) from err
        raise LogUnreachableError(shown(url), err.strerror or str(err)) from err


def _is_there(url: URL) -> bool:
    try:
        path = file_of(url)
        return path is not None and path.exists()
    except OSError:  # a folder that may not be entered
        return False


def _bring_up_to_date(url: URL) -> str:
    known = revisions()
    head = known[-1]
    found, tables = _look(url)
    if found == head:
        return head
    if found is None and tables:
        raise NotALogError(shown(url), f"it holds other tables ({', '.join(sorted(tables)[:3])})")
    if found is not None and found not in known:
        raise NewerLogError(shown(url), found)
    if found is not None and is_read_only(url):
        raise OlderLogError(shown(url))
    path = file_of(url)
    if found is None and path:
        _refuse_emptied(path)
    with one_at_a_time(path, LONGEST_WAIT_S):
        found = _look(url)[0]
        if found == head:  # another process was quicker
            return head
        copy = _copy_before(path, found) if path and found else None
        try:
            _upgrade_or_say(url, found)
        except BaseException:
            if copy:  # the log is as it was, and copies must not pile up with every start
                copy.unlink()
                with suppress(OSError):  # where others lie in it
                    copy.parent.rmdir()
            raise
    return head


def _look(url: URL) -> tuple[str | None, set[str]]:
    path = file_of(url)
    if path and not path.exists() and not is_read_only(url):
        return None, set()
    engine = open_engine(url)
    try:
        with (
            told_to_reader(shown(url), url.username),
            engine.connect().execution_options(reading=True) as connection,
        ):
            if server.is_server(url):
                server.check_encoding(connection, shown(url))
            tables = set(inspect(connection).get_table_names())
            if server.is_server(url) and "alembic_version" in tables:
                server.check_owner(connection, shown(url))
            found = connection.scalars(text(REVISION)).all() if "alembic_version" in tables else ()
            return ", ".join(str(each) for each in found if each is not None) or None, tables
    finally:
        engine.dispose()


def _refuse_emptied(path: Path) -> None:
    """Refuse to begin anew where a log was: the file has no content, and copies of a log lie beside it."""
    if not path.exists() or Path(f"{path}-journal").exists():
        return
    if size := path.stat().st_size:
        if size < LEAST_BYTES:  # SQLite would take it for an empty database
            raise NotALogError(str(path), f"it has {size} bytes")
        return
    named = (*path.parent.glob(f"{path.stem}-*{path.suffix}"), *folder_of(path).glob(f"*{path.suffix}"))
    copies = sorted((each for each in named if each.stat().st_size), key=lambda each: each.stat().st_mtime)
    if copies:
        newest = copies[-1].relative_to(path.parent)
        raise DamagedLogError(str(path), f"it is empty, though copies of a log lie beside it (the newest is {newest})")


def _upgrade_or_say(url: URL, found: str | None) -> None:
    """Upgrade, and say it where there is no right to: without tables there is nothing that could be read either."""
    try:
        with told_in_words(shown(url)):
            _upgrade(url)
    except ServerReadOnlyError as err:
        if found is None:
            raise NoTablesError(shown(url), url.username or "", err.why) from err
        raise OlderLogError(shown(url)) from err
    except ReadOnlyLogError as err:
        if found is None:
            raise LogUnreachableError(shown(url), "it may not be written to") from err
        raise OlderLogError(shown(url)) from err


def _upgrade(url: URL) -> None:
    from alembic import command

    # Foreign keys off before BEGIN: SQLite's batch migration drops the old table, and a cascade would take the children.
    engine = open_engine(url, foreign_keys=False)
    try:
        with engine.begin() as connection:
            if server.is_server(url):
                server.take_all(connection, wait_s=LONGEST_WAIT_S)  # what another process has done is found below
                server.check_owner(connection, shown(url), to_change=True)
            config = alembic_config()
            config.attributes["connection"] = connection
            try:
                command.upgrade(config, "head")
                held.begin(connection)
            except (
                LookupError,
                RuntimeError,
                TypeError,
                ValueError,
                ArithmeticError,
            ) as err:  # a row we did not expect
                raise MigrationFailedError(shown(url), str(err) or type(err).__name__) from err
            if connection.dialect.name == "sqlite":
                _verify(connection, shown(url))
    finally:
        engine.dispose()


def _verify(connection: Connection, where: str) -> None:
    """Look over the migrated log before the commit."""
    if broken := connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall():
        raise MigrationFailedError(where, f"{counted(len(broken), 'record')} would be left without what they belong to")
    if (found := connection.exec_driver_sql("PRAGMA integrity_check(1)").scalar()) != "ok":
        raise DamagedLogError(where, str(found))


def _copy_before(path: Path, revision: str) -> Path:
    """Copy the log with SQLite's backup interface, verified and sealed, before its tables change."""
    with in_folder(folder_of(path)):
        target = free_name(path, f"before-{revision}")
        part = target.with_name(f".{path.name}.part")
        part.unlink(missing_ok=True)  # of a start that was killed
        make_file(part)
        try:
            with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(part)) as copy:
                source.backup(copy)
                copy.execute("PRAGMA journal_mode=DELETE")
                if (found := copy.execute("PRAGMA integrity_check(1)").fetchone()[0]) != "ok":
                    raise DamagedLogError(str(path), f"{found}; it was not updated")
            unseal(part)  # a log that somebody else's tool gave a user version is sealed like any other
            seal(part)
            if state(part) != "whole":
                raise DamagedLogError(str(path), "its copy is not as it was written; it was not updated")
            part.rename(target)
            to_disk(target.parent)
        except BaseException:
            part.unlink(missing_ok=True)
            raise
    return target
