"""Two hundred bad files, half of them made by chance: each refused in words with its place, and nothing of it taken."""

import random
import re
from datetime import date

import pytest

from tests.exchange import bad, layouts
from tracker.desk.files import foreign
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.exchange.foreign import sets_of
from tracker.exchange.problems import BadFileError

TODAY = date(2026, 11, 25)
FILES = bad.by_hand() + bad.by_chance(100)


def bring(log, content):
    brought = foreign.look_at(log, content, "brought.csv", TODAY)
    foreign.take(log, brought.table, brought.mapping, member="Ana", today=TODAY)


def refusal(log, content):
    with pytest.raises(BadInputError) as refused:
        bring(log, content)
    assert people.members(log) == ()
    assert people.lifts(log) == ()
    with log.reading() as session:
        tables = ("sets", "sessions", "changes", "log_facts")
        rows = [session.connection().exec_driver_sql(f"SELECT count(*) FROM {table}").scalar() for table in tables]
    assert rows == [0, 0, 0, 0]
    return refused.value


def test_there_are_two_hundred_bad_files():
    assert len(FILES) >= 200
    assert len({content for _, content in FILES}) == len(FILES)


@pytest.mark.parametrize("part", range(8))
def test_a_bad_file_is_refused_with_its_place_and_nothing_is_taken(log, part):
    for name, content in FILES[part::8]:
        err = refusal(log, content)
        assert err.what, name
        assert err.mend, name
        assert "brought.csv" in err.where, name
        assert str(err).isprintable() or "\n" in str(err), name


@pytest.mark.parametrize("at", sorted(bad.CELLS))
def test_a_bad_cell_is_told_with_its_line_and_column(log, at):
    column = bad.HEADING.split(",")[at]
    for text in bad.CELLS[at]:
        err = refusal(log, bad.with_cell(at, text))
        assert "line 3" in str(err) or "line 2" in str(err), (text, str(err))
        if isinstance(err, BadFileError) and "control" not in str(err):
            assert {each.line for each in err.problems} == {3}, text
            assert column in err.problems[0].column or "cells" in err.what, (text, err.problems)


def test_a_damaged_cell_is_told_with_its_line_and_column(log):
    for name, content in bad.by_chance(100):
        line, column = map(int, re.findall(r"row (\d+), column (\d)", name)[0])
        err = refusal(log, content)
        assert isinstance(err, BadFileError), name
        assert [(each.line, each.column[:8]) for each in err.problems] == [(line, f"column {column}")], name


@pytest.mark.parametrize("layout", ["comma", "semicolons", "tabs", "workbook"])
def test_any_bytes_end_in_words_and_not_in_a_trace(log, layout):
    chance = random.Random(bad.SEED)
    whole, refused = getattr(layouts, layout)(), 0
    for number in range(60):
        content = bytearray(whole)
        for _ in range(chance.choice((1, 5, 50))):
            content[chance.randrange(len(content))] = chance.randrange(256)
        if number % 3 == 0:
            del content[chance.randrange(len(content)) :]
        try:
            brought = foreign.look_at(log, bytes(content), "brought", TODAY)
            foreign.as_understood(brought.table, brought.mapping, TODAY)
            sets_of(brought.table, brought.mapping, TODAY)
        except BadInputError as err:
            refused += bool(err.mend)
    assert refused > 10


def test_a_file_over_the_limit_is_refused_before_it_is_read(log, monkeypatch):
    monkeypatch.setattr("tracker.exchange.tables.MOST_BYTES", 1000)
    assert "MB" in str(refusal(log, layouts.comma() * 2))


def test_a_workbook_that_unpacks_to_too_much_is_refused(log, monkeypatch):
    monkeypatch.setattr("tracker.exchange.unpacked.MOST_UNPACKED", 1000)
    assert "unpacks" in str(refusal(log, layouts.workbook()))
