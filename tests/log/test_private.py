"""What is made beside a log is for its account alone, what is wider is told, and what a killed restore or copy left goes."""

import os
import signal
import stat
import subprocess
import sys
from contextlib import closing
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tracker.cli import run
from tracker.desk.base import backups
from tracker.desk.base.opening import read_by_others
from tracker.desk.day import log_set
from tracker.desk.files import custody, deletion
from tracker.desk.files.check import check_log
from tracker.desk.files.export import export
from tracker.desk.people import people
from tracker.log import copies, leftovers
from tracker.log.backups import folder_of
from tracker.log.engine import database_url
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log, OverwrittenError
from tracker.units import Mass

pytestmark = [
    pytest.mark.sqlite("are about SQLite's file"),
    pytest.mark.skipif(os.name == "nt", reason="Windows keeps such rights elsewhere, and opens no folders"),
]
DAY = date(2026, 3, 2)


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


@pytest.fixture(autouse=True)
def _usual_umask():
    former = os.umask(0o022)  # as most systems have it: what is made is read by all
    yield
    os.umask(former)


@pytest.fixture
def home(tmp_path):
    """A log in a folder that is made for it, with a member and a set."""
    with closing(Log(database_url(str(tmp_path / "data" / "log.db")))) as log:
        ana, squat = people.add_member(log, "Ana"), people.add_lift(log, "back squat", "barbell")
        log_set.log_set(log, ana.id, DAY, NewSet(squat.id, Mass(Decimal(80), "kg"), 5))
        yield log


def test_log_copies_and_exports_are_for_this_account_alone(home, tmp_path):
    path = Path(home.name)
    copy = backups.make(home)
    named = custody.backup(home.name, tmp_path / "kept" / "copy.db").file
    export(home, tmp_path / "out")
    custody.restore(home.name, named)
    folders = (path.parent, copy.parent, named.parent, tmp_path / "out")
    assert {mode(folder) for folder in folders} == {0o700}
    files = [file for folder in folders for file in folder.iterdir() if file.is_file()]
    assert len(files) > 20
    assert {file.name: oct(mode(file)) for file in files if mode(file) != 0o600} == {}
    assert read_by_others(home.url) == ""


def test_a_journal_is_as_the_log_is(home):
    with home.act("looks at what lies beside it") as act:
        act.session.connection().exec_driver_sql("UPDATE members SET minor = 1")
        beside = [each for each in Path(home.name).parent.iterdir() if each.name.startswith("log.db-")]
        assert beside
        assert {mode(each) for each in beside} == {0o600}


def test_what_is_wider_is_told_with_its_command_and_left_so(home, capsys):
    path = Path(home.name)
    copy = backups.make(home)
    path.chmod(0o644)
    copy.chmod(0o640)
    copy.parent.chmod(0o755)
    assert run(["check", "--database", home.name]) == 0
    said = capsys.readouterr().err
    assert said.count("Other accounts") == 1
    assert f"chmod go= {path} {copy.parent} {copy}" in said
    assert (mode(path), mode(copy), mode(copy.parent)) == (0o644, 0o640, 0o755)
    report = check_log(home.name)
    assert report.ok
    subprocess.run(report.others.rpartition(": ")[2], shell=True, check=True)
    assert read_by_others(home.url) == ""


def test_a_log_that_a_group_shares_is_shared_after_a_restore(home):
    Path(home.name).chmod(0o660)
    copy = custody.backup(home.name).file
    custody.restore(home.name, copy)
    assert mode(Path(home.name)) == 0o660


KILLED = """
import os, signal, sys
from pathlib import Path
from tracker.desk.files import custody
from tracker.log import copies
custody.put_in_place = lambda new, target: os.kill(os.getpid(), signal.SIGKILL)
custody.restore(sys.argv[1], Path(sys.argv[2]))
"""


def killed(log: Log, copy: Path) -> Path:
    """Restore, killed just before the copy takes its place; return what is left."""
    done = subprocess.run([sys.executable, "-c", KILLED, log.name, str(copy)], check=False, capture_output=True)
    assert done.returncode == -signal.SIGKILL, done.stderr.decode()[-2000:]
    (left,) = leftovers.of(Path(log.name))
    assert (left / "log.db").stat().st_size
    return left


def test_what_a_killed_restore_left_goes_when_the_log_is_opened(home, tmp_path):
    left = killed(home, custody.backup(home.name, tmp_path / "copy.db").file)
    Log(home.url).close()
    assert not left.exists()


def test_what_a_killed_restore_left_goes_when_a_member_is_deleted(home, tmp_path):
    ana = people.members(home)[0]
    left = killed(home, custody.backup(home.name, tmp_path / "copy.db").file)
    done = deletion.delete_member(home, ana.id, "Ana")
    assert not left.exists()
    assert done.copies == ()
    assert not [
        file for file in Path(home.name).parent.rglob("*") if file.is_file() and ana.id.encode() in file.read_bytes()
    ]


KILLED_COPY = """
import os, signal, sys
from pathlib import Path
from tracker.desk.files import custody
from tracker.log import copies
copies.seal = lambda path: os.kill(os.getpid(), signal.SIGKILL)
custody.backup(sys.argv[1]) if len(sys.argv) == 2 else custody.restore(sys.argv[1], Path(sys.argv[2]))
"""


def killed_copy(log: Log, *restored: Path) -> list[Path]:
    """Copy the log among those that are kept, killed before the copy has its name; return what is left of it."""
    words = [sys.executable, "-c", KILLED_COPY, log.name, *map(str, restored)]
    done = subprocess.run(words, check=False, capture_output=True)
    assert done.returncode == -signal.SIGKILL, done.stderr.decode()[-2000:]
    left = [each for each in folder_of(Path(log.name)).rglob("*") if each.is_file() and each.stat().st_size]
    assert left
    return left


@pytest.mark.parametrize("restoring", [False, True])
def test_what_a_killed_copy_left_goes_when_the_log_is_opened(home, tmp_path, restoring):
    left = killed_copy(home, *([custody.backup(home.name, tmp_path / "copy.db").file] if restoring else []))
    Log(home.url).close()
    assert [each for each in left if each.exists()] == []


@pytest.mark.parametrize("restoring", [False, True])
def test_what_a_killed_copy_left_goes_with_a_member(home, tmp_path, restoring):
    ana = people.members(home)[0]
    killed_copy(home, *([custody.backup(home.name, tmp_path / "copy.db").file] if restoring else []))
    done = deletion.delete_member(home, ana.id, "Ana")
    assert done.copies == ()
    for file in Path(home.name).parent.rglob("*"):
        assert not file.is_file() or ana.id.encode() not in file.read_bytes(), file.name


def test_what_a_copy_of_an_earlier_version_left_goes_and_what_others_named_stays(home):
    kept = backups.make(home).parent
    left = [kept / ".log-20260301-101500Z-asked.db.part", kept / ".log.db.part"]
    others = [kept / ".log-mine.part", kept / ".other-20260301-101500Z-asked.db.part", kept / "log.db.part"]
    for each in (*left, *others):
        each.write_bytes(b"SQLite")
    Log(home.url).close()
    assert [each.name for each in left if each.exists()] == []
    assert [each.name for each in others if not each.exists()] == []


def test_a_copy_that_is_being_made_stays_when_the_log_is_opened(home, monkeypatch):
    whole = copies.seal

    def opened_meanwhile(path: Path) -> None:
        Log(home.url).close()
        whole(path)

    monkeypatch.setattr(copies, "seal", opened_meanwhile)
    copy = backups.make(home)
    assert [(each.file, each.whole) for each in backups.kept(home)] == [(copy, True)]
    assert [each for each in copy.parent.iterdir() if each != copy] == []


def test_a_restore_that_still_works_keeps_its_folder_and_is_named(home):
    ana, path = people.members(home)[0], Path(home.name)
    with leftovers.working_folder(path) as folder:
        (folder / "log.db").write_bytes(path.read_bytes())
        Log(home.url).close()
        assert folder.exists()
        assert backups.holding(path, ana.id) == (folder / "log.db",)
    assert not folder.exists()


@pytest.mark.parametrize("in_place", [True, False])
def test_a_log_that_another_program_put_back_is_told_at_the_next_touch(home, in_place):
    ana, squat, path = people.members(home)[0], people.lifts(home)[0], Path(home.name)
    before = path.read_bytes()
    log_set.log_set(home, ana.id, DAY, NewSet(squat.id, Mass(Decimal(85), "kg"), 5))
    if in_place:
        path.write_bytes(before)
    else:
        path.with_name("fetched").write_bytes(before)
        path.with_name("fetched").replace(path)
    with pytest.raises(OverwrittenError, match="another program"):
        log_set.log_set(home, ana.id, DAY, NewSet(squat.id, Mass(Decimal(90), "kg"), 5))
    assert path.read_bytes() == before


def test_a_restore_under_an_open_log_is_no_overwriting(home, tmp_path):
    ana, squat = people.members(home)[0], people.lifts(home)[0]
    copy = custody.backup(home.name, tmp_path / "copy.db").file
    for load in (85, 90):
        log_set.log_set(home, ana.id, DAY, NewSet(squat.id, Mass(Decimal(load), "kg"), 5))
    custody.restore(home.name, copy)
    log_set.log_set(home, ana.id, DAY, NewSet(squat.id, Mass(Decimal(95), "kg"), 5))
    assert check_log(home.name).ok
