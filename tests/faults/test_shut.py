"""A log that can't be written or is held by another program: plain words, and a whole log."""

import multiprocessing
import os
import shutil
import tempfile
import time
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tests.faults.children import add_as_nobody, hold, open_as_nobody
from tests.faults.whole import faults_of
from tracker.desk.day import log_set
from tracker.desk.history import journal
from tracker.errors import TidemarkError
from tracker.log import engine, migrate
from tracker.log.engine import database_url
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass

DAY = date(2026, 3, 2)
FROZEN = Path(__file__).parents[1] / "log" / "schema_0001.db"


def eighty(squat):
    return NewSet(squat.id, Mass(Decimal(80), "kg"), 5)


def read_only(path):
    return database_url(f"sqlite:///file:{path}?mode=ro&uri=true")


def test_a_read_only_log_is_read_and_says_that_it_can_not_be_written(log, ana, squat, tmp_path, monkeypatch):
    log_set.log_set(log, ana.id, DAY, eighty(squat))
    log.close()
    before = Path(log.url.database).read_bytes()
    monkeypatch.chdir(tmp_path)
    shut = Log(read_only(log.url.database))
    assert [len(entry.sets) for entry in journal.sessions(shut, ana.id)] == [1]
    with pytest.raises(TidemarkError, match="can only be read here") as refused:
        log_set.log_set(shut, ana.id, DAY, eighty(squat))
    assert refused.value.mend
    shut.close()
    assert Path(log.url.database).read_bytes() == before
    assert not (tmp_path / "file:").exists()  # an address is no path


def test_a_read_only_log_of_an_older_version_is_left_as_it_is(tmp_path):
    path = Path(shutil.copy(FROZEN, tmp_path / "old.db"))
    with pytest.raises(TidemarkError, match="older version") as refused:
        Log(read_only(path))
    assert "only be read" in str(refused.value)
    assert path.read_bytes() == FROZEN.read_bytes()
    assert [each.name for each in tmp_path.iterdir()] == ["old.db"]


def test_a_read_only_log_that_is_not_there_is_told(tmp_path):
    with pytest.raises(TidemarkError, match="can't be opened"):
        Log(read_only(tmp_path / "none.db"))
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(os.name == "nt" or os.geteuid() != 0, reason="only root can become another user")
@pytest.mark.parametrize(("file_mode", "folder_mode"), [(0o444, 0o777), (0o666, 0o555), (0o444, 0o555)])
def test_another_user_without_rights_is_told_and_can_read(log, ana, child, file_mode, folder_mode):
    log.close()
    folder = Path(tempfile.gettempdir()) / f"tidemark-shut-{os.getpid()}"  # not in a folder that only we may enter
    folder.mkdir()
    try:
        path = Path(shutil.copy(log.url.database, folder / "log.db"))
        path.chmod(file_mode)
        folder.chmod(folder_mode)
        here, there = multiprocessing.Pipe()
        child(add_as_nobody, log.url.database, str(path), there).join()
        assert here.recv() == ["Ana"]
        assert here.recv().startswith("ReadOnlyLogError")
        assert faults_of(path) == []
    finally:
        shutil.rmtree(folder)


@pytest.mark.skipif(os.name == "nt" or os.geteuid() != 0, reason="only root can become another user")
@pytest.mark.parametrize("older", [False, True])
def test_where_nothing_can_be_read_nobody_is_told_that_it_can(child, older):
    """A folder that may not be written to, without a log or with one that has to be brought up to date first."""
    folder = Path(tempfile.gettempdir()) / f"tidemark-bare-{os.getpid()}"
    folder.mkdir()
    try:
        path = folder / "log.db"
        if older:
            shutil.copy(FROZEN, path)
        folder.chmod(0o555)
        here, there = multiprocessing.Pipe()
        child(open_as_nobody, str(path), there).join()
        told = here.recv()
        assert told.partition(":")[0] == ("OlderLogError" if older else "LogUnreachableError")
        assert ("can't be updated" if older else "The log can't be opened") in told
        assert "looked at" not in told
    finally:
        shutil.rmtree(folder)


def test_a_lock_held_too_long_is_told_and_the_set_is_taken_afterwards(log, ana, squat, tmp_path, child, monkeypatch):
    path = Path(log.url.database)
    held, released = tmp_path / "held", tmp_path / "released"
    holder = child(hold, str(path), str(held), str(released))
    while not held.exists():
        time.sleep(0.01)
    monkeypatch.setattr(engine, "BUSY_TIMEOUT_MS", 100)
    impatient_url = database_url(str(path))
    with pytest.raises(TidemarkError, match=r"busy: another program has held it for over 0\.1 seconds") as refused:
        Log(impatient_url)  # opening is told as well
    assert refused.value.mend.startswith("Try again")
    released.touch()
    holder.join()
    impatient = Log(impatient_url)
    held.unlink()
    released.unlink()
    holder = child(hold, str(path), str(held), str(released))
    while not held.exists():
        time.sleep(0.01)
    with pytest.raises(TidemarkError, match="busy"):
        log_set.log_set(impatient, ana.id, DAY, eighty(squat))
    released.touch()
    holder.join()
    log_set.log_set(impatient, ana.id, DAY, eighty(squat))
    impatient.close()
    assert faults_of(path) == []


def test_a_process_that_hangs_in_its_migration_is_told(tmp_path, monkeypatch):
    import fcntl

    path = Path(shutil.copy(FROZEN, tmp_path / "log.db"))
    monkeypatch.setattr(migrate, "LONGEST_WAIT_S", 0.1)
    with Path(f"{path}.lock").open("w") as handle:
        fcntl.flock(handle, fcntl.LOCK_EX)
        with pytest.raises(TidemarkError, match="busy"):
            Log(database_url(str(path)))
    assert path.read_bytes() == FROZEN.read_bytes()
    Log(database_url(str(path))).close()
