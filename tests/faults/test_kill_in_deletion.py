"""A process that is killed in a deletion or a backup leaves nothing of a member behind, once the log is opened again."""

from datetime import date
from decimal import Decimal

import pytest

from tests.faults.children import back_up_and_die, delete_and_die, write_and_die
from tracker.desk.base import backups
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.files import deletion
from tracker.desk.files.check import check_log
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log.sets import NewSet
from tracker.units import Mass

NAME, NOTE = "Quillon Vantreight", "knee hurt under the rack"
pytestmark = pytest.mark.sqlite("are about SQLite's file and what lies beside it")


@pytest.fixture
def path(quick_folder):
    """A log of two members, with two copies that hold both."""
    path = quick_folder / "log.db"
    log = open_log(str(path))
    squat = people.add_lift(log, "back squat", "barbell")
    for name in (NAME, "Bo"):
        member = people.add_member(log, name)
        log_set.log_set(
            log, member.id, date(2026, 3, 2), NewSet(squat.id, Mass(Decimal(80), "kg"), 5, note=NOTE), sure=True
        )
        backups.make(log)
    log.close()
    return path


def holding(path, *texts):
    files = [each for each in path.parent.rglob("*") if each.is_file()]
    return [each.name for each in files if any(text.encode() in each.read_bytes() for text in texts)]


def killed(process):
    process.join()
    assert process.exitcode == -9


@pytest.mark.parametrize("at", ["rows", "copied", "unlinked"])
def test_copies_of_a_deletion_that_was_killed_go_when_the_log_is_opened_next(path, child, at):
    assert len(holding(path, NAME)) == 3
    killed(child(delete_and_die, str(path), NAME, at))
    assert holding(path, NAME)  # the copies: the rows are gone
    assert path.name not in holding(path, NAME)
    open_log(str(path)).close()
    assert holding(path, NAME) == []
    assert check_log(str(path)).problems == ()
    log = open_log(str(path))
    assert [each.whole for each in backups.kept(log)][:1] == [True]
    assert backups.still_going(log) == ()
    log.close()


def test_copies_that_can_not_go_are_told_by_a_check(path, child, monkeypatch):
    killed(child(delete_and_die, str(path), NAME, "rows"))

    def no_room(*_):
        raise TidemarkError("There is no room.")

    monkeypatch.setattr(backups, "make", no_room)
    report = check_log(str(path))
    assert report.ok
    names = holding(path, NAME)
    assert len(names) == 2
    assert all(name in report.others for name in names), report.others
    monkeypatch.undo()
    assert "deleted member" not in check_log(str(path)).others
    assert holding(path, NAME) == []


def test_a_copy_of_another_log_under_such_a_name_is_left(path, child):
    killed(child(delete_and_die, str(path), NAME, "rows"))
    held = list((path.parent / "log-backups").iterdir())
    for each in held:
        each.write_bytes(b"x" * 4096)
    open_log(str(path)).close()
    assert all(each.read_bytes() == b"x" * 4096 for each in held)


def test_copies_that_were_to_be_kept_are_kept(path):
    log = open_log(str(path))
    (member,) = [each for each in people.members(log) if each.name == NAME]
    deletion.delete_member(log, member.id, NAME)
    log.close()
    open_log(str(path)).close()
    assert len(holding(path, NAME)) == 2


def test_a_backup_elsewhere_that_was_killed_leaves_no_half_made_file(path, child, tmp_path):
    away = tmp_path / "stick"
    away.mkdir()
    killed(child(back_up_and_die, str(path), str(away / "copy.db")))
    assert [each.suffix for each in away.iterdir()] == [".part"]
    assert NAME.encode() in next(away.iterdir()).read_bytes()
    (away / ".mine.part").write_text("a file of somebody")
    open_log(str(path)).close()
    assert [each.name for each in away.iterdir()] == [".mine.part"]
    assert [each.name for each in path.parent.iterdir() if each.name.startswith(".")] == []


def test_a_journal_that_a_kill_left_is_rolled_back_and_holds_no_deleted_member(path, child):
    journal = path.with_name(f"{path.name}-journal")
    log = open_log(str(path))
    (member,) = [each for each in people.members(log) if each.name == NAME]
    log.close()
    killed(child(write_and_die, str(path), member.id))
    assert NAME.encode() in journal.read_bytes()
    log = open_log(str(path))
    assert check_log(str(path)).problems == ()
    deletion.delete_member(log, member.id, NAME, with_copies=True)
    log.close()
    assert holding(path, NAME, NOTE + " ") == []
    assert not journal.exists()
