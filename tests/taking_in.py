"""Taking a file of sets into a log, as the command does it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import date
    from pathlib import Path

    from tracker.desk.files.files import Imported
    from tracker.log.unit_of_work import Log


def import_sets(log: Log, path: Path, *, member: str | None = None, today: date | None = None) -> Imported:
    from tracker.desk.files.files import import_rows
    from tracker.exchange.sets_csv import read_sets

    return import_rows(log, read_sets(path, today=today), member=member)
