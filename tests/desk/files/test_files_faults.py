"""Killed, out of room or held by another: an import or a restore is done whole or not at all, and says so."""

from __future__ import annotations

import hashlib
import os
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing

import pytest

from tests.taking_in import import_sets
from tracker.desk.base.opening import open_log
from tracker.desk.files.check import check_log
from tracker.desk.files.custody import backup, restore

ROWS = 3000
# Runs the command line with one function replaced: `name` is where, `body` what it does; `whole` is the function itself.
CHILD = """
import importlib, os, resource, signal, sys
from tracker.cli import run
module, _, name = {name!r}.rpartition(".")
where = importlib.import_module(module)
whole = getattr(where, name)
def instead(*given, **named):
    {body}
setattr(where, name, instead)
sys.exit(run(sys.argv[1:]))
"""
KILL = "os.kill(os.getpid(), signal.SIGKILL)"
KILL_AFTER = f"whole(*given, **named); {KILL}"
NO_ROOM = "resource.setrlimit(resource.RLIMIT_FSIZE, (400_000, 400_000)); signal.signal(signal.SIGXFSZ, signal.SIG_IGN); return whole(*given, **named)"


def child(name, body, *arguments):
    script = CHILD.format(name=name, body=body)
    return subprocess.run(
        [sys.executable, "-c", script, *map(str, arguments)], capture_output=True, text=True, check=False
    )


def state(path):
    """All sets of a log, whose they are and what its history tells of them, row by row."""
    with closing(sqlite3.connect(path)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        return [
            connection.execute(f"SELECT * FROM {table} ORDER BY 1").fetchall()
            for table in ("sets", "sessions", "members", "lifts", "(SELECT * FROM changes WHERE record <> 'found')")
        ]


@pytest.fixture
def path(tmp_path, empty_log):
    made = shutil.copyfile(empty_log, tmp_path / "log.db")
    (tmp_path / "few.csv").write_text("member,date,lift,load,unit,reps\nAna,2026-03-02,front squat,80,kg,5\n")
    log = open_log(str(made))
    import_sets(log, tmp_path / "few.csv")
    log.close()
    return made


@pytest.fixture
def many(tmp_path):
    rows = [
        f"Ben,20{10 + at // 300:02d}-{at % 12 + 1:02d}-{at % 28 + 1:02d},row,{at % 300 + 1},kg,{at % 9 + 1}"
        for at in range(ROWS)
    ]
    file = tmp_path / "many.csv"
    file.write_text("member,date,lift,load,unit,reps\n" + "\n".join(rows))
    return file


@pytest.mark.parametrize(
    ("where", "body"),
    [
        ("tracker.log.bulk.insert_sessions", KILL_AFTER), ("tracker.log.bulk.insert_sets", KILL),
        ("tracker.log.bulk.insert_sets", KILL_AFTER), ("tracker.log.bulk.note_import", KILL_AFTER),
    ],
)  # fmt: skip
def test_killed_in_the_middle_of_an_import_nothing_of_it_is_there(path, many, where, body):
    before = state(path)
    assert child(where, body, "import", many, "--database", path).returncode == -9
    assert state(path) == before
    assert check_log(str(path)).ok
    log = open_log(str(path))
    assert import_sets(log, many).added == ROWS
    log.close()


def test_no_room_in_the_middle_of_an_import(path, many):
    before = state(path)
    done = child("tracker.log.bulk.insert_sets", NO_ROOM, "import", many, "--database", path, "--json")
    assert (done.returncode, done.stdout) == (2, "")
    assert "Nothing was saved" in done.stderr
    assert "Traceback" not in done.stderr
    assert state(path) == before


def test_two_imports_of_one_file_at_once_are_one(path, many):
    command = [sys.executable, "-m", "tracker", "import", str(many), "--database", str(path), "--json"]
    running = [subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) for _ in range(2)]
    said = [process.communicate() for process in running]
    assert [process.returncode for process in running] == [0, 0], said
    assert len(state(path)[0]) == ROWS + 1


def test_a_held_log_is_told_in_words(path, many, tidemark_in, monkeypatch):
    monkeypatch.setattr("tracker.log.engine.BUSY_TIMEOUT_MS", 50)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        status, said = tidemark_in("import", many, "--database", path)
        other.execute("ROLLBACK")
    assert status == 2
    assert "busy" in said


@pytest.fixture
def tidemark_in(capsys):
    from tracker.cli import run

    def call(*arguments):
        status = run([str(each) for each in arguments])
        return status, capsys.readouterr().err

    return call


@pytest.mark.parametrize(
    ("where", "body"),
    [
        ("tracker.log.copies.unpacked", KILL_AFTER), ("tracker.desk.files.custody.put_in_place", KILL),
        ("tracker.log.copies.to_disk", KILL_AFTER), ("tracker.desk.files.custody.put_in_place", KILL_AFTER),
    ],
)  # fmt: skip
def test_killed_in_the_middle_of_a_restore_there_is_the_old_log_or_the_new_one(path, many, tmp_path, where, body):
    kept = backup(str(path), tmp_path / "kept.db").file
    old = state(path)
    log = open_log(str(path))
    import_sets(log, many)
    log.close()
    new = state(path)
    assert child(where, body, "restore", kept, "--database", path).returncode == -9
    assert state(path) in (old, new)
    assert check_log(str(path)).ok
    assert restore(str(path), kept).sets == 1
    assert state(path) == old


def test_killed_in_the_middle_of_a_backup_the_former_one_is_whole(path, many, tmp_path):
    kept = backup(str(path), tmp_path / "kept.db").file
    before = hashlib.sha256(kept.read_bytes()).digest()
    log = open_log(str(path))
    import_sets(log, many)
    log.close()
    for where in ("tracker.log.copies.copy_log", "tracker.log.copies.seal"):
        assert child(where, KILL_AFTER, "backup", "--out", kept, "--force", "--database", path).returncode == -9
        assert hashlib.sha256(kept.read_bytes()).digest() == before
    assert backup(str(path), kept, force=True).sets == ROWS + 1


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_may_not_be_written_is_told(path, tmp_path, tidemark_in):
    folder = tmp_path / "closed"
    folder.mkdir(mode=0o500)
    status, said = tidemark_in("export", "--out", folder / "out", "--database", path)
    assert status == 2
    assert "can't be written" in said
