"""Where the copies of a log are kept that nobody named, what each is called, and which of them may go.

They lie in a folder beside the log that has its name. The name of a copy says the moment and why it was made; whatever
is called otherwise was named by a person, and is never touched.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

ALL_OF = timedelta(days=7)
WEEKS = timedelta(weeks=5)  # one a week
MONTHS = timedelta(days=366)  # one a month
BEFORE = timedelta(days=90)  # before an update or a restore: what it holds may be in no later copy
DAY, ASKED, BEFORE_RESTORE = "day", "asked", "before-restore"
STAMP = "%Y%m%d-%H%M%SZ"


@dataclass(frozen=True, slots=True)
class Copy:
    """A copy by its name: when it was made, and why ("day", "asked", "before-restore", "before-" and a revision)."""

    file: Path
    at: datetime  # UTC
    why: str
    number: int = 1  # of several of one second


def folder_of(log: Path) -> Path:
    """Return the folder of a log's copies, which may not be there yet."""
    return log.with_name(f"{log.stem}-backups")


def free_name(log: Path, why: str, at: datetime | None = None) -> Path:
    """Return a name for a copy that no file has, whatever the clock says; of one second, the later has the higher number."""
    moment = (at or datetime.now(UTC)).strftime(STAMP)
    first = 1 + max((copy.number for copy in copies_of(log) if copy.at.strftime(STAMP) == moment), default=0)
    stem = f"{log.stem}-{moment}-{why}"
    names = (folder_of(log) / f"{stem}{f'.{n}' if n > 1 else ''}{log.suffix}" for n in range(first, first + 1000))
    return next(each for each in names if not each.exists())


def copies_of(log: Path) -> tuple[Copy, ...]:
    """List the copies that carry a name of ours, newest first."""
    pattern = re.compile(
        rf"{re.escape(log.stem)}-(\d{{8}}-\d{{6}}Z)-([a-z0-9-]+)(?:\.(\d+))?{re.escape(log.suffix)}", re.ASCII
    )
    found: list[Copy] = []
    for file in folder_of(log).glob("*"):
        named = pattern.fullmatch(file.name)
        if named and file.is_file() and (at := _moment(named[1])):
            found.append(Copy(file, at, named[2], int(named[3] or 1)))
    return tuple(sorted(found, key=lambda copy: (copy.at, copy.number), reverse=True))


KEYS = (".devices", ".devices.authority.pem", ".devices.certificate.pem")


def beside(log: Path) -> tuple[Path, ...]:
    """Name a log and all that lies beside it and holds some of it or opens it: journals, keys, and the copies with their folder."""
    folder = folder_of(log)
    named = (
        log,
        *(log.with_name(f"{log.name}{ending}") for ending in ("-journal", "-wal", "-shm", *KEYS)),
        folder,
    )
    return (*(each for each in named if each.exists()), *sorted(each for each in folder.glob("*") if each.is_file()))


def _moment(stamp: str) -> datetime | None:
    try:
        return datetime.strptime(stamp, STAMP).replace(tzinfo=UTC)
    except ValueError:
        return None


def to_drop(good: Iterable[Copy], now: datetime) -> tuple[Copy, ...]:
    """Choose which of the good copies may go.

    Kept are all of the last 7 days, the newest of each week for 5 weeks and of each month for a year, for 90 days those
    that were made before an update or a restore, and always the newest.

    Args:
        good: Copies that are as they were when they were made; one that is not must count for nothing.
        now: The moment it is. A copy from after it, by a clock that was set back, is kept.
    """
    newest_first = sorted(good, key=lambda copy: copy.at, reverse=True)
    weeks: set[tuple[int, int]] = set()
    months: set[tuple[int, int]] = set()
    dropped: list[Copy] = []
    for copy in newest_first:
        age, (year, week, _) = now - copy.at, copy.at.isocalendar()
        of_week = (year, week) not in weeks and age < WEEKS
        of_month = (copy.at.year, copy.at.month) not in months and age < MONTHS
        held = copy.why.startswith("before-") and age < BEFORE
        weeks.add((year, week))
        months.add((copy.at.year, copy.at.month))
        if not (copy is newest_first[0] or age < ALL_OF or of_week or of_month or held):
            dropped.append(copy)
    return tuple(dropped)
