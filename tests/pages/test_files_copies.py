"""The page Files: copies with their check, made and put back; long work with its bar, stopped whole, and never cut off by a touch."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

import tracker
from tests.exchange import layouts
from tests.pages.conftest import Open, words
from tests.pages.test_files import bring, button, sets_in
from tracker.components.frame import long_work
from tracker.desk.base import backups
from tracker.desk.files.export import export
from tracker.desk.people import people
from tracker.log import chain
from tracker.log.unit_of_work import Log
from tracker.progress import tell

pytestmark = pytest.mark.sqlite("are about copies of SQLite's file, or hold a page in the middle of an act")


def copies(log: Log, show: Open) -> AppTest:
    return show(log, "files", part="backup")


def listed(at: AppTest) -> list[dict[str, str]]:
    return at.table[0].value.to_dict("records") if at.table else []


def test_a_copy_is_made_listed_with_its_check_and_put_back(log: Log, show: Open, ana):
    at = copies(log, show)
    assert listed(at) == []
    assert "by itself on every day of use" in words(at)
    at = button(at, "Back up now").click().run()
    assert "Backed up and checked" in words(at)
    (row,) = listed(at)
    assert (row["Why"], row["Check"]) == ("asked for", "whole")
    assert row["Size"].endswith(" MB")
    people.add_member(log, "Bo")
    at = button(at, "Restore this backup").click().run()
    assert not at.exception
    assert "Restored: 0 sets. What was in it is kept as the newest backup." in words(at)
    assert [each.name for each in people.members(log)] == ["Ana"]
    assert [each["Why"] for each in listed(at)] == ["before a restore", "asked for"]
    at = at.selectbox(key="copies_which").select_index(0).run()  # what was there before
    at = button(at, "Restore this backup").click().run()
    assert [each.name for each in people.members(log)] == ["Ana", "Bo"]


def test_the_first_page_of_a_day_copies_what_former_days_hold(log: Log, show: Open, ana):
    backups._looked.clear()
    show(log, "journal")
    assert backups.kept(log) == ()  # all of it is of today
    with log.engine.begin() as connection:
        connection.exec_driver_sql("UPDATE changes SET at = '2026-03-02 10:00:00.000000'")
        chain.seal_anew(connection)
    backups._looked.clear()  # as on another day
    show(log, "journal")
    assert [each.why for each in backups.kept(log)] == ["one a day"]


def test_a_member_goes_with_the_copies_unless_they_are_to_stay(log: Log, show: Open, ana):
    people.add_member(log, "Bo")
    backups.make(log)
    at = show(log, "files", ana.id, part="delete")
    (toggle,) = [each for each in at.toggle if each.label == "The copy beside the log too"]
    assert toggle.value
    at.text_input(key=f"farewell_{ana.id}_name").set_value("Ana")
    at = button(at, "Delete for good").click().run()
    assert not at.exception
    (fresh,) = backups.kept(log)
    assert ana.id.encode() not in fresh.file.read_bytes()
    assert not at.warning


def test_a_damaged_copy_is_told_and_not_offered(log: Log, show: Open, ana):
    made = backups.make(log)
    made.write_bytes(made.read_bytes()[:-1])
    at = copies(log, show)
    assert [each["Check"] for each in listed(at)] == ["NOT as it was made"]
    assert not [each for each in at.selectbox if each.label == "Copy"]


def test_a_log_json_is_put_back_from_elsewhere_and_a_file_that_is_none_is_refused(
    log: Log, show: Open, ana, tmp_path: Path
):
    document = (export(log, tmp_path / "out").folder / "log.json").read_bytes()
    people.add_member(log, "Bo")
    at = copies(log, show)
    at = at.file_uploader(key="copies_file").upload("log.json", document[:-9]).run()
    at = button(at, "Restore this file").click().run()
    assert "no JSON" in words(at)
    assert len(people.members(log)) == 2
    at = at.file_uploader(key="copies_file").upload("log.json", document).run()
    at = button(at, "Restore this file").click().run()
    assert [each.name for each in people.members(log)] == ["Ana"]


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[..., None]]:
    """Hold the next import in the middle of its transaction, with rows written; call what is given to let it go on."""
    from tracker.log import bulk

    whole, go, at_it = bulk.insert_sets, threading.Event(), threading.Event()

    def waiting(act, rows):
        whole(act, rows)
        at_it.set()
        assert go.wait(60)
        tell("writing", 12, 24)

    monkeypatch.setattr(bulk, "insert_sets", waiting)
    monkeypatch.setattr(long_work, "QUICK_S", 0.0)

    def release(*, only_wait: bool = False) -> None:
        assert at_it.wait(60)
        if only_wait:
            return
        go.set()
        for each in threading.enumerate():
            if each.name.startswith("tidemark"):
                each.join(60)

    yield release
    go.set()


def begun(log: Log, show: Open) -> AppTest:
    at = bring(show(log, "files"), layouts.semicolons(), "brought.csv")
    return button(at, "Import 24 rows").click().run()


def test_long_work_shows_a_bar_and_is_stopped_with_nothing_left(log: Log, show: Open, ana, held):
    at = begun(log, show)
    assert len(at.get("progress")) == 1
    assert not [each for each in at.button if each.label.startswith("Import ")]
    held(only_wait=True)  # rows are written, and not yet for good
    at = button(at, "Stop").click().run()
    held()
    at = at.run()
    assert not at.exception
    assert "Stopped. Nothing was changed." in words(at)
    assert sets_in(log, ana.id) == []
    assert people.lifts(log) == ()
    assert len(at.get("file_uploader")) == 1  # and it can be begun again


def test_a_touch_elsewhere_does_not_cut_it_off(log: Log, show: Open, ana, held):
    at = begun(log, show)
    at.switch_page(str(tracker.asset_folder("pages") / "journal.py"))
    at = at.run()
    assert not at.exception
    assert sets_in(log, ana.id) == []  # not yet
    held()
    assert len(sets_in(log, ana.id)) == 24
    at.switch_page(str(tracker.asset_folder("pages") / "files.py"))
    at = at.run()
    assert "Taken: 24 sets" in words(at)
