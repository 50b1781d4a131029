"""Whole copies of an SQLite log: made with SQLite's backup interface, looked over, sealed, and put in place at once.

Copying the main file alone would lose what still lies in its journal, and putting a copy beside an old journal would
bring the old content back (both measured); so neither is ever done.
"""

from __future__ import annotations

import contextlib
import os
import shutil
import sqlite3
from collections.abc import Generator
from pathlib import Path

from sqlalchemy.engine import URL

from tracker.errors import BadInputError, TidemarkError
from tracker.log import held, leftovers
from tracker.log.backups import BEFORE_RESTORE, folder_of, free_name
from tracker.log.engine import open_engine
from tracker.log.faults import told_in_words
from tracker.log.seal import CHUNK, seal, state, unseal
from tracker.private import make_file, make_folder
from tracker.progress import tell
from tracker.wording import counted

MOST_OF_NAME = 60  # letters of a copy's name in that of its half-made file: a name has room for 255 bytes
BUSY_S = 10.0  # how long to wait for a program that holds the log
BESIDE = ("-wal", "-shm", "-journal")  # what SQLite may keep beside a database


def copy_log(source: Path, target: Path) -> None:
    """Copy a log as one moment saw it, whoever has it open, and look the copy over.

    Raises:
        sqlite3.Error: if the source can't be read.
        TidemarkError: if what was read is damaged.
    """
    address = f"{source.absolute().as_uri()}?mode=rw"
    make_file(target)
    with (
        contextlib.closing(sqlite3.connect(address, uri=True, timeout=BUSY_S)) as reading,
        contextlib.closing(sqlite3.connect(target, isolation_level=None)) as writing,
    ):
        reading.backup(writing)
        writing.execute("PRAGMA journal_mode=DELETE")
        look_over(writing, str(source))
    to_disk(target)


def look_over(connection: sqlite3.Connection, where: str) -> None:
    """Run SQLite's checks of structure and of foreign keys.

    Raises:
        TidemarkError: if either finds anything.
    """
    found = [row[0] for row in connection.execute("PRAGMA integrity_check(3)")]
    if found != ["ok"]:
        mend = "Keep the file, and restore the newest backup."
        raise TidemarkError(f"The log is damaged: {found[0]}.", where=where, mend=mend)
    broken = len(connection.execute("PRAGMA foreign_key_check").fetchall())
    if broken:
        what = f"{counted(broken, 'record')} point to what is not there."
        raise TidemarkError(what, where=where, mend="Run tidemark check, and restore the newest backup.")


def hold_to_history(path: Path, where: str) -> None:
    """Refuse a copy of which a record is not what the history says it is: a seal would call it whole.

    Raises:
        TidemarkError: if one is not.
    """
    tell("comparing the copy with its history")
    engine = open_engine(URL.create("sqlite", database=f"{path.absolute().as_uri()}?mode=ro", query={"uri": "true"}))
    try:
        with told_in_words(where), engine.connect().execution_options(reading=True) as connection:
            found = next(held.problems(connection), None) if held.fits(connection) else None
    finally:
        engine.dispose()
    if found:
        mend = "Run tidemark check, keep the file, and restore the newest backup."
        raise TidemarkError(f"The log is damaged: {found}. No copy was made.", where=where, mend=mend)


def make_backup(source: Path, target: Path, *, force: bool = False) -> None:
    """Write a sealed copy of a log to `target`, whole or not at all.

    Raises:
        BadInputError: if the target is there already and may not be replaced, or is the log itself.
        TidemarkError: if it can't be written, or the log is damaged.
    """
    if target.exists() and source.exists() and target.samefile(source):
        raise BadInputError("That is the log itself.", where=str(target), mend="Name another file.")
    if target.is_dir() or (target.exists() and not force):
        mend = "Name a file in it." if target.is_dir() else "Name another file, or add --force to replace it."
        what = "That is a folder." if target.is_dir() else "There is such a file already."
        raise BadInputError(what, where=str(target), mend=mend)
    with _told(target):
        make_folder(target.parent)
        with _waiting(source, target) as waiting:
            waiting.unlink(missing_ok=True)
            copy_log(source, waiting)
            hold_to_history(waiting, str(source))
            seal(waiting)
            if state(waiting) != "whole":
                raise TidemarkError("The copy is not as it was written.", where=str(target), mend="Check the disk.")
            waiting.replace(target)
            to_disk(target.parent)


@contextlib.contextmanager
def _waiting(log: Path, target: Path) -> Generator[Path]:
    """Name the file that becomes a copy: among the copies in a folder that goes if this process is killed, else beside it.

    One beside it goes too: what is killed leaves a folder beside the log that says where it is.
    """
    if target.parent == folder_of(log):
        with leftovers.working_folder(log, among_copies=True) as folder:
            yield folder / target.name
        return
    with contextlib.ExitStack() as stack:
        waiting = target.with_name(f".{target.name[:MOST_OF_NAME]}.part")
        with contextlib.suppress(OSError):  # beside a log that can only be read no folder can be made
            folder = stack.enter_context(leftovers.working_folder(log))
            waiting = waiting.with_name(f"{waiting.stem}-{folder.name.rpartition('-')[2]}.part")
            leftovers.note(folder, waiting)
        try:
            yield waiting
        finally:
            waiting.unlink(missing_ok=True)


def unpacked(backup: Path, target: Path) -> str:
    """Copy a backup to `target`, seal taken off, after looking it over; return a warning, or nothing.

    Raises:
        BadInputError: if it is no backup, or not as it was when it was made.
    """
    try:
        found = state(backup)
    except OSError as err:
        mend = "Check its name and its rights."
        raise BadInputError(f"It can't be read: {err.strerror or err}.", where=str(backup), mend=mend) from err
    if found == "other":
        raise BadInputError(
            "This is no backup of a log.", where=str(backup), mend="Name a file that tidemark backup made."
        )
    if found == "damaged":
        what = "This backup is damaged: it is not what was written when it was made."
        raise BadInputError(what, where=str(backup), mend="Use another copy of it, or an older backup.")
    with _told(target):
        _copied(backup, target)
        unseal(target)
    tell("looking over the copy")
    try:
        with contextlib.closing(sqlite3.connect(target, isolation_level=None)) as connection:
            look_over(connection, str(backup))
    except sqlite3.DatabaseError as err:
        raise BadInputError(f"This backup is damaged: {err}.", where=str(backup), mend="Use another one.") from err
    return "" if found == "whole" else "This file carries no seal, so a changed value in it can't be seen."


def _copied(source: Path, target: Path) -> None:
    size, done = source.stat().st_size, 0
    make_file(target)
    with source.open("rb") as reading, target.open("wb") as writing:
        while part := reading.read(CHUNK):
            tell("copying", done, size)
            done += writing.write(part)


def put_in_place(new: Path, target: Path) -> Path | None:
    """Put a finished log where another one may lie; return where the former one was kept.

    The former log is copied among the log's copies first. Then the new one takes its name in one step, while nobody can
    write.

    Raises:
        TidemarkError: if another program holds the former log, or the disk refuses.
    """
    with _told(target):
        make_folder(target.parent)
        if not target.exists():
            new.replace(target)
            to_disk(target.parent)
            return None
        # The folder first: it waits for the log's lock, and whoever has that may wait for the log.
        with (
            in_folder(folder_of(target)),
            leftovers.working_folder(target, among_copies=True) as folder,
            _held(target),
        ):
            former = _kept(target, folder)
            for ending in BESIDE:
                beside = target.with_name(target.name + ending)
                if beside.exists():
                    beside.replace(former.with_name(former.name + ending))
            with contextlib.suppress(OSError):  # a group that shares the log goes on sharing it
                new.chmod(target.stat().st_mode & 0o777)
            new.replace(target)
            to_disk(target.parent)
        return former


def _kept(target: Path, folder: Path) -> Path:
    """Copy the log that is to be replaced, sealed where it is in order and as it lies where it is not."""
    former = free_name(target, BEFORE_RESTORE)
    waiting = folder / former.name
    make_file(waiting)
    shutil.copyfile(target, waiting)
    if _is_in_order(waiting):
        seal(waiting)
    to_disk(waiting)
    waiting.replace(former)
    to_disk(former.parent)
    return former


def _is_in_order(path: Path) -> bool:
    """Tell whether a copy without a journal is a log without damage, which a seal may call whole."""
    if state(path) != "unsealed":
        return False
    address = f"{path.absolute().as_uri()}?mode=ro&immutable=1"
    try:
        with contextlib.closing(sqlite3.connect(address, uri=True)) as connection:
            look_over(connection, str(path))
    except (sqlite3.DatabaseError, TidemarkError):
        return False
    return True


@contextlib.contextmanager
def in_folder(folder: Path) -> Generator[None]:
    """Make a folder for a copy, and take it away again where the copy could not be made and nothing else is in it."""
    made = not folder.exists()
    make_folder(folder)
    try:
        yield
    except BaseException:
        if made:
            with contextlib.suppress(OSError):
                folder.rmdir()
        raise
    if made:
        to_disk(folder.parent)


@contextlib.contextmanager
def _held(path: Path) -> Generator[None]:
    """Keep every other program from writing, with all that was in a journal back in the file; a damaged file is let be."""
    if state(path) == "other":  # SQLite would throw away what lies beside it
        yield
        return
    connection = sqlite3.connect(path, timeout=BUSY_S, isolation_level=None)
    try:
        try:
            connection.execute("PRAGMA journal_mode=DELETE")
            connection.execute("BEGIN EXCLUSIVE")
        except sqlite3.OperationalError as err:
            if "locked" in str(err) or "busy" in str(err):
                what = "The log is held by another program. Nothing was changed."
                raise TidemarkError(
                    what, where=str(path), mend="Close the pages and other programs, and try again."
                ) from err
        except sqlite3.DatabaseError:  # damaged: it is kept as it lies, with all that lies beside it
            pass
        yield
    finally:
        connection.close()


def to_disk(path: Path) -> None:
    """Make what was written survive a loss of power; a folder keeps the names of its files."""
    if os.name == "nt" and path.is_dir():  # Windows opens no folders
        return
    handle = os.open(path, os.O_RDONLY if path.is_dir() else os.O_RDWR)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextlib.contextmanager
def _told(path: Path) -> Generator[None]:
    try:
        yield
    except OSError as err:
        what = f"It can't be written: {err.strerror or err}. Nothing was changed."
        raise TidemarkError(
            what, where=str(path), mend="Name a folder that may be written to, with room in it."
        ) from err
