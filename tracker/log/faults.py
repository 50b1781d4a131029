"""What the database or the disk refuses, told in words: a log that is busy, read-only, damaged, or has no room."""

from __future__ import annotations

import errno
import sqlite3
from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy.exc import DatabaseError, IntegrityError, NoResultFound
from sqlalchemy.exc import TimeoutError as NoConnectionError

from tracker.errors import BadInputError, TidemarkError
from tracker.log import engine, server
from tracker.log.columns import DamagedValueError

if TYPE_CHECKING:
    from collections.abc import Callable, Generator
    from typing import Any

NO_ROOM = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
NO_RIGHT = (errno.EACCES, errno.EPERM, errno.EROFS)
NOTHING = "Nothing was saved."


class NotALogError(TidemarkError):
    """The file is something else."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"This is not a Tidemark log: {why}. Nothing was changed.",
            where=where,
            mend="Name the log with --database, or restore a backup.",
        )


class DamagedLogError(TidemarkError):
    """The file was a log, and bytes of it are no longer what was written."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"The log is damaged: {why}. {NOTHING}",
            where=where,
            mend="Keep the file as it is, run tidemark check, and restore the newest backup.",
        )


class LogUnreachableError(TidemarkError):
    """The file or the server can't be opened."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"The log can't be opened: {why}. Nothing was changed.",
            where=where,
            mend="Check that the folder exists and may be written to, or name another log with --database.",
        )


class ServerUnreachableError(LogUnreachableError):
    """The server does not answer, or does not let us in."""

    def __init__(self, where: str, why: str) -> None:
        TidemarkError.__init__(
            self,
            f"The log can't be reached: {why}. What was said to be saved is saved.",
            where=where,
            mend="Check that the server runs, and the address, user and password; then reload, and look whether your last entry is there.",
        )


class CollidedError(TidemarkError):
    """Two acts got into each other's way, and the server ended this one."""

    def __init__(self, where: str) -> None:
        super().__init__(f"Somebody else changed the log at the same moment. {NOTHING}", where=where, mend="Try again.")


class LogBusyError(TidemarkError):
    """Another program holds the log."""

    def __init__(self, where: str, seconds: float) -> None:
        super().__init__(
            f"The log is busy: another program has held it for over {seconds:g} seconds. {NOTHING}",
            where=where,
            mend="Try again; close the other program if it hangs.",
        )


class DiskFullError(TidemarkError):
    """There is no room for what was to be written."""

    def __init__(self, where: str) -> None:
        super().__init__(f"The disk is full. {NOTHING}", where=where, mend="Make room and try again.")


class DiskRefusedError(TidemarkError):
    """The disk, or a limit that was set for the program, did not take a write."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"The disk refused to read or write: {why}. {NOTHING}",
            where=where,
            mend="Make room, check the disk, and try again.",
        )


class ReadOnlyLogError(TidemarkError):
    """The file or its folder may be read and not written."""

    def __init__(self, where: str) -> None:
        super().__init__(
            f"The log can only be read here. {NOTHING}",
            where=where,
            mend="Check the rights of the file and its folder; what is in the log can still be looked at.",
        )


class ServerReadOnlyError(ReadOnlyLogError):
    """The database may be read and not written: a standby, or a user without the right; `why` is the server's word."""

    def __init__(self, where: str, why: str = "") -> None:
        self.why = why
        TidemarkError.__init__(
            self,
            f"The log can only be read here. {NOTHING}",
            where=where,
            mend="Check the rights of the database's user, and that this is no standby; what is in the log can still be looked at.",
        )


class NotReadableError(LogUnreachableError):
    """The user of the database has no right to read the tables of the log: they are somebody else's."""

    def __init__(self, where: str, user: str, why: str) -> None:
        every = "ON ALL TABLES IN SCHEMA public"
        TidemarkError.__init__(
            self,
            f"The log is there, and the user {user} may not read it: {why}. Nothing was changed.",
            where=where,
            mend=f"Connect as the user who made its tables, or let that one run: GRANT SELECT, INSERT, UPDATE, DELETE {every} "
            f"TO {user}; GRANT USAGE ON ALL SEQUENCES IN SCHEMA public TO {user};",
        )


class NoTablesError(LogUnreachableError):
    """There is no log in the database yet, and its tables can't be made there."""

    def __init__(self, where: str, user: str, why: str) -> None:
        TidemarkError.__init__(
            self,
            f"There is no log yet, and its tables can't be made: {why}. Nothing was changed.",
            where=where,
            mend=f"Let the owner of the database run: GRANT CREATE, USAGE ON SCHEMA public TO {user}; or name one that is "
            "this user's own, and no standby.",
        )


class GoneMeanwhileError(TidemarkError):
    """The member or lift that a record belongs to was deleted elsewhere."""

    def __init__(self, where: str) -> None:
        super().__init__(
            f"What this belongs to is not in the log any more: it was deleted meanwhile. {NOTHING}",
            where=where,
            mend="Reload the page.",
        )


class ThereAlreadyError(TidemarkError):
    """A record is there that may be there only once: most often the same touch came twice at once."""

    def __init__(self, where: str) -> None:
        super().__init__(
            f"Somebody else saved the same at the same moment. {NOTHING}", where=where, mend="Reload the page."
        )


def _points_to_nothing(err: BaseException | None) -> bool:
    """Tell a broken reference from a record that is there twice; 23503 is SQL's own code for it."""
    code = getattr(err, "sqlite_errorcode", 0)
    return code == sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY or getattr(err, "sqlstate", "") == "23503"


def _is_there_already(err: BaseException | None) -> bool:
    """Tell whether something may be there once and is there; 23505 is SQL's own code for it."""
    once = (sqlite3.SQLITE_CONSTRAINT_UNIQUE, sqlite3.SQLITE_CONSTRAINT_PRIMARYKEY)
    return getattr(err, "sqlite_errorcode", 0) in once or getattr(err, "sqlstate", "") == "23505"


@contextmanager
def told_in_words(where: str) -> Generator[None]:
    """Turn what the database says into words; the transaction was rolled back, so nothing is half written."""
    try:
        yield
    except (DamagedValueError, UnicodeDecodeError) as err:
        why = "a text in it can't be read" if isinstance(err, UnicodeDecodeError) else str(err)
        raise DamagedLogError(where, why) from err
    except engine.FileGoneError as err:
        raise LogUnreachableError(where, "its file is gone") from err
    except NoResultFound as err:
        raise GoneMeanwhileError(where) from err
    except IntegrityError as err:
        if _points_to_nothing(err.orig):
            raise GoneMeanwhileError(where) from err
        if _is_there_already(err.orig):
            raise ThereAlreadyError(where) from err
        raise  # a value that no page and no file lets through: a fault of ours
    except NoConnectionError as err:  # all connections of this process are in use
        raise LogBusyError(where, server.WAIT_S) from err
    except DatabaseError as err:
        raise in_words(err.orig or err, where) from err
    except sqlite3.Error as err:
        raise in_words(err, where) from err


@contextmanager
def told_to_reader(where: str, user: str | None) -> Generator[None]:
    """Turn what the database says while it is read into words: who may not read is not told that they could."""
    try:
        with told_in_words(where):
            yield
    except ServerReadOnlyError as err:
        raise NotReadableError(where, user or "", err.why) from err


def in_words(err: BaseException, where: str) -> TidemarkError:
    """Say what a database driver's error means for the person; SQLite's codes are those of sqlite.org/rescode.html."""
    if hasattr(err, "sqlstate"):
        return _of_server(err, where)
    reason = str(err)
    code = getattr(err, "sqlite_errorcode", 0) & 0xFF  # the low byte is the primary code
    if code in BY_CODE:
        return BY_CODE[code](where, reason)
    if "decode" in reason:  # the text itself may be private
        return DamagedLogError(where, "a text in it can't be read")
    return LogUnreachableError(where, reason)


def _busy(where: str, _reason: str) -> TidemarkError:
    return LogBusyError(where, engine.BUSY_TIMEOUT_MS / 1000)


BY_CODE: dict[int, Callable[[str, str], TidemarkError]] = {
    sqlite3.SQLITE_BUSY: _busy,
    sqlite3.SQLITE_LOCKED: _busy,
    sqlite3.SQLITE_FULL: lambda where, _: DiskFullError(where),
    sqlite3.SQLITE_READONLY: lambda where, _: ReadOnlyLogError(where),
    sqlite3.SQLITE_IOERR: DiskRefusedError,
    sqlite3.SQLITE_NOTADB: NotALogError,
    sqlite3.SQLITE_CORRUPT: DamagedLogError,
}


def _of_server(err: Any, where: str) -> TidemarkError:
    """Say what PostgreSQL's error means; its codes are those of postgresql.org/docs/15/errcodes-appendix.html.

    Only the first line of what the server says is told: its details may hold a whole record.
    """
    state = err.sqlstate or ""
    for code, told in BY_STATE.items():
        if state.startswith(code):
            return told(where, err.diag.message_primary or state)
    if state.startswith("42"):  # a table or column that is not there, or a fault of ours
        return LogUnreachableError(where, err.diag.message_primary or state)
    if state or type(err).__name__ == "DataError":  # the driver refuses some texts before the server does
        return BadInputError(
            f"The server does not take this: {err.diag.message_primary or 'a sign that it can not keep'}. {NOTHING}",
            where=where, mend="Leave out what is unusual, and try again.",
        )  # fmt: skip
    return ServerUnreachableError(where, " ".join(str(err).splitlines()[0:1]).rstrip(".") or type(err).__name__)


def _full(where: str, _reason: str) -> TidemarkError:
    return DiskFullError(where)


def _read_only(where: str, reason: str) -> TidemarkError:
    return ServerReadOnlyError(where, reason)


def _collided(where: str, _reason: str) -> TidemarkError:
    return CollidedError(where)


def _waited(where: str, _reason: str) -> TidemarkError:
    return LogBusyError(where, server.WAIT_S)


BY_STATE: dict[str, Callable[[str, str], TidemarkError]] = {  # a whole code, or the class that it begins with
    "53100": _full,
    "25006": _read_only,  # a transaction that may only read, as on a standby
    "42501": _read_only,  # no right to a table
    "40": _collided,  # a deadlock, or two transactions that can't both be true
    "55P03": _waited,  # a lock that was not given
    "57014": _waited,  # a limit of time that the server was given
    "53300": _waited,  # too many connections
    "XX001": DamagedLogError,
    "XX002": DamagedLogError,
    "58030": DiskRefusedError,
    "08": ServerUnreachableError,
    "28": ServerUnreachableError,
    "3D": ServerUnreachableError,
    "57P": ServerUnreachableError,  # shut down, crashed, or still starting
    "25P03": ServerUnreachableError,  # the server ended a connection that held its locks too long
}


def of_the_disk(err: OSError, where: str) -> TidemarkError:
    """Say what the operating system's error means for the person."""
    if err.errno in NO_ROOM:
        return DiskFullError(where)
    if err.errno in NO_RIGHT:
        return ReadOnlyLogError(where)
    return LogUnreachableError(where, err.strerror or str(err))
