"""Taking a file of sets into a log, as the command does it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from tracker.desk.files.import_sets import Imported
    from tracker.log.unit_of_work import Log

TODAY = date(2026, 11, 20)
HEADING = "member,date,lift,load,unit,reps,rir,outcome,kind"
TWO = f"""{HEADING}
Ana,2026-03-02,front squat,80,kg,5,2,done,work
Ana,2026-03-02,front squat,82.50,kg,3,,missed,test
"""


def import_sets(log: Log, path: Path, *, member: str | None = None, today: date | None = None) -> Imported:
    from tracker.desk.files.import_sets import import_rows
    from tracker.exchange.sets_csv import read_sets

    return import_rows(log, read_sets(path, today=today), member=member)


def bring(log, path, **more):
    return import_sets(log, path, today=TODAY, **more)


def counts(log):
    from sqlalchemy import text

    with log.reading() as session:
        tables = ("sets", "sessions", "members", "lifts", "places", "body_masses")
        return {table: session.execute(text(f"SELECT count(*) FROM {table}")).scalar() for table in tables}
