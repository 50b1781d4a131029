"""A file of sets: what is taken, and how every bad row is told with its line and column."""

from __future__ import annotations

import gc
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.exchange.cells import harmless, unharmed
from tracker.exchange.problems import BadFileError
from tracker.exchange.sets_csv import read_sets, read_sets_text

TODAY = date(2026, 11, 20)
HEADING = "date,lift,load,unit,reps,rir,outcome,kind,order,member,body_mass,note"
GOOD = "2026-03-02,front squat,92.5,kg,3,1.5,done,work,1,Ana,,felt light"


def read(text: str):
    return read_sets_text(text, "sets.csv", today=TODAY)


def refused(text: str) -> str:
    with pytest.raises(BadInputError) as caught:
        read(text)
    return str(caught.value)


def test_every_column_is_read():
    row = read(f"{HEADING}\n{GOOD}\n").rows[0]
    assert (row.line, row.day, row.lift, row.lifted.amount, row.unit) == (
        2,
        date(2026, 3, 2),
        "front squat",
        Decimal("92.5"),
        "kg",
    )
    assert (row.reps, row.rir, row.outcome, row.kind, row.order) == (3, Decimal("1.5"), "done", "work", 1)
    assert (row.member, row.body_mass, row.note) == ("Ana", None, "felt light")


def test_what_is_not_said_has_its_default():
    row = read("date,lift,load,unit,reps\n2026-03-02,row,50,lb,8\n").rows[0]
    assert (row.member, row.rir, row.outcome, row.kind, row.order, row.per_side) == (
        "",
        None,
        "done",
        "work",
        None,
        None,
    )


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_byte_order_mark_and_any_line_ending(tmp_path, ending, mark):
    path = tmp_path / "sets.csv"
    path.write_bytes(mark + f"{HEADING}\n{GOOD}\n\n{GOOD}\n".replace("\n", ending).encode())
    assert [row.line for row in read_sets(path, today=TODAY).rows] == [2, 4]


def test_heading_with_spaces_case_underscores_and_other_columns():
    file = read(" Date , LIFT,Load,unit,Reps,Body Mass,Per_Side,colour\n2026-03-02,dip,10,kg,5,80,yes,blue\n")
    assert file.rows[0].body_mass == 80
    assert file.rows[0].per_side is True
    assert file.ignored == ("'colour'",)


def test_quoted_cells_hold_commas_quotes_and_in_notes_lines():
    row = read(f'{HEADING}\n2026-03-02,"squat, with a ""pause""",80,kg,5,,,,,,,"one\ntwo, three"\n{GOOD}\n').rows
    assert row[0].lift == 'squat, with a "pause"'
    assert row[0].note == "one\ntwo, three"
    assert row[1].line == 4


def test_whole_numbers_may_have_a_point_and_zeros():
    assert read("date,lift,load,unit,reps\n2026-03-02,row,50.0,kg,8.0\n").rows[0].reps == 8


def test_a_heading_and_no_rows_is_an_empty_file():
    assert read(HEADING).rows == ()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "There is no heading"),
        ("\n\n", "There is no heading"),
        (GOOD, "There is no heading"),
        ("date,lift,load,reps\n", "has no column unit"),
        ("date;lift;load;unit;reps\n2026-03-02;row;50;kg;8\n", "not parted by commas"),
        ("date\tlift\tload\tunit\treps\n", "not parted by commas"),
        ("date,lift,load,unit,reps,Reps\n", "there twice"),
        ("date,lift,load,unit,reps,body mass,body_mass\n", "there twice"),
    ],
)
def test_a_heading_that_can_not_be(text, words):
    said = refused(text)
    assert words in said
    assert "line 1" in said


# Column by column: the value, and words of the answer. This is the door of files; options and pages have tables of their own.
BAD = [
    ("date", "2026-02-30", "not in the calendar"), ("date", "30.03.2026", "not a date"), ("date", "2026-3-2", "not a date"),
    ("date", "", "not a date"), ("date", "2026-11-22", "still to come"), ("date", "0001-01-01", "too long ago"),
    ("date", "2026-03-02T10:00", "not a date"), ("date", "٢٠٢٦-٠٣-٠٢", "not a date"),
    ("lift", "", "is empty"), ("lift", "   ", "is empty"), ("lift", "x" * 201, "201 letters"), ("lift", "a\u202eb", "can't be shown"),
    ("load", "-5", "-5 kg can't be"), ("load", "0", "0 kg can't be"), ("load", "nan", "not a number"), ("load", "NaN", "not a number"),
    ("load", "inf", "not a number"), ("load", "-Infinity", "not a number"), ("load", "1e3", "not a number"),
    ("load", "1000.01", "more than anyone"), ("load", "9" * 31, "31 signs"), ("load", "", "not a number"), ("load", "heavy", "not a number"),
    ("load", '"92,5"', "not a number"), ("load", "92.5kg", "not a number"), ("load", "0x10", "not a number"), ("load", "１００", "not a number"),
    ("unit", "", "not a unit"), ("unit", "stone", "not a unit"), ("unit", "g", "not a unit"),
    ("reps", "-1", "not a whole number"), ("reps", "4.5", "not a whole number"), ("reps", "", "not a whole number"), ("reps", "nan", "not a whole number"),
    ("reps", "inf", "not a whole number"), ("reps", "201", "201 repetitions can't be"), ("reps", "9999999999", "not a whole number"), ("reps", "0", "at least one"),
    ("rir", "-1", "can't be"), ("rir", "1.3", "can't be"), ("rir", "nan", "not a number"), ("rir", "101", "can't be"), ("rir", "easy", "not a number"),
    ("outcome", "failed", "not an outcome"), ("kind", "warm-up", "not a kind"), ("order", "first", "not a whole number"), ("order", "1.5", "not a whole number"),
    ("member", "x" * 201, "201 letters"), ("body_mass", "nan", "not a number"), ("body_mass", "-80", "can't be"), ("body_mass", "8000", "can't be"),
    ("lift", '"front\nsquat"', "line break"), ("unit", '"kg\n"', "line break"), ("reps", "3\t", "tab"), ("member", "A\tna", "tab"),
    ("note", "x" * 2001, "2,001 letters"),
]  # fmt: skip


@pytest.mark.parametrize(("column", "value", "words"), BAD)
def test_a_bad_cell_is_told_with_line_and_column(column, value, words):
    names = HEADING.split(",")
    cells = GOOD.split(",")
    cells[names.index(column)] = value
    said = refused(f"{HEADING}\n{GOOD}\n{','.join(cells)}\n")
    assert words in said
    shown = column.replace("_", " ")
    assert f"sets.csv, line 3, column {names.index(column) + 1} ({shown})" in said
    assert said.count(", line ") == 1


def test_more_than_a_thousand_kilograms_in_pounds():
    assert "more than anyone" in refused("date,lift,load,unit,reps\n2026-03-02,row,2204.7,lb,1\n")
    assert read("date,lift,load,unit,reps\n2026-03-02,row,2204.6,lb,1\n").rows


def test_a_day_ahead_is_taken_and_two_are_not():
    assert read("date,lift,load,unit,reps\n2026-11-21,row,50,kg,8\n").rows
    assert "still to come" in refused("date,lift,load,unit,reps\n2026-11-22,row,50,kg,8\n")


@pytest.mark.parametrize(
    ("outcome", "reps", "fine"),
    [("missed", 0, True), ("cut", 0, True), ("done", 0, False), ("", 0, False), ("done", 1, True)],
)
def test_no_repetition_is_a_miss_or_a_set_cut_short(outcome, reps, fine):
    text = f"date,lift,load,unit,reps,outcome\n2026-03-02,row,50,kg,{reps},{outcome}\n"
    if fine:
        assert read(text).rows[0].reps == reps
    else:
        assert "at least one" in refused(text)


@pytest.mark.parametrize(
    ("load", "fine"), [("0", True), ("-30", True), ("-79.9", True), ("-80", False), ("-90", False), ("20", True)]
)
def test_with_a_body_mass_the_load_may_be_zero_or_assist(load, fine):
    text = f"date,lift,load,unit,reps,body_mass\n2026-03-02,pull-up,{load},kg,5,80\n"
    if fine:
        assert read(text).rows[0].lifted.amount == Decimal(load)
    else:
        assert "nothing to lift" in refused(text)


@pytest.mark.parametrize("row", ["2026-03-02,row,50,kg", "2026-03-02,row,50,kg,8,9"])
def test_a_row_with_other_cells_than_the_heading_is_told(row):
    said = refused(f"date,lift,load,unit,reps\n{row}\n")
    assert "cells, the heading has 5" in said
    assert "line 2" in said


def test_rows_of_nothing_are_passed_over():
    assert len(read(f"{HEADING}\n,,,,,,,,,,,\n\n   \n{GOOD}\n").rows) == 1


def test_all_bad_rows_are_told_at_once_in_order():
    bad = "2026-03-02,row,-1,kg,8\n2026-03-02,row,50,kg,8\n2026-13-02,row,50,stone,8\n"
    with pytest.raises(BadFileError) as caught:
        read(f"date,lift,load,unit,reps\n{bad}")
    assert [(each.line, each.column) for each in caught.value.problems] == [
        (2, "column 3 (load)"), (4, "column 1 (date)"), (4, "column 4 (unit)"),
    ]  # fmt: skip
    assert str(caught.value).count("sets.csv, line") == 3


def test_a_mistake_made_many_times_is_told_twenty_times():
    said = refused("date,lift,load,unit,reps\n" + "2026-03-02,row,-1,kg,8\n" * 500)
    assert said.count("line ") == 20
    assert "there are more" in said


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("date,lift,load,unit,reps\n2026-03-02,Zoë,50,kg,8\n".encode("latin-1"), "line 2: The file is not in UTF-8"),
        ("date,lift,load,unit,reps\n".encode("utf-16"), "UTF-16"),
        (b"date,lift,load,unit,reps\n2026-03-02,a\x00b,50,kg,8\n", "line 2, sign 13: There is a control character"),
        (b"date,lift,load,unit,reps\n2026-03-02,a\x1b[31mb,50,kg,8\n", "control character"),
        (b'date,lift,load,unit,reps\n2026-03-02,"row,50,kg,8\n', "can't be split"),
        (b'date,lift,load,unit,reps\n2026-03-02,"row"s,50,kg,8\n', "can't be split"),
        (b"date,lift,load,unit,reps\n2026-03-02," + b"x" * 200_000 + b",50,kg,8\n", "can't be split"),
        (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), "UTF-8"),
        (b"PK\x03\x04" + b"\x00" * 50, "control character"),
    ],
)
def test_a_file_that_is_no_text_is_told(tmp_path, content, words):
    path = tmp_path / "sets.csv"
    path.write_bytes(content)
    with pytest.raises(BadInputError, match=r"sets\.csv") as caught:
        read_sets(path, today=TODAY)
    assert words in str(caught.value)


def test_a_file_that_is_not_there_and_a_folder(tmp_path):
    for path in (tmp_path / "none.csv", tmp_path):
        with pytest.raises(BadInputError, match="can't be read"):
            read_sets(path)


def told(read_it) -> str:
    """What a refused file is told, or the name of one that was taken."""
    try:
        return read_it().name
    except BadInputError as err:
        return str(err)


@given(st.binary(max_size=400))
def test_whatever_the_bytes_are_they_are_read_or_refused_in_words(tmp_path_factory, content):
    path = tmp_path_factory.mktemp("any") / "sets.csv"
    path.write_bytes(b"date,lift,load,unit,reps\n" + content)
    assert "sets.csv" in told(lambda: read_sets(path, today=TODAY))


@given(
    st.lists(
        st.sampled_from(["2026-03-02", "x", "-1", "5", "kg", "", "nan", '"', ",", "\n", "done", "80"]), max_size=40
    )
)
def test_whatever_the_cells_are_they_are_read_or_refused_in_words(parts):
    assert "sets.csv" in told(lambda: read(f"date,lift,load,unit,reps,body_mass\n{','.join(parts)}\n"))


@given(st.text(max_size=30))
def test_a_harmless_text_comes_back_unharmed(text):
    assert unharmed(harmless(text)) == text
    assert not harmless(text).startswith(("=", "+", "-", "@", "\t", "\r"))


@pytest.mark.parametrize("before", ["", "\t", "\r", " \t", "\n", "\u00a0", "\ufeff", "\u200b", "\u3000"])
@pytest.mark.parametrize(
    "sign", "=+-@\uff1d\uff0b\uff0d\uff20\ufe66\ufe62\ufe63\ufe6b\u2212"
)  # U+FF1D and on: full-width, small
def test_no_form_of_a_sign_that_begins_a_formula_stands_first(before, sign):
    text = f"{before}{sign}1+1"
    assert harmless(text) == f"'{text}"
    assert unharmed(harmless(text)) == text


def test_other_texts_stay_as_they_are():
    for text in ("", " ", "front squat", "5", "½", "(=)", "’=", "é", "\u200b"):
        assert harmless(text) == unharmed(text) == text
    assert unharmed("'") == "'" or harmless("'") == "''"


@pytest.mark.parametrize(("load", "unit"), [("0.000000001", "kg"), ("0.04", "kg"), ("0.1", "lb"), ("-0.01", "kg")])
def test_a_load_below_what_anybody_lifts_is_refused(load, unit):
    body = "80" if load.startswith("-") else ""
    with pytest.raises(BadInputError, match="least that is lifted"):
        read(f"date,lift,load,unit,reps,body_mass\n2026-03-02,row,{load},{unit},5,{body}\n")


def test_the_garbage_collector_rests_while_many_rows_are_read():
    text = "date,lift,load,unit,reps\n" + "2026-03-02,front squat,80,kg,5\n" * 20_000
    began: list[int] = []

    def count(phase: str, _: object) -> None:
        if phase == "start":
            began.append(1)

    usual = gc.get_threshold()
    gc.set_threshold(700, 10, 10)  # Python's own, which the program runs with
    gc.callbacks.append(count)
    try:
        assert len(read(text).rows) == 20_000
    finally:
        gc.callbacks.remove(count)
        gc.set_threshold(*usual)
    assert len(began) <= 10  # around the rows, not among them: it would look at all of them again each time
    assert gc.isenabled()
