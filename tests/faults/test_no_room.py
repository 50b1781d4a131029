"""No room: a full disk and a limit on files, while sets are logged, a log is made, and a log is brought up to date."""

import shutil
import sqlite3
from contextlib import closing
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from sqlalchemy import event

from tests.faults.children import just_open, log_many, with_small_files
from tests.faults.whole import faults_of, faults_of_file
from tests.undoing import newest_act
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log.engine import database_url
from tracker.log.sets import NewSet, sets_of
from tracker.log.unit_of_work import Log
from tracker.units import Mass

DAY = date(2026, 3, 2)
FROZEN = Path(__file__).parents[1] / "log" / "schema_0001.db"


def heavy_note(squat, number=0):
    return NewSet(squat.id, Mass(Decimal(80 + number), "kg"), 5, note="long " * 350)


def how_many(path):
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute("SELECT count(*) FROM sets").fetchone()[0]


def log_until_full(log, ana, squat):
    """Log sets until one is refused; return how many were said to be saved, and the refusal."""
    for number in range(100):
        try:
            log_set.log_set(log, ana.id, DAY, heavy_note(squat, number % 10))
        except TidemarkError as err:
            return number, err
    raise AssertionError("there was room for all")


def test_a_full_file_refuses_the_set_whole_and_takes_it_once_there_is_room(log, ana, squat):
    limits = {"pages": 0}
    path = Path(log.url.database)

    @event.listens_for(log.engine, "begin")
    def limit(connection):
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
        connection.exec_driver_sql(f"PRAGMA max_page_count={limits['pages'] or pages + 12}")
        limits["pages"] = limits["pages"] or pages + 12

    saved, refusal = log_until_full(log, ana, squat)
    assert saved > 1
    assert "The disk is full. Nothing was saved." in str(refusal)
    assert refusal.mend
    assert how_many(path) == saved
    assert faults_of(path) == []
    assert len(newest_act(log, ana.id).words) > 0  # reading goes on
    limits["pages"] += 100
    log_set.log_set(log, ana.id, DAY, heavy_note(squat))
    assert how_many(path) == saved + 1


def test_a_full_disk_refuses_the_set_whole_and_takes_it_once_there_is_room(small_disk):
    filler = small_disk / "filler"
    log = Log(database_url(str(small_disk / "log.db")))
    ana, squat = people.add_member(log, "Ana"), people.add_lift(log, "back squat", "barbell")
    filler.write_bytes(b"x" * (shutil.disk_usage(small_disk).free - 40_000))
    saved, refusal = log_until_full(log, ana, squat)
    assert "Nothing was saved." in str(refusal)
    assert "room" in refusal.mend
    with log.reading() as session:
        assert len(sets_of(session, ana.id)) == saved
    filler.unlink()
    log_set.log_set(log, ana.id, DAY, heavy_note(squat))
    log.close()
    assert faults_of(small_disk / "log.db") == []
    assert how_many(small_disk / "log.db") == saved + 1


def test_a_log_can_not_be_made_on_a_full_disk_and_can_once_there_is_room(small_disk):
    filler = small_disk / "filler"
    filler.write_bytes(b"x" * (shutil.disk_usage(small_disk).free - 30_000))
    with pytest.raises(TidemarkError, match="room"):
        Log(database_url(str(small_disk / "log.db")))
    filler.unlink()
    Log(database_url(str(small_disk / "log.db"))).close()
    assert faults_of(small_disk / "log.db") == []


@pytest.mark.parametrize("free", [10_000, 40_000, 70_000])
def test_an_older_log_on_a_full_disk_stays_as_it_is_and_is_brought_up_once_there_is_room(small_disk, free):
    path = Path(shutil.copy(FROZEN, small_disk / "log.db"))
    before = path.read_bytes()
    filler = small_disk / "filler"
    filler.write_bytes(b"x" * (shutil.disk_usage(small_disk).free - free))
    with pytest.raises(TidemarkError) as refused:
        Log(database_url(str(path)))
    assert "room" in refused.value.mend
    assert path.read_bytes() == before
    assert {each.name for each in small_disk.iterdir()} <= {"filler", "log.db", "log.db.lock"}
    filler.unlink()
    Log(database_url(str(path))).close()
    assert faults_of(path) == []
    assert how_many(path) == how_many(FROZEN)


def test_a_limit_on_files_refuses_the_set_whole(tmp_path, child):
    path, said = tmp_path / "log.db", tmp_path / "said.txt"
    log = Log(database_url(str(path)))
    people.add_member(log, "Ana")
    people.add_lift(log, "back squat", "barbell")
    log.close()
    child(with_small_files, path.stat().st_size + 40_000, str(said), log_many, str(path)).join()
    words = said.read_text()
    assert words.startswith("Disk"), words
    assert "Nothing was saved." in words
    assert 2 < how_many(path) < 50
    assert faults_of(path) == []
    child(log_many, str(path)).join()  # the limit is gone
    assert how_many(path) > 50
    assert faults_of(path) == []


@pytest.mark.parametrize("most_kib", [4, 40, 80, 120, 160, 200])
def test_a_limit_on_files_stops_a_migration_whole(tmp_path, child, most_kib):
    path, said = Path(shutil.copy(FROZEN, tmp_path / "log.db")), tmp_path / "said.txt"
    before = path.read_bytes()
    child(with_small_files, most_kib * 1024, str(said), just_open, str(path)).join()
    words = said.read_text()
    if words != "done":
        assert words.startswith("Disk"), words
        assert path.read_bytes() == before
        assert not list(tmp_path.rglob("*before*"))
    Log(database_url(str(path))).close()
    assert faults_of(path) == []
    assert how_many(path) == how_many(FROZEN)


def test_the_limits_above_do_stop_a_migration(tmp_path, child):
    path, said = Path(shutil.copy(FROZEN, tmp_path / "log.db")), tmp_path / "said.txt"
    child(with_small_files, path.stat().st_size, str(said), just_open, str(path)).join()
    assert said.read_text().startswith("Disk")


def test_an_import_on_a_full_disk_takes_nothing_and_all_once_there_is_room(small_disk):
    from tests.taking_in import import_sets

    rows = [f"2026-03-{1 + at % 28:02d},back squat,{50 + at % 40},kg,5,light" for at in range(300)]
    file = small_disk / "sets.csv"
    file.write_text("\n".join(("date,lift,load,unit,reps,note", *rows)))
    log = Log(database_url(str(small_disk / "log.db")))
    filler = small_disk / "filler"
    filler.write_bytes(b"x" * (shutil.disk_usage(small_disk).free - 60_000))
    with pytest.raises(TidemarkError, match="Nothing was saved"):
        import_sets(log, file, member="Ana", today=DAY.replace(month=12))
    assert people.members(log) == ()
    assert how_many(small_disk / "log.db") == 0
    filler.unlink()
    assert import_sets(log, file, member="Ana", today=DAY.replace(month=12)).added == 300
    log.close()
    assert faults_of_file(small_disk / "log.db") == []
