"""A roster as people type or copy it: read, or refused with the line and how to mend it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.exchange.problems import BadFileError
from tracker.exchange.roster import RosterRow, read_roster


def read(text):
    return read_roster(text).rows


def test_a_table_copied_from_a_spreadsheet():
    text = "Name\tUnit\tPlace\tGroup\nAna Quay\tkg\tHarbour Hall\tEarly\nBo\tlbs\t\tEarly; Barbell\n\nCy\t\t\t\n"
    assert read(text) == (
        RosterRow(2, "Ana Quay", "kg", "Harbour Hall", ("Early",)),
        RosterRow(3, "Bo", "lb", "", ("Early", "Barbell")),
        RosterRow(5, "Cy"),
    )


def test_semicolons_and_headings_of_other_languages():
    assert read("Name;Gruppe;Einheit\nJörg;Früh;Kilo") == (RosterRow(2, "Jörg", "kg", "", ("Früh",)),)


def test_names_alone_and_names_with_units_need_no_heading():
    assert [each.name for each in read("Ana\nBo Weir\n")] == ["Ana", "Bo Weir"]
    assert [each.unit for each in read("Ana,pounds\nBo,\nCy,KG")] == ["lb", None, "kg"]


def test_columns_that_are_not_read_are_told():
    roster = read_roster("member,phone,group\nAna,555,Early")
    assert (roster.columns, roster.ignored) == (("name", "group"), ("'phone'",))


def test_all_that_is_wrong_is_told_at_once_with_its_line():
    with pytest.raises(BadFileError) as told:
        read("name,unit,group\nKim B,stone,Early\n,kg,\nkim b,kg,Late\nAna,kg,a\u202eb")
    assert [(each.line, each.column) for each in told.value.problems] == [
        (2, "unit"), (3, "name"), (5, "group"),
    ]  # fmt: skip
    with pytest.raises(BadFileError, match=r"line 3, name: kim b stands in line 2 already\. Add an initial"):
        read("name\nKim B\nkim b")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "nobody in it"), ("\n \n", "nobody in it"), ("name,unit\n", "nobody below it"),
        ("Ana,Early\nBo,Late", "no heading"), ("unit,group\nkg,Early", "no column name"), ("name,name\nA,B", "Two columns"),
        (b"\xff\xfeA\x00", "UTF-16"), ("\n".join(f"m{n}" for n in range(2001)), "2,001 members"),
    ],
)  # fmt: skip
def test_what_is_no_roster_is_refused_with_what_to_do(text, said):
    with pytest.raises(BadInputError, match=said) as told:
        read(text)
    assert told.value.mend


names = st.text(st.characters(categories=("Lu", "Ll", "Nd")), min_size=1, max_size=12)


@given(st.lists(names, min_size=1, max_size=9, unique_by=str.casefold), st.sampled_from("\t;,"))
def test_a_table_gives_back_the_names_that_it_was_written_with(said, sign):
    text = f"group{sign}name\n" + "".join(f"Early{sign}{each}\n" for each in said)
    assert [each.name for each in read(text)] == said


@given(st.text(max_size=200))
def test_whatever_is_pasted_is_read_or_refused(text):
    try:
        rows = read(text)
    except BadInputError:
        return
    assert rows
    assert all(each.name for each in rows)
