"""Tables of other people come in whole or not at all, once, and the next one of the same kind is known."""

import threading
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import date, timedelta

import pytest
from sqlalchemy import select

from tests.exchange import layouts
from tests.stores import address_of
from tests.undoing import undo_newest
from tracker.desk.files import deletion, foreign
from tracker.desk.files.check import check_log
from tracker.desk.history import journal
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.exchange.mapping import Mapping, layout_of
from tracker.log.columns import Base
from tracker.log.facts import fact, put_fact
from tracker.log.who import Who, acting

TODAY = date(2026, 11, 25)
ALL = ("comma", "semicolons", "tabs", "workbook")


def sets_in(log, name="Ana"):
    member = next((each for each in people.members(log) if each.name == name), None)
    return (
        [] if member is None else [each for entry in journal.sessions(log, member.id, limit=500) for each in entry.sets]
    )


@pytest.mark.parametrize("layout", ALL)
def test_a_layout_is_taken_once_and_its_columns_are_remembered(log, layout):
    content = getattr(layouts, layout)()
    brought = foreign.look_at(log, content, layout, TODAY)
    assert not brought.remembered
    reading = foreign.as_understood(brought.table, brought.mapping, TODAY)
    assert not reading.questions
    assert not any(row.problem for row in reading.rows)
    done = foreign.take(log, brought.table, brought.mapping, member="Ana", today=TODAY)
    assert (done.rows, done.added) == (24, 24)
    again = foreign.look_at(log, content, layout, TODAY, whose="Ana")
    assert again.remembered
    assert again.mapping == brought.mapping
    assert foreign.take(log, again.table, again.mapping, member="Ana", today=TODAY).added == 0
    assert len(sets_in(log)) == 24
    assert check_log(address_of(log)).ok


def test_a_corrected_mapping_is_what_is_remembered(log):
    content = layouts.titled()
    brought = foreign.look_at(log, content, "titled.csv", TODAY)
    corrected = Mapping(brought.mapping.put("equal sets", 2).columns, "lb", brought.mapping.date_order)
    assert foreign.take(log, brought.table, corrected, member="Ana", today=TODAY).added == 36
    assert foreign.look_at(log, content, "another.csv", TODAY, whose="Ana").mapping == corrected
    assert {row.load.unit for row in sets_in(log)} == {"lb"}


def test_an_open_question_takes_nothing_and_remembers_nothing(log):
    brought = foreign.look_at(log, layouts.titled(), "titled.csv", TODAY)
    assert foreign.as_understood(brought.table, brought.mapping, TODAY).questions.unit
    with pytest.raises(BadInputError, match="kg or lb"):
        foreign.take(log, brought.table, brought.mapping, member="Ana", today=TODAY)
    assert sets_in(log) == []
    assert not foreign.look_at(log, layouts.titled(), "titled.csv", TODAY).remembered


def test_a_bad_row_refuses_all_rows(log):
    content = layouts.comma().replace(b"Movement,Weight", b"Movement,Weight", 1) + b"\n3,2026-03-30,deadlift,-5,5,x"
    brought = foreign.look_at(log, content, "brought.csv", TODAY)
    with pytest.raises(BadInputError, match="line 26, column 4"):
        foreign.take(log, brought.table, brought.mapping, member="Ana", today=TODAY)
    assert sets_in(log) == []
    assert people.lifts(log) == ()


def test_an_import_of_a_table_is_undone_in_one_act(log):
    ana = people.add_member(log, "Ana")
    brought = foreign.look_at(log, layouts.comma(), "brought.csv", TODAY)
    foreign.take(log, brought.table, brought.mapping, member="Ana", today=TODAY)
    undo_newest(log, ana.id)
    assert sets_in(log) == []


def test_a_long_table_is_taken(log):
    lines = ["When;What;How heavy (kg);Times"]
    lines += [
        f"{date(2024, 1, 1) + timedelta(days=at // 20)};squat;{40 + at % 60},5;{1 + at % 9}" for at in range(5000)
    ]
    brought = foreign.look_at(log, "\n".join(lines).encode(), "long.csv", TODAY)
    assert foreign.take(log, brought.table, brought.mapping, member="Ana", today=TODAY).added == 5000


def test_a_server_reads_one_file_at_a_time_and_says_so_where_it_takes_long(log, monkeypatch):
    begun, go_on = threading.Event(), threading.Event()
    real = foreign.read_table

    def slow(*args, **named):
        begun.set()
        assert go_on.wait(20)
        return real(*args, **named)

    monkeypatch.setattr(foreign, "read_table", slow)
    with ThreadPoolExecutor(1) as pool:
        first = pool.submit(foreign.look_at, log, layouts.comma(), "first", TODAY)
        assert begun.wait(20)
        monkeypatch.setattr(foreign, "LONGEST_WAIT_S", 0.05)
        with pytest.raises(foreign.BusyError, match="Try again"):
            foreign.look_at(log, layouts.comma(), "second", TODAY)
        go_on.set()
        assert first.result().table.rows
    assert foreign.look_at(log, layouts.comma(), "second", TODAY).table.rows


HEADED = "When,What,Weight,Times\n" + "".join(f"2026-03-0{at},front squat,{60 + at},5\n" for at in range(1, 8))


def took(log, name, unit):
    brought = foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY, whose=name)
    mapping = replace(brought.mapping, unit=unit) if unit else brought.mapping
    foreign.take(log, brought.table, mapping, member=name, today=TODAY)


def test_what_one_member_answered_is_not_taken_for_another_s_file(log):
    for name in ("Ana", "Bea"):
        people.add_member(log, name)
    took(log, "Ana", "lb")
    again = foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY, whose="ana")
    assert again.remembered
    assert again.mapping.unit == "lb"
    other = foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY, whose="Bea")
    assert not other.remembered
    assert foreign.as_understood(other.table, other.mapping, TODAY).questions.unit  # asked, and not taken for pounds
    assert not foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY).remembered
    with pytest.raises(BadInputError, match="kg or lb"):
        took(log, "Bea", None)


def test_where_members_sign_in_each_recalls_their_own_whatever_name_is_said(log):
    ids = {name: people.add_member(log, name).id for name in ("Ana", "Bea")}
    with acting(Who("member", ids["Ana"], "Ana")):
        took(log, "Ana", "lb")
        assert foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY, whose="Bea").mapping.unit == "lb"
    with acting(Who("member", ids["Bea"], "Bea")):
        assert not foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY, whose="Ana").remembered


def test_what_is_remembered_of_a_member_s_files_goes_with_them(log):
    for name in ("Ana", "Bea"):
        people.add_member(log, name)
        took(log, name, "lb")
    ana = next(each for each in people.members(log) if each.name == "Ana")
    deletion.delete_member(log, ana.id, "Ana")
    with log.engine.connect() as connection:
        facts = connection.execute(select(Base.metadata.tables["log_facts"])).all()
    assert ana.id not in str(facts)
    assert foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY, whose="Bea").remembered


def test_what_an_earlier_version_remembered_for_whoever_came_next_is_not_used(log):
    people.add_member(log, "Ana")
    table = foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY).table
    with log.act("remembered the columns of a file") as act:
        put_fact(act, foreign.LAYOUT + layout_of(table), "date=0,lift=1,load=2,reps=3;lb;")
    assert not foreign.look_at(log, HEADED.encode(), "brought.csv", TODAY, whose="Ana").remembered
    took(log, "Ana", "kg")
    with log.reading() as session:
        assert fact(session, foreign.LAYOUT + layout_of(table)) is None
