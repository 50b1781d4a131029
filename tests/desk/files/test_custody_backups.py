"""Copies that are made without being asked for: one a day, in rotation, listed with their check, and honest after a deletion."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
import time_machine

from tracker.desk.base import backups
from tracker.desk.base.opening import open_log
from tracker.desk.files import custody, deletion
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log.backups import folder_of
from tracker.log.engine import database_url
from tracker.log.keeper import Log
from tracker.log.seal import state
from tracker.log.who import Who, acting

pytestmark = pytest.mark.sqlite("are about copies of SQLite's file")
MORNING = datetime(2026, 3, 2, 9, 0, tzinfo=UTC)


@pytest.fixture(autouse=True)
def _not_looked_yet():
    backups._looked.clear()


def file(log: Log) -> Path:
    return Path(log.url.database)


def names(log: Log) -> list[str]:
    return sorted(each.name for each in folder_of(file(log)).glob("*"))


def later(days: float):
    return time_machine.travel(MORNING + timedelta(days=days), tick=False)


def test_a_former_day_is_copied_once_at_the_first_opening_of_the_next(log):
    with later(0):
        people.add_member(log, "Ana")
        assert backups.each_day(log) is None  # all of it is of today
        assert backups.behind(log) is None
    with later(1):
        assert str(backups.behind(log)) == "2026-03-02"
        made = backups.each_day(log)
        assert made is not None
        assert state(made) == "whole"
        assert names(log) == ["log-20260303-090000Z-day.db"]
        assert backups.each_day(log) is None
        backups._looked.clear()  # another process
        assert backups.each_day(log) is None
        people.add_member(log, "Bo")
    with later(2):
        assert backups.each_day(log) is not None
    with later(3):
        assert backups.each_day(log) is None  # nothing was written since
        assert [each.why for each in backups.kept(log)] == ["one a day", "one a day"]


def test_with_sign_in_the_first_of_the_day_makes_it_whoever_it_is(log):
    with later(0):
        ana = people.add_member(log, "Ana")
    with later(1), acting(Who("member", ana.id)):
        assert backups.each_day(log) is not None
        with pytest.raises(TidemarkError):
            backups.kept(log)  # what there is of copies is the owner's to see


def test_a_copy_that_is_not_whole_any_more_covers_nothing(log):
    with later(0):
        people.add_member(log, "Ana")
    with later(1):
        made = backups.each_day(log)
        content = bytearray(made.read_bytes())
        content[-1] ^= 1
        made.write_bytes(content)
        assert [each.whole for each in backups.kept(log)] == [False]
        assert str(backups.behind(log)) == "2026-03-02"
        backups._looked.clear()
        assert backups.each_day(log) not in (None, made)
        assert [each.whole for each in backups.kept(log)] == [True, False]


def test_a_year_of_days_is_thinned_and_neither_the_damaged_nor_the_named_go(log):
    people.add_member(log, "Ana")
    with later(-400):
        damaged = backups.make(log)
        named = backups.make(log).rename(folder_of(file(log)) / "before the meet.db")
    damaged.write_bytes(damaged.read_bytes()[:-1])
    for days in range(-390, 0, 10):
        with later(days):
            backups.make(log, "day")
    found = backups.kept(log)
    assert damaged.exists()
    assert named.exists()
    assert 12 <= len(found) - 1 <= 18
    assert all(each.whole for each in found if each.file != damaged)


def test_a_copy_that_can_not_be_made_stops_nobody_and_is_told_as_missing(log):
    with later(0):
        people.add_member(log, "Ana")
    folder_of(file(log)).write_text("in the way")
    with later(1):
        assert backups.each_day(log) is None
        assert str(backups.behind(log)) == "2026-03-02"
        with pytest.raises(TidemarkError, match="can't be written"):
            backups.make(log)


def test_a_log_that_can_only_be_read_is_not_copied_beside_itself(log):
    with later(0):
        people.add_member(log, "Ana")
    shut = Log(database_url(f"sqlite:///file:{log.url.database}?mode=ro&uri=true"))
    with later(1):
        assert backups.each_day(shut) is None
    shut.close()
    assert names(log) == []


def test_backup_without_a_file_goes_among_the_copies_and_comes_back(log):
    people.add_member(log, "Ana")
    done = custody.backup(log.name)
    assert done.file.parent == folder_of(file(log))
    people.add_member(log, "Bo")
    former = custody.restore(log.name, done.file).former
    assert [each.name for each in people.members(log)] == ["Ana"]
    assert [each.why for each in backups.kept(log)] == ["before a restore", "asked for"]
    custody.restore(log.name, former)  # and the other way
    assert [each.name for each in people.members(log)] == ["Ana", "Bo"]


def test_a_deleted_member_is_in_no_copy_where_the_copies_go_too(log):
    gone = people.add_member(log, "Quillon Vantreight")
    people.add_member(log, "Bo")
    old = [backups.make(log), backups.make(log, "before-restore")]
    named = Path(old[0].parent / "mine.db")
    named.write_bytes(old[0].read_bytes())
    done = deletion.delete_member(log, gone.id, gone.name, with_copies=True)
    assert done.copies == (named,)  # a person gave it its name, so a person deletes it
    assert done.refused == ""
    assert not any(each.exists() for each in old)
    (fresh,) = backups.kept(log)
    assert fresh.whole
    for path in (file(log), fresh.file):
        assert gone.name.encode() not in path.read_bytes()
        assert gone.id.encode() not in path.read_bytes()
    restored = open_log(str(custody.restore(str(named.with_name("new.db")), fresh.file).log))
    assert [each.name for each in people.members(restored)] == ["Bo"]
    restored.close()


def test_copies_stay_and_are_named_where_they_are_to_stay_or_none_can_be_made(log, monkeypatch):
    first, second = people.add_member(log, "Ana"), people.add_member(log, "Bo")
    kept = backups.make(log)
    assert deletion.delete_member(log, first.id, "Ana").copies == (kept,)

    def refuse(*_arguments, **_named):
        raise TidemarkError("There is no room.")

    monkeypatch.setattr("tracker.desk.base.backups.make_backup", refuse)
    done = deletion.delete_member(log, second.id, "Bo", with_copies=True)
    assert done.copies == (kept,)
    assert "no room" in done.refused
    assert kept.exists()
