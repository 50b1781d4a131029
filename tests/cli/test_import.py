"""`tidemark import` and `export`; and the door of files and options: bad input is one message, and nothing is written."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.stores import digest

HEADING = "member,date,lift,load,unit,reps,rir,outcome,kind,order,body_mass,note"
GOOD = "Ana,2026-03-02,front squat,92.5,kg,3,1.5,done,work,1,,fine"
ROWS = f"{HEADING}\n{GOOD}\nAna,2026-03-09,front squat,95,kg,3,1,done,work,1,,\n"


@pytest.fixture
def file(tmp_path):
    def write(content: str = ROWS, name: str = "sets.csv"):
        path = tmp_path / name
        path.write_bytes(content.encode())
        return path

    return write


@pytest.fixture
def database(fresh):
    return fresh()


def test_import_and_export(tidemark, file, database, tmp_path):
    answer = tidemark("import", file(), "--database", database, "--json").json
    assert answer == {
        "file": "sets.csv", "rows": 2, "added": 2, "known": 0, "members": ["Ana"], "lifts": ["front squat"], "places": [],
    }  # fmt: skip
    assert tidemark("import", file(), "--database", database, "--json").json["added"] == 0
    done = tidemark("export", "--out", tmp_path / "out", "--database", database, "--json").json
    assert done["files"]["sets.csv"] == 2
    assert (
        (tmp_path / "out" / "sets.csv")
        .read_text()
        .splitlines()[1]
        .startswith("Ana,2026-03-02,front squat,92.5,kg,,3,1.5,")
    )


def test_the_answer_in_words(tidemark, file, database, tmp_path):
    said = tidemark("import", file(), "--database", database).out
    assert "2 sets read, 2 added, 0 known already" in said
    assert "New members: Ana" in said
    assert "2 sets" in tidemark("export", "--out", tmp_path / "out", "--database", database).out


def test_the_variable_names_the_log_too(tidemark, file, database, monkeypatch):
    monkeypatch.setenv("TIDEMARK_DATABASE", str(database))
    assert tidemark("import", file(), "--json").json["added"] == 2
    monkeypatch.setenv("TIDEMARK_DATABASE", database if "://" in database else f"sqlite:///{database}")
    assert tidemark("import", file(), "--json").json["known"] == 2


def test_rows_that_name_nobody(tidemark, file, database):
    nameless = file(ROWS.replace("member,", "", 1).replace("Ana,", ""))
    assert tidemark("import", nameless, "--database", database, "--member", "Cem", "--json").json["members"] == ["Cem"]
    assert tidemark("import", nameless, "--database", database, "--json").json["members"] == ["me"]


def test_a_heading_and_no_rows_is_fine(tidemark, file, database):
    before = digest(database)
    assert tidemark("import", file(f"{HEADING}\n"), "--database", database, "--json").json["rows"] == 0
    assert digest(database) == before


def test_what_was_imported_can_be_asked_for(tidemark, file, database):
    tidemark("import", file(), "--database", database)
    of_log = tidemark("estimate", "--database", database, "--member", "Ana", "--lift", "front squat", "--json").json
    of_file = tidemark("estimate", "--sets", file(), "--json").json
    assert of_log == of_file
    weights = ("weights", "--reference", "3RM=95kg", "--wave", "2x3@80", "--member", "Ana", "--lift", "front squat")
    sets = tidemark(*weights, "--database", database, "--json").json["sets"]
    assert all(0.5 < each["chance"] <= 1 for each in sets)


def test_percentages_of_the_rep_max_that_the_log_knows(tidemark, refused, file, database):
    tidemark("import", file(ROWS + "Ana,2026-03-16,front squat,97.5,kg,3,,done,test,1,,\n"), "--database", database)
    asked = (
        "weights",
        "--wave",
        "1x3@80",
        "--member",
        "Ana",
        "--lift",
        "front squat",
        "--database",
        database,
        "--json",
    )
    tested = tidemark(*asked, "--reference", "3RM").json
    assert tested["reference"] == {"reps": 3, "load": 97.5, "unit": "kg", "source": "tested"}
    assert tested["sets"][0]["target"] == 78
    estimated = tidemark(*asked, "--reference", "5 rm").json["reference"]
    assert estimated["source"] == "estimated"
    assert 70 < estimated["load"] < 97.5  # months without training lower it
    assert "estimated" in tidemark(*asked[:-1], "--reference", "5RM").out
    assert "no 20RM" in refused(*asked, "--reference", "20RM")
    assert "--reference" in refused("weights", "--wave", "1x3@80", "--reference", "3RM")


AHEAD = "the day after tomorrow"
BAD_CELLS = [
    ("date", "2026-02-30"), ("date", "yesterday"), ("date", AHEAD), ("date", "1026-03-02"), ("date", ""),
    ("lift", ""), ("load", "-92.5"), ("load", "0"), ("load", "nan"), ("load", "inf"), ("load", "-inf"), ("load", "1e400"),
    ("load", "1000.5"), ("load", "9" * 40), ("load", "ninety"), ("load", ""), ("unit", "stone"), ("unit", ""), ("reps", "-3"),
    ("reps", "2.5"), ("reps", "10000"), ("reps", "1e3"), ("reps", "nan"), ("reps", "0"), ("reps", ""), ("rir", "-1"), ("rir", "0.3"),
    ("rir", "inf"), ("outcome", "gave up"), ("kind", "max"), ("order", "-1"), ("body_mass", "NaN"), ("body_mass", "1"),
]  # fmt: skip


@pytest.mark.parametrize(("column", "value"), BAD_CELLS)
def test_one_bad_row_refuses_the_whole_file_and_nothing_is_written(tidemark, refused, file, database, column, value):
    tidemark("import", file(), "--database", database)
    before = digest(database)
    names, cells = HEADING.split(","), GOOD.replace("92.5", "90").split(",")
    cells[names.index(column)] = (this_day() + timedelta(days=2)).isoformat() if value == AHEAD else value
    path = file(f"{HEADING}\n{GOOD.replace('92.5', '88')}\n{','.join(cells)}\n", "bad.csv")
    for command in (("import", path), ("estimate", "--sets", path)):
        said = refused(*command, "--database", database, "--json")
        assert f"bad.csv, line 3, column {names.index(column) + 1} ({column.replace('_', ' ')})" in said
        assert said.startswith("tidemark: ")
        assert said.count("line ") == 1
    assert digest(database) == before


BAD_FILES = {
    "empty": b"", "no heading": GOOD.encode(), "a missing column": b"date,lift,load,reps\n2026-03-02,row,50,5\n",
    "semicolons": b"date;lift;load;unit;reps\n", "another encoding": ROWS.replace("Ana", "Zo\xeb").encode("latin-1"),
    "UTF-16": ROWS.encode("utf-16"), "a control character": ROWS.replace("fine", "f\x00").encode(), "a picture": b"\x89PNG\r\n\x1a\n\x00",
    "an open quote": ROWS.replace("fine", '"fine').encode(), "too many cells": f"{ROWS}{GOOD},\n".encode(), "a column twice": f"date,{ROWS}".encode(),
}  # fmt: skip


@pytest.mark.parametrize("what", BAD_FILES)
def test_a_bad_file_is_refused_and_nothing_is_written(refused, tmp_path, database, what):
    before = digest(database)
    path = tmp_path / "bad.csv"
    path.write_bytes(BAD_FILES[what])
    assert "bad.csv, line" in refused("import", path, "--database", database)
    assert digest(database) == before


@pytest.mark.parametrize(
    "arguments",
    [
        ("import",), ("import", "none.csv"), ("import", "."), ("import", "{file}", "--member", " "), ("import", "{file}", "--member", "a\x1bb"), ("import", "{file}", "--nonsense"),
        ("import", "{file}", "{file}"), ("export",), ("export", "--out", "{file}"), ("export", "--out", "/proc/nowhere"),
        ("import", "{file}", "--database", "mysql://x/y"),
        pytest.param(("import", "{file}", "--database", "{file}"), marks=pytest.mark.sqlite("are about SQLite's file")),
    ],
)  # fmt: skip
def test_options_that_can_not_be_write_nothing(refused, file, database, monkeypatch, arguments):
    monkeypatch.setenv("TIDEMARK_DATABASE", str(database))
    path = file()
    before = digest(database), digest(path)
    assert refused(*(each.format(file=path) for each in arguments))
    assert (digest(database), digest(str(path))) == before


def test_a_refused_import_makes_no_log(refused, tmp_path, file):
    refused("import", file("nothing\n"), "--database", tmp_path / "new" / "log.db")
    assert not (tmp_path / "new").exists()
