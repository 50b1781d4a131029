"""`tidemark backup`, `restore` and `check`, and their statuses."""

from __future__ import annotations

import hashlib
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

ROWS = "member,date,lift,load,unit,reps\nAna,2026-03-02,front squat,80,kg,5\nAna,2026-03-09,front squat,85,kg,5\n"


@pytest.fixture
def database(tidemark, tmp_path, empty_log):
    path = shutil.copyfile(empty_log, tmp_path / "log.db")
    (tmp_path / "sets.csv").write_text(ROWS)
    tidemark("import", tmp_path / "sets.csv", "--database", path)
    return path


def test_backup_damage_restore(tidemark, refused, database, tmp_path):
    kept = tmp_path / "backup.db"
    answer = tidemark("backup", "--out", kept, "--database", database, "--json").json
    assert answer["sets"] == 2
    assert answer["sha256"] == hashlib.sha256(kept.read_bytes()).hexdigest()
    assert "already" in refused("backup", "--out", kept, "--database", database)
    assert tidemark("backup", "--out", kept, "--force", "--database", database).status == 0
    content = bytearray(kept.read_bytes())
    content[-1] ^= 1
    (tmp_path / "bad.db").write_bytes(content)
    before = database.read_bytes()
    assert "damaged" in refused("restore", tmp_path / "bad.db", "--database", database)
    assert database.read_bytes() == before
    answer = tidemark("restore", kept, "--database", database, "--json").json
    assert answer["sets"] == 2
    assert answer["log"] == str(database)
    assert "before-restore" in answer["former"]
    assert tidemark("check", "--database", database, "--json").json["ok"] is True


def test_the_answers_in_words(tidemark, database, tmp_path):
    assert "2 sets" in tidemark("backup", "--out", tmp_path / "b.db", "--database", database).out
    assert "former log is kept" in tidemark("restore", tmp_path / "b.db", "--database", database).out
    assert "in order. 2 sets" in tidemark("check", "--database", database).out


def test_a_backup_without_a_file_is_kept_listed_and_restored(tidemark, database):
    assert tidemark("backup", "--list", "--database", database, "--json").json == []
    made = tidemark("backup", "--database", database, "--json").json
    (listed,) = tidemark("backup", "--list", "--database", database, "--json").json
    assert (listed["file"], listed["bytes"], listed["whole"]) == (made["file"], made["bytes"], True)
    with Path(made["file"]).open("r+b") as file:
        file.truncate(made["bytes"] - 1)
    assert "NOT as it was made" in tidemark("backup", "--list", "--database", database).out


def test_check_of_a_log_in_order_and_of_a_new_one(tidemark, database, tmp_path):
    answer = tidemark("check", "--database", database, "--json").json
    assert (answer["ok"], answer["sets"], answer["problems"]) == (True, 2, [])
    answer = tidemark("check", "--database", tmp_path / "new.db", "--json").json
    assert (answer["ok"], answer["sets"]) == (True, 0)


def test_check_of_a_log_that_is_not_in_order_has_status_2_and_both_tellings(tidemark, database):
    with closing(sqlite3.connect(database)) as connection, connection:
        connection.execute("UPDATE sets SET load = 'nan' WHERE load = '80'")
    answer = tidemark("check", "--database", database, "--json")
    assert answer.status == 2
    assert answer.json["ok"] is False
    assert "not a number" in answer.json["problems"][0]
    assert "not in order" in answer.err


def test_check_of_a_damaged_file(tidemark, database):
    content = bytearray(database.read_bytes())
    content[4096 * 2 : 4096 * 30] = b"\xff" * 4096 * 28
    database.write_bytes(content)
    answer = tidemark("check", "--database", database, "--json")
    assert answer.status == 2
    assert answer.json["ok"] is False


@pytest.mark.parametrize(
    "command", [("check",), ("export", "--out", "out"), ("estimate",), ("backup", "--out", "b.db")]
)
def test_what_is_no_log_is_refused_and_left_as_it_is(refused, tmp_path, monkeypatch, command):
    monkeypatch.chdir(tmp_path)
    other = tmp_path / "notes.txt"
    other.write_text("recipes and notes\n" * 50)
    before = other.read_bytes()
    assert "not a Tidemark log" in refused(*command, "--database", other)
    assert other.read_bytes() == before


@pytest.mark.parametrize(
    "arguments",
    [
        ("backup", "--force"), ("backup", "--list", "--out", "b.db"), ("restore",), ("restore", "none.db"),
        ("backup", "--out", "."), ("check", "extra"),
    ],
)  # fmt: skip
def test_bad_usage(refused, database, arguments):
    assert refused(*arguments, *(() if arguments[0] == "check" else ("--database", database)))
