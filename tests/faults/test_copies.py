"""Backups that are damaged, interrupted, or have no room: never restored as good, and the log stays what it was.

50 damaged bytes in the suite; TIDEMARK_DAMAGES=1000 TIDEMARK_SEED=7 makes it a thousand.
"""

import os
import random
import shutil
import sqlite3
import time
from contextlib import closing
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tests.faults.children import back_up_and_restore
from tests.faults.whole import faults_of
from tracker.desk.day import log_set
from tracker.desk.files import custody
from tracker.desk.files.check import check_log
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log.engine import database_url
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

DAMAGES = int(os.environ.get("TIDEMARK_DAMAGES", "50"))
SEED = int(os.environ.get("TIDEMARK_SEED", "20261125"))
FROZEN = Path(__file__).parents[1] / "log" / "schema_0001.db"
DAY = date(2026, 3, 2)


def log_sets(path, loads):
    log = Log(database_url(str(path)))
    member = next(iter(people.members(log)), None) or people.add_member(log, "Ana")
    lift = people.add_lift(log, "back squat", "barbell")
    for load in loads:
        log_set.log_set(log, member.id, DAY, NewSet(lift.id, Mass(Decimal(load), "kg"), 5), sure=True)
    log.close()
    return path


def loads_in(path):
    with closing(sqlite3.connect(path)) as connection:
        return [float(load) for (load,) in connection.execute("SELECT load FROM sets ORDER BY position")]


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """A log of three sets, its backup, and another set in the log since."""
    folder = tmp_path_factory.mktemp("made")
    path, backup = log_sets(folder / "log.db", (60, 61, 62)), folder / "backup.db"
    custody.backup(str(path), backup)
    log_sets(path, (63,))
    return path, backup


@pytest.fixture
def kept(made, tmp_path):
    """A copy of both, to be damaged."""
    (tmp_path / "away").mkdir()
    return Path(shutil.copy(made[0], tmp_path / "log.db")), Path(shutil.copy(made[1], tmp_path / "away" / "backup.db"))


def _but_locks(path):
    """List what lies beside a log; the empty file that a restore locks may stay."""
    return sorted(each for each in path.parent.iterdir() if each.suffix != ".lock")


def test_a_backup_with_one_wrong_byte_is_never_restored(kept, tmp_path):
    path, backup = kept
    chance = random.Random(SEED)
    good, log = backup.read_bytes(), path.read_bytes()
    beside = _but_locks(path)
    damaged = tmp_path / "away" / "damaged.db"
    for number in range(DAMAGES):
        content = bytearray(good)
        at = chance.randrange(len(content))
        content[at] ^= chance.randrange(1, 256)
        damaged.write_bytes(content)
        with pytest.raises(TidemarkError) as refused:
            custody.restore(str(path), damaged)
        assert refused.value.mend, (number, at)
        assert path.read_bytes() == log, (number, at)
        assert _but_locks(path) == beside, (number, at)
    print(f"{DAMAGES} damaged bytes, seed {SEED}: none restored")
    custody.restore(str(path), backup)  # the good one is
    assert loads_in(path) == [60, 61, 62]


@pytest.mark.parametrize("seed", range(12))
def test_a_backup_that_was_cut_off_or_went_on_is_never_restored(kept, seed):
    path, backup = kept
    chance = random.Random(seed)
    good, log = backup.read_bytes(), path.read_bytes()
    backup.write_bytes(good + b"\x00" * 4096 if seed == 0 else good[: chance.randrange(len(good))])
    with pytest.raises(TidemarkError):
        custody.restore(str(path), backup)
    assert path.read_bytes() == log


def test_a_log_of_the_first_schema_is_restored_and_brought_up_to_date(tmp_path):
    path = log_sets(tmp_path / "log.db", (60,))
    done = custody.restore(str(path), Path(shutil.copy(FROZEN, tmp_path / "old.db")))
    assert "no seal" in done.warning
    assert done.former
    assert loads_in(done.former) == [60]
    assert check_log(str(path)).ok
    with closing(sqlite3.connect(FROZEN)) as connection:
        (sets,) = connection.execute("SELECT count(*) FROM sets").fetchone()
    assert len(loads_in(path)) == sets


def test_a_backup_from_a_newer_version_is_refused(kept):
    path, backup = kept
    with closing(sqlite3.connect(backup)) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
        connection.execute("PRAGMA user_version = 0")
        connection.execute("PRAGMA application_id = 0")  # somebody else's tool took the seal off
        connection.commit()
    log = path.read_bytes()
    with pytest.raises(TidemarkError, match="newer version"):
        custody.restore(str(path), backup)
    assert path.read_bytes() == log


def test_killed_in_a_backup_or_restore_the_log_is_whole_and_one_of_the_two(quick_folder, child):
    path = log_sets(quick_folder / "log.db", (60, 61))
    custody.backup(str(path), quick_folder / "good.db")
    log_sets(path, (62,))
    chance = random.Random(SEED)
    for number in range(5):
        process = child(back_up_and_restore, str(path), str(quick_folder / "good.db"), str(quick_folder / "other.db"))
        time.sleep(0.1 + chance.random() * 0.25)
        process.kill()
        process.join()
        assert process.exitcode == -9
        assert loads_in(path) in ([60, 61], [60, 61, 62]), number
        assert faults_of(path) == []
        assert (quick_folder / "good.db").exists()
        if (quick_folder / "other.db").exists():
            custody.restore(str(quick_folder / "try.db"), quick_folder / "other.db")  # whole, or it would be refused
    assert custody.restore(str(path), quick_folder / "good.db").sets == 2


def test_a_backup_on_a_full_disk_is_told_and_leaves_nothing(kept, small_disk):
    path, _ = kept
    (small_disk / "filler").write_bytes(b"x" * (shutil.disk_usage(small_disk).free - 20_000))
    with pytest.raises(TidemarkError, match=r"room|full|space"):
        custody.backup(str(path), small_disk / "backup.db")
    assert [each.name for each in small_disk.iterdir()] == ["filler"]
    (small_disk / "filler").unlink()
    custody.backup(str(path), small_disk / "backup.db")


def test_a_restore_on_a_full_disk_is_told_and_leaves_the_log(kept, small_disk):
    _, backup = kept
    path = log_sets(small_disk / "log.db", (70,))
    log = path.read_bytes()
    (small_disk / "filler").write_bytes(b"x" * (shutil.disk_usage(small_disk).free - 30_000))
    with pytest.raises(TidemarkError, match=r"room|full|space"):
        custody.restore(str(path), backup)
    assert path.read_bytes() == log
    assert sorted(each.name for each in small_disk.iterdir() if each.suffix != ".lock") == ["filler", "log.db"]
    (small_disk / "filler").unlink()
    assert custody.restore(str(path), backup).sets == 3


def test_an_old_journal_beside_the_log_does_not_bring_old_sets_back(kept):
    path, backup = kept
    Path(f"{path}-journal").write_bytes(b"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7" + b"\x00" * 1000)
    Path(f"{path}-wal").write_bytes(b"x" * 5000)
    custody.restore(str(path), backup)
    assert loads_in(path) == [60, 61, 62]
    assert faults_of(path) == []


# What somebody or something may do to a log, and what the check must then say.
DAMAGE = {
    "a set without its session": "UPDATE sets SET session_id = 'nowhere' WHERE rowid = 1",
    "a load that is no number": "UPDATE sets SET load = '6O' WHERE rowid = 1",
    "a load that nobody lifts": "UPDATE sets SET load = '6000' WHERE rowid = 1",
    "a load below zero": "UPDATE sets SET load = '-60' WHERE rowid = 1",
    "a moment that is none": "UPDATE sets SET logged_at = 'soon' WHERE rowid = 1",
    "a day that is none": "UPDATE sessions SET day = '2026-02-31'",
    "a day to come": "UPDATE sessions SET day = '2099-01-01'",
    "reserve that can't be": "UPDATE sets SET rir = '2.3' WHERE rowid = 1",
    "a member without a name": "UPDATE members SET name = ''",
    "a lost origin": "UPDATE sets SET origin = 'x' WHERE rowid = 1",
    "half a former state": "UPDATE changes SET after = '{\"id\":' WHERE number = 1",
    "an unknown kind of record": "UPDATE changes SET record = 'recipes' WHERE number = 1",
    "a table of somebody else": "CREATE TABLE recipes (name TEXT)",
    "a table that is gone": "DROP TABLE rest_days",
    "an index that is gone": "DROP INDEX ix_sets_lift_id",
    "a column too many": "ALTER TABLE sets ADD COLUMN mood TEXT",
    "a column that is gone": "ALTER TABLE sessions DROP COLUMN rated_at",
}  # fmt: skip


@pytest.mark.parametrize("damage", DAMAGE)
def test_the_check_finds_what_was_damaged(kept, damage):
    path, _ = kept
    assert check_log(str(path)).ok
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA ignore_check_constraints=ON")
        connection.execute(DAMAGE[damage])
        connection.commit()
    report = check_log(str(path))
    assert not report.ok, "no error found, the checker is broken"
    assert all(report.problems)


def test_a_check_of_flipped_bits_ends_in_a_report_or_in_words(kept, tmp_path):
    path, _ = kept
    chance = random.Random(SEED)
    good, found = path.read_bytes(), 0
    for number in range(15):
        content = bytearray(good)
        for _ in range(chance.choice((50, 500))):
            content[chance.randrange(len(content))] ^= 1 << chance.randrange(8)
        damaged = tmp_path / f"flipped-{number}.db"
        damaged.write_bytes(content)
        try:
            found += not check_log(str(damaged)).ok
        except TidemarkError as err:
            found += bool(err.mend)
    assert found >= 8, "no error found, the checker is broken"
