"""Opens the log for whoever asks: the command line, the pages, a test."""

from __future__ import annotations

from tracker.desk.base import backups
from tracker.log.backups import beside
from tracker.log.engine import Address, database_url, file_of
from tracker.log.keeper import Log
from tracker.private import wider


def open_log(database: str | None = None) -> Log:
    """Open the log at a path or an SQLAlchemy URL, making it or bringing it up to date where needed.

    Args:
        database: Where it is; without it TIDEMARK_DATABASE, else a file in the user's data directory.

    Raises:
        TidemarkError: if it is newer than this program, no log at all, or can't be reached. It is left untouched.
    """
    log = Log(database_url(database))
    backups.finish(log)  # what a deletion left undone that was ended
    return log


def read_by_others(url: Address) -> str:
    """Say what of a log, its copies and its keys other accounts of the machine can read, and the command that mends it."""
    path = file_of(url)
    return wider(beside(path)) if path else ""
