"""A long act on a terminal says how far it is, and Ctrl-C ends it: nothing is half written, and what is said of it is true."""

from __future__ import annotations

import os
import pty
import random
import select
import shutil
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import pytest

from tests.faults.whole import faults_of_file
from tracker.desk.files import custody
from tracker.desk.files.check import check_log
from tracker.log.backups import folder_of

ROWS = 8_000
SEED = int(os.environ.get("TIDEMARK_SEED", "20261126"))
LONGEST_S = 120


@pytest.fixture(scope="module")
def table(tmp_path_factory) -> Path:
    """A file of our own columns, in which no two sets are the same."""
    path, first = tmp_path_factory.mktemp("many") / "many.csv", date(2020, 1, 1)
    rows = (
        f"Ana,{first + timedelta(days=at // 15)},lift {at % 15},{at % 290 + 10},kg,{at % 9 + 1}" for at in range(ROWS)
    )
    path.write_text("member,date,lift,load,unit,reps\n" + "\n".join(rows) + "\n")
    return path


def stopped(at: str, *arguments: object, after_s: float = 0.0) -> tuple[int, str]:
    """Run a command with a terminal for its messages, press Ctrl-C when it says `at`, and return how it ended."""
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "tracker", *map(str, arguments)]
    process = subprocess.Popen(command, stderr=theirs, stdout=subprocess.PIPE)
    os.close(theirs)
    said, sent, latest = b"", False, time.monotonic() + LONGEST_S
    while time.monotonic() < latest:
        if select.select([ours], [], [], 0.02)[0]:
            try:
                said += os.read(ours, 65_536)
            except OSError:  # the other end was closed
                break
        if not sent and at.encode() in said:
            time.sleep(after_s)
            process.send_signal(signal.SIGINT)
            sent = True
    process.communicate(timeout=LONGEST_S)
    os.close(ours)
    assert sent, f"it never said {at!r}: {said[-300:]!r}"
    return process.returncode, said.decode()


def count(path: Path) -> int:
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute("SELECT count(*) FROM sets").fetchone()[0]


@pytest.mark.parametrize(
    ("step", "foreign"),
    [("reading the file", ()), ("comparing", ()), ("writing", ()), ("reading the table", ("--foreign",))],
)
def test_an_import_is_stopped_whole(tmp_path, empty_log, table, step, foreign):
    path = Path(shutil.copyfile(empty_log, tmp_path / "log.db"))
    wait = random.Random(f"{SEED} {step} {foreign}").random() * 0.1
    status, said = stopped(step, "import", table, *foreign, "--database", path, after_s=wait)
    assert (status, count(path)) in ((130, 0), (0, ROWS))
    assert ("Stopped. Nothing was changed." in said) == (status == 130), said[-400:]
    assert faults_of_file(path) == []
    assert check_log(str(path)).ok


def test_a_restore_is_stopped_with_the_log_as_it_was_or_done(tmp_path, empty_log, table):
    path = Path(shutil.copyfile(empty_log, tmp_path / "log.db"))
    subprocess.run([sys.executable, "-m", "tracker", "import", str(table), "--database", str(path)], check=True)
    backup = custody.backup(str(path), tmp_path / "away" / "backup.db").file
    shutil.copyfile(empty_log, path)
    for step in ("copying", "looking over the copy", "reading every record: sets"):
        before = path.read_bytes()
        status, said = stopped(step, "restore", backup, "--database", path)
        assert status == 130, said[-400:]
        assert "Stopped. Nothing was changed." in said
        assert path.read_bytes() == before
        assert not folder_of(path).exists()
        assert [each.name for each in tmp_path.glob(".restore-*")] == []
    status, said = stopped("putting it in place", "restore", backup, "--database", path)
    if status == 130:  # on a slow machine it was told in the last moment at which it can be stopped
        assert "Stopped. Nothing was changed." in said, said[-400:]
        assert path.read_bytes() == before
        return
    assert status == 0, said[-400:]  # nothing could stop it any more, and it says so
    assert count(path) == ROWS
    assert len(list(folder_of(path).glob("*before-restore*"))) == 1
