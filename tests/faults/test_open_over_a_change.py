"""A program that was left open while the log was restored, taken away, or brought up to date by a newer version."""

import shutil
import sqlite3
from contextlib import closing
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tests.faults.whole import faults_of
from tests.readings import newest
from tracker.desk.day import log_set
from tracker.desk.files import custody
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.log.faults import LogUnreachableError
from tracker.log.migrate import NewerLogError
from tracker.log.sets import NewSet
from tracker.units import Mass

DAY = date(2026, 3, 2)


def log_one(log, ana, squat, load):
    return log_set.log_set(log, ana.id, DAY, NewSet(squat.id, Mass(Decimal(load), "kg"), 5), sure=True)


def loads(path):
    with closing(sqlite3.connect(path)) as connection:
        return [int(load) for (load,) in connection.execute("SELECT load FROM sets ORDER BY position")]


def test_a_log_that_was_restored_meanwhile_is_what_is_read_and_written_from_then_on(log, ana, squat, tmp_path):
    path = Path(log.url.database)
    log_one(log, ana, squat, 60)
    custody.backup(str(path), tmp_path / "backup.db")
    log_one(log, ana, squat, 61)
    before = newest(log)
    done = custody.restore(str(path), tmp_path / "backup.db")
    assert [len(entry.sets) for entry in journal.sessions(log, ana.id)] == [1]
    log_one(log, ana, squat, 62)
    assert newest(log) != before  # as many acts as before the restore, but others
    assert loads(path) == [60, 62]
    assert loads(done.former) == [60, 61]
    assert faults_of(path) == []


def test_a_log_whose_file_is_gone_is_told_and_not_begun_anew(log, ana, squat, tmp_path):
    path = Path(log.url.database)
    log_one(log, ana, squat, 60)
    path.rename(tmp_path / "elsewhere.db")
    with pytest.raises(LogUnreachableError, match="gone"):
        log_one(log, ana, squat, 61)
    with pytest.raises(LogUnreachableError, match="gone"):
        people.members(log)
    assert not path.exists()
    shutil.move(tmp_path / "elsewhere.db", path)
    log_one(log, ana, squat, 62)
    assert loads(path) == [60, 62]


def test_a_log_that_a_newer_version_brought_up_to_date_is_not_written_by_the_older_one(log, ana, squat):
    path = Path(log.url.database)
    log_one(log, ana, squat, 60)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.commit()
    with pytest.raises(NewerLogError, match="newer version") as refused:
        log_one(log, ana, squat, 61)
    assert refused.value.mend.startswith("Update Tidemark and start it again")
    assert loads(path) == [60]
