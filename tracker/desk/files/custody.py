"""Keeping the log: a verified copy away from it, and one put back."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from tracker.desk.base import backups
from tracker.desk.base.opening import open_log
from tracker.desk.base.roles import may
from tracker.desk.files import files_json
from tracker.desk.files.check import check_log
from tracker.errors import BadInputError, TidemarkError
from tracker.exchange.log_json import read_log
from tracker.log import chain, engine, leftovers
from tracker.log.copies import make_backup, put_in_place, unpacked
from tracker.log.faults import told_in_words
from tracker.log.seal import sha256
from tracker.log.server import NoFileError
from tracker.private import make_folder
from tracker.progress import tell


@dataclass(frozen=True, slots=True)
class Backup:
    """A copy that was made, looked over and sealed."""

    file: Path
    sets: int
    size: int  # bytes
    sha256: str


@dataclass(frozen=True, slots=True)
class Restored:
    """A copy that was put back; `former` is where the log that was there is kept."""

    log: Path
    sets: int
    former: Path | None
    warning: str


def file_of(database: str | None) -> Path:
    """Return the file of the log.

    Raises:
        NoFileError: if the log is on a server.
    """
    path = engine.file_of(engine.database_url(database))
    if path is None:
        raise NoFileError("--database")
    return path


@may("run")
def backup(database: str | None, target: Path | None = None, *, force: bool = False) -> Backup:
    """Copy the log to a file, whoever has it open, and look the copy over.

    Without a file the copy goes among those that Tidemark keeps, with its moment in its name.

    Raises:
        TidemarkError: if the log is not there or damaged, or the file can't be written; nothing is left half made.
    """
    source = file_of(database)
    if not source.exists():
        raise BadInputError("There is no log yet.", where=str(source), mend="Name the log with --database.")
    log = open_log(database)  # refuses what is no log, and brings an older one up to date
    try:
        if target is None:
            target = backups.make(log)
        else:
            with told_in_words(str(source)):
                make_backup(source, target, force=force)
    finally:
        log.close()
    return Backup(target, _sets(target), target.stat().st_size, sha256(target))


@may("run")
def restore(database: str | None, source: Path) -> Restored:
    """Put a backup in the place of the log: looked over first, then swapped in one step, the former log kept beside.

    The log.json of an export is taken like a backup.

    Raises:
        TidemarkError: if the backup is damaged, newer, or no log; the log is left as it is.
    """
    target = file_of(database)
    if target.exists() and source.exists() and target.samefile(source):
        raise BadInputError("That is the log itself.", where=str(source), mend="Name a backup.")
    try:
        make_folder(target.parent)
        leftovers.sweep(target)
        with leftovers.working_folder(target) as folder:
            new = folder / "log.db"
            warning = _unpacked(source, new)
            found = _looked_over(new, source)
            _say_restored(new, source)
            tell("putting it in place")  # the last moment at which it can be stopped
            return Restored(target, found, put_in_place(new, target), warning)
    except OSError as err:
        mend = "Check the folder's rights and its room."
        raise TidemarkError(f"It can't be written: {err.strerror or err}.", where=str(target), mend=mend) from err


def _unpacked(source: Path, new: Path) -> str:
    if source.suffix.lower() != ".json":
        return unpacked(source, new)
    files_json.build(read_log(source), new)
    return ""


def _looked_over(new: Path, source: Path) -> int:
    """Bring the copy up to date and check it; return how many sets it has."""
    report = check_log(str(new))
    if not report.ok:
        mend = "Use another copy, or an older backup."
        raise BadInputError(f"This backup is not in order: {report.problems[0]}", where=str(source), mend=mend)
    return report.counts["sets"]


def _say_restored(new: Path, source: Path) -> None:
    """Note in the history that a copy was put in place: whoever has the log open finds there why it went back."""
    log = open_log(str(new))
    try:
        with log.act("put a copy in the place of the log") as act:
            act.note(chain.FOUND, chain.RESTORED, before=None, after={"file": source.name})
    finally:
        log.close()


def _sets(path: Path) -> int:
    with closing(sqlite3.connect(f"{path.absolute().as_uri()}?mode=ro&immutable=1", uri=True)) as connection:
        return connection.execute("SELECT count(*) FROM sets WHERE removed_at IS NULL").fetchone()[0]
