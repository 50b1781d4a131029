"""Files into the log: every set that the file has more than the log, in one act, or none of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from tracker.desk.arrivals import Arrivals
from tracker.desk.maxes import ME
from tracker.desk.seating import Seating, sets_by_member
from tracker.errors import BadInputError
from tracker.exchange.sets_csv import FileSet, SetsFile, read_sets
from tracker.log import bulk
from tracker.log.keeper import Act, Log
from tracker.log.models import new_id


@dataclass(frozen=True, slots=True)
class Imported:
    """What an import did."""

    file: str
    rows: int
    added: int
    members: tuple[str, ...] = ()  # that are new in the log
    lifts: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    ignored: tuple[str, ...] = ()  # columns that were not read

    @property
    def known(self) -> int:
        """Rows that the log had already."""
        return self.rows - self.added


def import_sets(log: Log, path: Path, *, member: str | None = None, today: date | None = None) -> Imported:
    """Read a file of sets into the log.

    A row is the same as a set of the log where all is equal but its order. For each such identity the log gets what the
    file has more than it; a set that was mended or removed by hand counts as known.

    Args:
        log: The log.
        path: A CSV as `tidemark estimate --sets` reads it.
        member: Whose rows those are that name nobody; "me" where it is not given.
        today: The day it is.

    Raises:
        BadInputError: if any row can't be taken; nothing is written then.
    """
    return import_rows(log, read_sets(path, today=today), member=member)


def import_rows(log: Log, file: SetsFile, *, member: str | None = None) -> Imported:
    """Write the rows of a file that was read already; see `import_sets`."""
    if member is not None and not member.strip():
        raise BadInputError("The member's name is empty.", where="--member", mend="Name whose sets these are.")
    if not file.rows:
        return Imported(file.name, 0, 0, ignored=file.ignored)
    with log.act(f"imported sets from {_short(file.name)}") as act:
        arrivals = Arrivals(act.session, member or ME)
        known = bulk.times_known(act.session, {arrivals.member_id(row) for row in file.rows})
        arrivals.settle(file.rows, known)
        fresh = _fresh(file.rows, arrivals, known)
        if fresh:
            _write(act, arrivals, fresh)
    added = [row for _, row in fresh]
    return Imported(file.name, len(file.rows), len(added), *arrivals.new_names(added), file.ignored)


def _fresh(rows: Sequence[FileSet], arrivals: Arrivals, known: Counter[str]) -> list[tuple[str, FileSet]]:
    """Choose the rows to add, each with its identity: of equal ones the last, as many as the file has more than the log."""
    fresh: list[tuple[str, FileSet]] = []
    for row in rows:
        origin = arrivals.origin(row)
        if known[origin] > 0:
            known[origin] -= 1
        else:
            fresh.append((origin, row))
    return fresh


def _write(act: Act, arrivals: Arrivals, fresh: Sequence[tuple[str, FileSet]]) -> None:
    import_id = new_id()
    rows = [row for _, row in fresh]
    created = arrivals.create(act, rows)
    seating = Seating(act.session, arrivals, fresh)
    seating.weigh()
    created["body_masses"] = bulk.put_body_masses(act, seating.new_masses)
    sets = seating.sets(arrivals.body_lifts(act.session))
    bulk.insert_sessions(act, import_id, seating.new_sessions)
    bulk.insert_sets(act, import_id, sets)
    bulk.note_import(act, import_id, sets_by_member(arrivals, rows), created)


def _short(name: str) -> str:
    return name if len(name) <= 60 else f"{name[:57]}..."
