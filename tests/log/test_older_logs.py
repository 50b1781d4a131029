"""A log that an older version wrote opens here, with every row intact, and its acts can still be taken back.

schema_0001.db was written by the program as it stood at revision 0001, and made small with VACUUM at a page size of 512.
"""

import shutil
import sqlite3
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tracker.desk import people, training
from tracker.log import seal
from tracker.log.engine import database_url
from tracker.log.keeper import Log
from tracker.log.sets import sets_of

FROZEN = Path(__file__).parent / "schema_0001.db"


def rows(path: Path) -> dict[str, list[dict[str, object]]]:
    """All rows of all tables but Alembic's own, by the columns that they have."""
    connection = sqlite3.connect(path)
    connection.row_factory = sqlite3.Row
    tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
    found = {table: [dict(row) for row in connection.execute(f"SELECT * FROM {table}")] for table in tables}
    connection.close()
    found.pop("alembic_version")
    return found


@pytest.fixture
def old(tmp_path):
    return Path(shutil.copy(FROZEN, tmp_path / "old.db"))


def test_every_row_of_the_first_schema_is_kept(old):
    before = rows(old)
    assert {table: len(found) for table, found in before.items() if found} == {
        "members": 2, "lifts": 2, "places": 1, "kit_items": 8, "waves": 1, "wave_steps": 2, "planned_sets": 2, "member_waves": 1,
        "member_steps": 2, "body_masses": 1, "rep_maxes": 1, "sessions": 3, "sets": 4, "changes": 34,
    }  # fmt: skip
    Log(database_url(str(old))).close()
    after = rows(old)
    for table, found in before.items():
        kept = [{column: row[column] for column in found[0]} for row in after[table]] if found else after[table]
        assert kept == found, table
    with sqlite3.connect(old) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    connection.close()


def test_a_sealed_copy_of_the_older_log_is_kept(old):
    before = rows(old)
    Log(database_url(str(old))).close()
    (copy,) = old.parent.glob("old-backups/old-*-before-0001.db")
    assert rows(copy) == before
    assert seal.state(copy) == "whole"


def test_what_an_older_log_holds_is_read_and_its_last_acts_are_taken_back(old):
    log = Log(database_url(str(old)))
    ana = next(each for each in people.members(log) if each.name == "Ana")
    assert training.undo_last(log, ana.id) == "rated a session"
    assert training.undo_last(log, ana.id) == "mended back squat, barbell: 5 x 62.5 kg"
    assert training.undo_last(log, ana.id) == "removed back squat, barbell: 5 x 70 kg"
    with log.reading() as session:
        loads = [(row.day, row.load.amount, row.reps, row.rir) for row in sets_of(session, ana.id)]
    log.close()
    assert loads == [
        (date(2026, 3, 2), Decimal("62.50"), 5, Decimal("2.5")),
        (date(2026, 3, 2), Decimal("-10"), 6, None),
        (date(2026, 3, 4), Decimal("70"), 5, None),
    ]
