"""Tables of other people: understood by what their cells hold, asked about where two readings are possible."""

import io
from datetime import date
from decimal import Decimal

import pytest

from tests.exchange import layouts
from tracker.errors import BadInputError
from tracker.exchange.foreign import NotAnsweredError, first_rows, sets_of
from tracker.exchange.foreign_values import day_in, number_in, orders_of
from tracker.exchange.guess import guess
from tracker.exchange.mapping import Mapping, from_text, layout_of, open_questions, to_text
from tracker.exchange.problems import BadFileError
from tracker.exchange.tables import read_table

TODAY = date(2026, 11, 25)


def kilograms(file):
    return [(row.day, row.lift, row.lifted.amount, row.unit, row.reps) for row in file.rows]


def wanted(unit="kg", times=1):
    return [(day, lift, Decimal(f"{kg * times:g}"), unit, reps) for day, lift, kg, reps in layouts.rows()]


def read(content, name="brought.csv", **answers):
    table = read_table(content, name)
    mapping = guess(table, TODAY)
    for role, value in answers.items():
        mapping = Mapping(mapping.columns, **{"unit": mapping.unit, "date_order": mapping.date_order, role: value})
    return table, mapping


def test_commas_with_a_counter_and_the_unit_in_the_heading():
    table, mapping = read(layouts.comma())
    assert not open_questions(table, mapping, TODAY)
    file = sets_of(table, mapping, TODAY)
    assert kilograms(file) == wanted()
    assert file.ignored == ("Set no", "Remarks")
    assert [row.line for row in file.rows] == list(range(2, 26))


def test_semicolons_decimal_commas_and_a_byte_order_mark():
    table, mapping = read(layouts.semicolons())
    assert table.how == "semicolons, UTF-8"
    assert not open_questions(table, mapping, TODAY)  # days above twelve tell the order
    assert kilograms(sets_of(table, mapping, TODAY)) == wanted()


def test_tabs_in_utf_16_with_the_unit_by_row():
    table, mapping = read(layouts.tabs())
    assert table.how == "tabs, UTF-16"
    assert not open_questions(table, mapping, TODAY)
    expected = [(*row[:3], "lb" if at % 2 else "kg", row[4]) for at, row in enumerate(wanted())]
    assert kilograms(sets_of(table, mapping, TODAY)) == expected


def test_a_title_above_months_by_name_and_a_unit_that_is_asked():
    table, mapping = read(layouts.titled())
    assert open_questions(table, mapping, TODAY).unit
    with pytest.raises(NotAnsweredError, match="kg or lb"):
        sets_of(table, mapping, TODAY)
    mapping = Mapping(mapping.columns, "lb", mapping.date_order)
    assert kilograms(sets_of(table, mapping, TODAY)) == wanted("lb", 2)
    several = mapping.put("equal sets", 2)
    rows = sets_of(table, several, TODAY).rows
    assert len(rows) == 24 + 12
    assert [row.line for row in rows[:4]] == [4, 5, 5, 6]


def test_a_workbook_with_real_dates_on_its_fuller_sheet():
    table, mapping = read(layouts.workbook(), "brought.xlsx")
    assert table.sheets == ("Everything lifted", "About")
    assert not open_questions(table, mapping, TODAY)
    assert kilograms(sets_of(table, mapping, TODAY)) == wanted()


def test_our_own_columns_are_known_by_name_in_any_order_and_in_a_workbook():
    from openpyxl import Workbook

    book = Workbook()
    book.active.append(["note", "reps", "unit", "load", "lift", "date", "rir", "outcome"])
    book.active.append(["=1+1", 5, "kg", 92.5, "back squat", date(2026, 3, 2), 2.5, "missed"])
    into = io.BytesIO()
    book.save(into)
    # A formula without a kept value is an empty cell to whoever reads values.
    (row,) = sets_of(*read(into.getvalue(), "own.xlsx"), TODAY).rows
    assert (row.lifted.amount, row.reps, row.rir, row.outcome, row.note) == (
        Decimal("92.5"),
        5,
        Decimal("2.5"),
        "missed",
        "",
    )


def test_a_date_that_can_be_read_in_two_ways_is_asked():
    content = b"d,l,w,r\n03/04/2026,press,40,5\n05/06/2026,press,42.5,5\n07/08/2026,press,45,5\n"
    table, mapping = read(content, unit="kg")
    assert open_questions(table, mapping, TODAY).date_orders == ("dmy", "mdy")
    with pytest.raises(NotAnsweredError, match="day and month"):
        sets_of(table, mapping, TODAY)
    days = {order: sets_of(table, Mapping(mapping.columns, "kg", order), TODAY).rows[0].day for order in ("dmy", "mdy")}
    assert days == {"dmy": date(2026, 4, 3), "mdy": date(2026, 3, 4)}


@pytest.mark.parametrize(
    ("texts", "orders"),
    [
        (["2026-03-02", "2026-03-04"], ("ymd",)),
        (["02.03.2026", "25.03.2026"], ("dmy",)),
        (["02/03/2026", "02/25/2026"], ("mdy",)),
        (["05/05/2026", "06/06/2026"], ("dmy",)),  # both orders say the same
        (["01/12/2026", "02/11/2026"], ("mdy",)),  # the first of December is still to come
        (["02/03/2026"], ("dmy", "mdy")),
        (["26/03/02"], ("ymd", "dmy")),  # 2 March 2026, or 26 March 2002
        (["13/14/2026"], ()),
        (["Mar 2, 2026", "2 March 2026"], ("ymd",)),  # any order: none is needed
    ],
)
def test_orders_in_which_dates_can_be_read(texts, orders):
    assert orders_of(texts, TODAY) == orders


@pytest.mark.parametrize(
    ("text", "order", "day"),
    [
        ("2026-03-02T18:30:00Z", None, date(2026, 3, 2)),
        ("2026/3/2 18:30", None, date(2026, 3, 2)),
        ("Mon, 2 Mar 2026", None, date(2026, 3, 2)),
        ("Sept 2, 2026", None, date(2026, 9, 2)),
        ("2.3.2026", "dmy", date(2026, 3, 2)),
        ("3/2/26 6:30 pm", "mdy", date(2026, 3, 2)),
        ("29.2.2028", "dmy", date(2028, 2, 29)),
    ],
)
def test_dates_as_people_write_them(text, order, day):
    assert day_in(text, order) == day


@pytest.mark.parametrize(
    "text",
    ["", "soon", "2026-02-30", "31.4.2026", "1/2/3", "2026-3", "02/03/2026", "2 Marz 2026", "20260302", "٢٠٢٦-٠٣-٠٢"],
)
def test_what_is_no_date_without_an_order_is_refused(text):
    with pytest.raises(BadInputError, match="not a date"):
        day_in(text, None)


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("92.5", "92.5", None), ("92,5", "92.5", None), ("92,5 kg", "92.5", "kg"), ("205lbs", "205", "lb"), ("61,235", "61.235", None),
        ("1,234.5", "1234.5", None), ("1.234,5", "1234.5", None), ("1'234.5", "1234.5", None), ("-20", "-20", None), ("+5", "5", None), ("5.", "5.", None),
    ],
)  # fmt: skip
def test_numbers_as_people_write_them(text, number, unit):
    assert number_in(text) == (Decimal(number), unit)


@pytest.mark.parametrize(
    "text",
    ["", "nan", "inf", "1e3", "1,2,3", "1.2.3", "12,34.5", "5x5", "kg", "--5", "１００", "0x1F", "5 000 kg more"],
)
def test_what_is_no_number_is_refused(text):
    with pytest.raises(BadInputError, match="not a number"):
        number_in(text)


def test_a_mapping_can_be_corrected_and_is_remembered_by_the_heading():
    table, mapping = read(layouts.comma())
    corrected = mapping.put("note", 5).put("order", 0)
    assert from_text(to_text(corrected), table) == corrected
    assert len(to_text(corrected)) <= 200
    assert layout_of(table) == layout_of(read_table(layouts.comma().replace(b"42.5", b"50"), "another.csv"))
    assert layout_of(table) != layout_of(read_table(layouts.titled(), "other.csv"))
    assert from_text("load=99;kg;", table) is None
    assert from_text("nonsense", table) is None
    row = sets_of(table, corrected, TODAY).rows[3]
    assert (row.note, row.order) == ("felt ok, 3", 1)


def test_two_facts_never_come_from_one_column():
    mapping = Mapping({"date": 0, "reps": 1}).put("load", 1)
    assert mapping.columns == {"date": 0, "load": 1}
    assert mapping.put("load", None).columns == {"date": 0}


def test_the_first_rows_show_what_is_understood_and_what_is_not():
    content = (
        b"day,lift,load kg,reps\n2026-03-02,press,40,5\n2026-03-02,press,forty,5\n2026-13-02,press,40,0\n2026-03-04,press,45,5\n"
        * 1
    )
    table, mapping = read(content)
    mapping = Mapping({"date": 0, "lift": 1, "load": 2, "reps": 3}, "kg", mapping.date_order)
    good, number, day, _ = first_rows(table, mapping, TODAY)
    assert good.cells == {"date": "2026-03-02", "lift": "press", "load": "40", "reps": "5", "unit": "kg"}
    assert "column 3 (load kg)" in number.problem
    assert "'forty' is not a number" in number.problem
    assert "column 1 (day)" in day.problem


def test_every_bad_row_is_told_with_the_line_and_column_of_the_file_that_was_brought():
    content = "Title;;;\n\nam;was;last;wie oft\n02.03.2026;press;42,5;5\n03.03.2026;press;x;5\n14.03.2026;;45;5\n15.03.2026;press;5000;5\n16.03.2026;press;45;2,5\n17.03.2026;press;45;0"
    table, mapping = read(content.encode("utf-16"))
    mapping = Mapping({"date": 0, "lift": 1, "load": 2, "reps": 3}, "kg", "dmy")
    with pytest.raises(BadFileError) as refused:
        sets_of(table, mapping, TODAY)
    assert [(each.line, each.column) for each in refused.value.problems] == [(5, "column 3 (last)")]
    mended = read_table(content.replace(";x;", ";45;").encode("utf-16"), "brought.csv")
    with pytest.raises(BadFileError) as refused:
        sets_of(mended, mapping, TODAY)
    assert [(each.line, each.column) for each in refused.value.problems] == [
        (6, "column 2 (was)"), (7, "column 3 (last)"), (8, "column 4 (wie oft)"), (9, "column 4 (wie oft)"),
    ]  # fmt: skip


def test_a_row_that_holds_only_a_remark_is_told_and_shown_as_what_it_is():
    content = (
        b"date,lift,load,unit,reps,remark\n2026-03-02,front squat,60,kg,5,\n,,,,,lighter from here\n"
        b"2026-03-09,front squat,62.5,kg,5,\n"
    )
    table, mapping = read(content)
    with pytest.raises(BadFileError, match="line 3") as told:
        sets_of(table, mapping, TODAY)
    assert {problem.line for problem in told.value.problems} == {3}
    assert [bool(row.problem) for row in first_rows(table, mapping, TODAY)] == [False, True, False]


def test_what_is_wrong_with_a_row_of_several_equal_sets_is_told_once():
    content = (
        b"date,lift,load,unit,sets,reps\n"
        + b"2026-03-02,front squat,60,kg,5,5\n" * 2
        + b"2026-03-02,front squat,60,kg,5,0\n"
    )
    table, mapping = read(content)
    mapping = mapping.put("equal sets", 4)
    with pytest.raises(BadFileError) as told:
        sets_of(table, mapping, TODAY)
    assert [problem.line for problem in told.value.problems] == [4]


def test_lines_stay_right_after_a_cell_with_several_lines():
    content = b'date,lift,load,unit,reps,note\n2026-03-02,press,40,kg,5,"one\ntwo\nthree"\n2026-03-02,press,40,kg,x,\n'
    table, mapping = read(content)
    with pytest.raises(BadFileError) as refused:
        sets_of(table, mapping, TODAY)
    assert refused.value.problems[0].line == 5


def test_a_unit_that_contradicts_the_one_said_for_the_file_is_refused():
    content = b"date,lift,load,reps\n2026-03-02,press,40 kg,5\n2026-03-02,press,90 lb,5\n"
    table, mapping = read(content)
    assert [row.unit for row in sets_of(table, mapping, TODAY).rows] == ["kg", "lb"]
    with pytest.raises(BadFileError, match="90 lb is not in kg"):
        sets_of(table, Mapping(mapping.columns, "kg", None), TODAY)


def test_texts_that_look_like_formulas_come_as_they_are():
    content = b"date,lift,load,unit,reps,note\n2026-03-02,press,40,kg,5,=1+1\n2026-03-02,press,40,kg,5,'=1+1\n"
    assert [row.note for row in sets_of(*read(content), TODAY).rows] == ["=1+1", "=1+1"]


def test_a_number_of_the_row_is_no_load_and_a_second_date_no_lift():
    lines = ["id;began;ended;what;lbs;n"]
    lines += [
        f"{1000 + at};{day:%d %b %Y} 18:00;{day:%d %b %Y} 19:00;{lift};{kg:g};{reps}"
        for at, (day, lift, kg, reps) in enumerate(layouts.rows())
    ]
    table, mapping = read("\n".join(lines).encode())
    assert {role: table.heading[at] for role, at in mapping.columns.items()} == {
        "date": "began",
        "lift": "what",
        "load": "lbs",
        "reps": "n",
    }
    assert kilograms(sets_of(table, mapping, TODAY)) == wanted("lb")


@pytest.mark.parametrize(
    ("heading", "unit"),
    [("Kilos", "kg"), ("load_kg", "kg"), ("Weight (lbs.)", "lb"), ("kg or lb", None), ("bulk", None)],
)
def test_a_unit_in_the_heading(heading, unit):
    _, mapping = read(layouts.comma().replace(b"Weight (kg)", heading.encode()))
    assert mapping.unit == unit
