"""`tidemark import --foreign`: any table, with what it leaves open answered by options, shown before it is taken."""

from __future__ import annotations

import pytest

from tests.exchange import layouts
from tracker.desk.base.opening import open_log
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.log.keeper import Log


@pytest.fixture
def database(fresh):
    return fresh()


def sets_in(log: Log):
    (member,) = people.members(log)
    return [each for entry in journal.sessions(log, member.id, limit=500) for each in entry.sets]


def brought(tmp_path, content: bytes, name: str = "brought.csv"):
    path = tmp_path / name
    path.write_bytes(content)
    return path


def taken(tidemark, database, *arguments):
    answer = tidemark("import", *arguments, "--foreign", "--member", "Ana", "--database", database, "--json")
    assert answer.status == 0, answer.err
    log = open_log(database)
    found = sets_in(log)
    log.close()
    return answer.json, found


@pytest.mark.parametrize(
    ("layout", "answers"),
    [(layouts.semicolons, ()), (layouts.comma, ()), (layouts.titled, ("--unit", "lb"))],
)
def test_tables_of_others_are_taken_and_not_twice(tidemark, database, tmp_path, layout, answers):
    path = brought(tmp_path, layout())
    first, sets = taken(tidemark, database, path, *answers)
    assert first["added"] == first["rows"] == len(sets) > 0
    again, _ = taken(tidemark, database, path, *answers)
    assert again["added"] == 0


def test_what_is_open_is_asked_with_the_option_that_answers_it(refused, tidemark, database, tmp_path):
    path = brought(tmp_path, layouts.titled())
    assert "--unit kg|lb" in refused("import", path, "--foreign", "--database", database)
    dates = brought(
        tmp_path, b"d,l,w kg,r\n03/04/2026,press,40,5\n05/06/2026,press,42.5,5\n07/08/2026,press,45,4\n", "d.csv"
    )
    assert "--dates dmy|mdy" in refused("import", dates, "--foreign", "--database", database)
    _, sets = taken(tidemark, database, dates, "--dates", "mdy")
    assert sorted(str(row.day) for row in sets) == ["2026-03-04", "2026-05-06", "2026-07-08"]


def test_the_preview_takes_nothing_and_says_how_rows_are_understood(tidemark, database, tmp_path):
    path = brought(tmp_path, layouts.comma())
    answer = tidemark("import", path, "--foreign", "--preview", "--database", database, "--json").json
    assert answer["rows"] == 24
    assert answer["open"] == []
    assert answer["first"][0]["lift"] == layouts.LIFTS[0]
    words = tidemark("import", path, "--foreign", "--preview", "--column", "note=", "--database", database).out
    assert "load: column" in words
    assert "note" not in words
    log = open_log(database)
    assert people.members(log) == ()
    log.close()


def test_a_column_is_named_by_its_heading_or_its_number(tidemark, refused, database, tmp_path):
    content = b"when,what,a,b,times\n2026-03-02,press,40,60,5\n2026-03-04,press,42.5,61,5\n2026-03-06,press,45,62,5\n"
    path = brought(tmp_path, content)
    answers = ("--column", "load=3", "--column", "body_mass=B", "--unit", "kg")
    _, sets = taken(tidemark, database, path, *answers, "--column", "reps=times")
    assert sorted(str(row.load) for row in sets) == ["40 kg", "42.5 kg", "45 kg"]
    assert {str(row.body_mass) for row in sets} == {"60 kg", "61 kg", "62 kg"}
    for wrong in ("load=9", "load=weight", "mood=a", "load=0"):
        assert "--column" in refused("import", path, "--foreign", "--column", wrong, "--database", database)


def test_a_bad_row_is_told_by_line_and_column_of_the_file(refused, database, tmp_path):
    path = brought(tmp_path, layouts.comma() + b"\n1,2026-03-30,press,heavy,5,x")
    assert "line 26, column 4 (Weight (kg))" in refused("import", path, "--foreign", "--database", database)


@pytest.mark.parametrize(
    "option", [("--unit", "kg"), ("--column", "load=3"), ("--dates", "dmy"), ("--sheet", "x"), ("--preview",)]
)
def test_answers_without_foreign_are_refused(refused, tmp_path, option):
    assert "--foreign" in refused("import", brought(tmp_path, b"x"), *option)


@pytest.mark.parametrize("content", [b"", b"\x00\x01" * 50, b"PK\x03\x04nothing"])
def test_what_is_no_table_is_refused(refused, database, tmp_path, content):
    assert refused("import", brought(tmp_path, content), "--foreign", "--database", database)
    assert "can't be read" in refused("import", tmp_path / "none.csv", "--foreign", "--database", database)
