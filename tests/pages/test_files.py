"""The page Files: a table is brought with every step in sight, everything is taken away, the log is looked over."""

from __future__ import annotations

import io
import sqlite3
import zipfile

import pytest
from streamlit.testing.v1 import AppTest

from tests.exchange import layouts
from tests.pages.conftest import Open, words
from tracker.desk.files import foreign, take_away
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.log import seal
from tracker.log.engine import file_of
from tracker.log.unit_of_work import Log


def to_part(at: AppTest, part: str) -> AppTest:
    at.query_params["part"] = part
    return at.run()


def bring(at: AppTest, content: bytes, name: str) -> AppTest:
    return at.file_uploader(key="bring_file").upload(name, content).run()


def button(at: AppTest, label: str):
    return next(each for each in at.button if each.label.startswith(label))


def sets_in(log: Log, member_id: str):
    return [each for entry in journal.sessions(log, member_id, limit=500) for each in entry.sets]


def test_a_table_is_shown_as_understood_and_taken_in_one_touch(log: Log, show: Open, ana):
    at = bring(show(log, "files"), layouts.semicolons(), "brought.csv")
    assert not at.exception
    assert "24 rows; semicolons, UTF-8." in words(at)
    shown = at.table[0].value
    assert list(shown["Lift"])[:3] == list(layouts.LIFTS)
    assert sets_in(log, ana.id) == []
    at = button(at, "Import 24 rows").click().run()
    assert "Taken: 24 sets; new lifts" in words(at)
    assert len(sets_in(log, ana.id)) == 24


def test_a_unit_that_no_cell_says_is_asked_and_nothing_can_be_taken_before(log: Log, show: Open, ana):
    at = bring(show(log, "files"), layouts.titled(), "brought.csv")
    assert button(at, "Import ").disabled
    at = next(each for each in at.radio if each.label == "The loads are in").set_value("lb").run()
    assert not button(at, "Import ").disabled
    button(at, "Import ").click().run()
    assert {row.load.unit for row in sets_in(log, ana.id)} == {"lb"}


def test_the_order_of_day_and_month_is_asked(log: Log, show: Open, ana):
    content = b"d,l,w kg,r\n03/04/2026,press,40,5\n05/06/2026,press,42.5,5\n07/08/2026,press,45,4\n"
    at = bring(show(log, "files"), content, "brought.csv")
    at = next(each for each in at.radio if each.label == "The dates are written").set_value("mdy").run()
    button(at, "Import 3 rows").click().run()
    assert sorted(str(row.day) for row in sets_in(log, ana.id)) == ["2026-03-04", "2026-05-06", "2026-07-08"]


def test_a_bad_row_is_told_with_line_and_column_and_nothing_is_taken(log: Log, show: Open, ana):
    at = bring(show(log, "files"), layouts.comma() + b"\n1,2026-03-30,press,heavy,5,x", "brought.csv")
    at = button(at, "Import 25 rows").click().run()
    assert "line 26, column 4 (Weight (kg))" in words(at)
    assert sets_in(log, ana.id) == []


def test_a_file_that_is_no_table_is_told(log: Log, show: Open, ana):
    at = bring(show(log, "files"), b"\x00\x01\x02" * 50, "picture.csv")
    assert len(at.error) == 1
    assert not at.exception


def test_another_column_can_be_chosen(log: Log, show: Open, ana):
    at = bring(show(log, "files"), layouts.comma(), "brought.csv")
    note = next(each for each in at.selectbox if each.label == "Note")
    at = note.set_value(5).run()
    assert at.table[0].value["Note"].iloc[0] == "felt ok, 0"


@pytest.mark.sqlite("are about SQLite's file")
def test_everything_is_taken_away_and_the_copy_is_sealed(demo_log: Log, tmp_path):
    with zipfile.ZipFile(io.BytesIO(take_away.everything(demo_log))) as box:
        assert {"sets.csv", "members.csv", "changes.csv"} <= set(box.namelist())
        assert len(box.read("sets.csv").splitlines()) > 2000
    copy = tmp_path / "copy.db"
    copy.write_bytes(take_away.sealed_copy(demo_log))
    assert seal.state(copy) == "whole"
    assert sqlite3.connect(copy).execute("SELECT count(*) FROM sets").fetchone()[0] > 2000


def test_the_page_offers_both_and_checks(log: Log, show: Open, ana):
    at = show(log, "files")
    at = to_part(at, "export")
    of_file = file_of(log.url) is not None  # a server is copied with its own tools, which the page names
    assert [each.proto.label for each in at.get("download_button")] == ["Export everything"]
    at = to_part(at, "backup")
    assert ("Save a backup" in [each.proto.label for each in at.get("download_button")]) is of_file
    assert ("pg_dump" in words(at)) is not of_file
    at = to_part(at, "check")
    at = button(at, "Check the log").click().run()
    assert [each.value for each in at.success] == ["In order: 0 sets of 1 member."]


def test_a_member_is_deleted_only_by_the_typed_name_after_a_last_export_was_offered(log: Log, show: Open, ana):
    people.add_member(log, "Bo")
    at = show(log, "files", ana.id)
    at = to_part(at, "delete")
    assert [each.proto.label for each in at.get("download_button")] == ["Save a last export"]
    at.text_input(key=f"farewell_{ana.id}_name").set_value("Bo")
    at = button(at, "Delete for good").click().run()
    assert "The name typed is not the member's." in words(at)
    assert len(people.members(log)) == 2
    at.text_input(key=f"farewell_{ana.id}_name").set_value("Ana")
    at = button(at, "Delete for good").click().run()
    assert not at.exception
    assert [each.name for each in people.members(log)] == ["Bo"]
    assert "Deleted for good, with 0 sets" in words(at)
    assert "Undo" not in [each.label for each in at.button]


def test_the_last_member_can_be_deleted_and_the_log_begins_anew(log: Log, show: Open, ana):
    at = show(log, "files")
    at = to_part(at, "delete")
    at.text_input(key=f"farewell_{ana.id}_name").set_value("Ana")
    at = button(at, "Delete for good").click().run()
    assert not at.exception
    assert people.members(log) == ()
    assert "Who is training?" in words(at)  # the first of five questions


def test_a_refused_file_is_not_read_again_at_each_touch(log: Log, show: Open, ana, monkeypatch):
    read = []
    real = foreign.read_table
    monkeypatch.setattr(foreign, "read_table", lambda *args, **named: read.append(1) or real(*args, **named))
    at = bring(show(log, "files"), b"no table at all\n", "brought.csv")
    assert "There is no table of sets in the file." in words(at)
    at = at.run().run()
    assert "There is no table of sets in the file." in words(at)
    assert len(read) == 1
