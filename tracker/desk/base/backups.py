"""The copies of the log that are made without being asked for: one a day, kept in rotation, listed, and looked over."""

from __future__ import annotations

import mmap
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from pathlib import Path

from tracker.desk.base.roles import may
from tracker.errors import BadInputError, TidemarkError
from tracker.log import erase, history, leftovers
from tracker.log.backups import ASKED, BEFORE_RESTORE, DAY, Copy, copies_of, folder_of, free_name, to_drop
from tracker.log.copies import in_folder, make_backup
from tracker.log.engine import file_of, is_read_only
from tracker.log.faults import told_in_words
from tracker.log.seal import State, state
from tracker.log.unit_of_work import Log
from tracker.log.who import HERE, acting

WORDS = {DAY: "one a day", ASKED: "asked for", BEFORE_RESTORE: "before a restore"}
_looked: dict[Path, date] = {}  # logs by the day on which they were last looked at


@dataclass(frozen=True, slots=True)
class Kept:
    """A copy that Tidemark keeps, and whether it is as it was when it was made."""

    file: Path
    at: datetime  # UTC
    why: str  # in words
    size: int  # bytes
    state: State

    @property
    def whole(self) -> bool:
        return self.state == "whole"


@may("run")
def kept(log: Log) -> tuple[Kept, ...]:
    """List the copies of a log, newest first, each read whole and held against its seal."""
    path = file_of(log.url)
    return () if path is None else tuple(_looked_over(copy) for copy in copies_of(path))


def _looked_over(copy: Copy) -> Kept:
    words = WORDS.get(copy.why, "before an update")
    try:
        return Kept(copy.file, copy.at, words, copy.file.stat().st_size, state(copy.file))
    except OSError:  # deleted meanwhile, or not ours to read
        return Kept(copy.file, copy.at, words, 0, "other")


@may("run")
def make(log: Log, why: str = ASKED) -> Path:
    """Make a verified, sealed and dated copy among those that are kept, and let go of those whose time is over.

    Raises:
        BadInputError: if the log is no file.
        TidemarkError: if it is damaged, or the disk refuses; no copy is let go of then.
    """
    path = file_of(log.url)
    if path is None:
        mend = "Use the tools of the database for its copies."
        raise BadInputError("This log is no file.", where=log.name, mend=mend)
    target = free_name(path, why)
    try:
        with in_folder(folder_of(path)), told_in_words(log.name):
            make_backup(path, target)
    except OSError as err:
        what = f"The copy can't be written: {err.strerror or err}."
        raise TidemarkError(what, where=str(target), mend="Check the folder's rights and its room.") from err
    rotate(path)
    return target


@may("run")
def rotate(path: Path, now: datetime | None = None) -> tuple[Path, ...]:
    """Delete the copies whose time is over; only whole ones, and never the newest of them."""
    good = [copy for copy in copies_of(path) if _looked_over(copy).whole]
    gone: list[Path] = []
    for copy in to_drop(good, now or datetime.now(UTC)):
        try:
            copy.file.unlink()
        except OSError:  # it stays, and is tried again the next day
            continue
        gone.append(copy.file)
    return tuple(gone)


def each_day(log: Log, now: datetime | None = None) -> Path | None:
    """Copy a log that holds acts of a former day which no whole copy has; looked at once a day.

    Whoever opens the log must be able to work with it, so what goes wrong here is not raised: `behind` says it.
    """
    path, moment = file_of(log.url), (now or datetime.now(UTC)).astimezone()
    if path is None or is_read_only(log.url) or _looked.get(path) == moment.date():
        return None
    _looked[path] = moment.date()
    try:
        with acting(
            HERE
        ):  # whoever of the gym is first that day: it is the log's own housekeeping, and tells them nothing
            return make(log, DAY) if behind(log, moment) else None
    except TidemarkError:
        return None


def behind(log: Log, now: datetime | None = None) -> date | None:
    """Return the newest former day whose acts are in no whole copy; None where there is none."""
    path, moment = file_of(log.url), (now or datetime.now(UTC)).astimezone()
    if path is None:
        return None
    midnight = datetime.combine(moment.date(), time()).astimezone()
    with acting(HERE), log.reading() as session:  # of all members, whoever opened it
        newest = history.newest_before(session, midnight)
    if newest is None:
        return None
    past = (copy for copy in copies_of(path) if copy.at <= moment)  # a clock that was wrong covers nothing
    covered = next((copy.at for copy in past if _looked_over(copy).whole), None)
    return None if covered and covered > newest else newest.astimezone().date()


def holding(path: Path | None, member_id: str) -> tuple[Path, ...]:
    """Name the files beside a log that hold a member, whoever named them: copies, and what an older version left."""
    if path is None:
        return ()
    leftovers.sweep(path)
    working = (file for folder in leftovers.of(path) for file in folder.rglob("*"))
    files = sorted((*folder_of(path).glob("*"), *path.parent.glob(f"{path.stem}-before-*"), *working))
    return tuple(each for each in files if each.is_file() and _holds(each, member_id))


def _holds(file: Path, member_id: str) -> bool:
    """Look for a member's id in the bytes of a file; one that can't be read may hold it."""
    return _is_in(file, lambda content: content.find(member_id.encode()) >= 0)


def _is_of(file: Path, unsaid: str) -> bool:
    return _is_in(file, lambda content: erase.holds(content, unsaid))


def _is_in(file: Path, look: Callable[[mmap.mmap], bool]) -> bool:
    try:
        if not file.stat().st_size:
            return False
        with file.open("rb") as handle, mmap.mmap(handle.fileno(), 0, access=mmap.ACCESS_READ) as content:
            return look(content)
    except OSError:
        return True


@may("run")
def let_go(log: Log, files: tuple[Path, ...]) -> tuple[Path, ...]:
    """Delete copies that carry a name of ours, after a fresh one was made; return those that are still there.

    Raises:
        TidemarkError: if the fresh copy can't be made; nothing is deleted then.
    """
    path = file_of(log.url)
    going = named_by_us(log, files)
    if going:
        make(log, DAY)
    for each in going:
        each.unlink(missing_ok=True)
    if path:
        _forget(log, path)
    return tuple(each for each in files if each.exists())


def named_by_us(log: Log, files: tuple[Path, ...]) -> tuple[Path, ...]:
    """Return those of some files that are copies under a name of ours."""
    path = file_of(log.url)
    ours: set[Path] = {copy.file for copy in copies_of(path)} if path else set()
    return tuple(each for each in files if each in ours)


def still_going(log: Log) -> tuple[Path, ...]:
    """Name the copies that should have gone with a deleted member, and are there because a process was ended."""
    path = file_of(log.url)
    return _still_there(path, _going(log)) if path else ()


def _going(log: Log) -> dict[str, str]:
    with acting(HERE), log.reading() as session:
        return erase.still_going(session)


def _still_there(path: Path, going: dict[str, str]) -> tuple[Path, ...]:
    there = {copy.file.name: copy.file for copy in copies_of(path)} if going else {}
    return tuple(there[name] for name, unsaid in going.items() if name in there and _is_of(there[name], unsaid))


def finish(log: Log) -> tuple[Path, ...]:
    """Let go of the copies that should have gone with a deleted member; return those that are still there."""
    path = file_of(log.url)
    if path is None or is_read_only(log.url):
        return ()
    left: tuple[Path, ...] = ()
    with acting(HERE):
        try:
            if not (going := _going(log)):
                return ()
            left = _still_there(path, going)
            left = let_go(log, left) if left else ()
            _forget(log, path)
        except TidemarkError:  # whoever opens the log must be able to work with it; `check` tells it
            pass
    return left


def _forget(log: Log, path: Path) -> None:
    """Take those copies out of the facts of the log that are there no more."""
    with log.reading() as session:
        gone = [name for name in erase.still_going(session) if not (folder_of(path) / name).exists()]
    if gone:
        with log.act("let go of copies") as act:
            erase.went(act.session, gone)
