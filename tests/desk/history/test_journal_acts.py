"""The journal's acts: leave out, move a session, take acts back, remove a rep-max."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from sqlalchemy import func, select

from tests.day import this_day
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import log_set, session_said
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError, TidemarkError
from tracker.log import chain, held
from tracker.log import members as log_members
from tracker.log.chain import FOUND
from tracker.log.models import Change
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log

DAY = date(2026, 3, 2)


@pytest.fixture
def tobin(log: Log):
    return people.add_member(log, "Tobin")


@pytest.fixture
def squat(log: Log):
    return people.add_lift(log, "front squat", "barbell")


def changes(log: Log) -> int:
    with log.reading() as session:
        return session.scalar(select(func.count()).select_from(Change)) or 0


def test_a_set_is_left_out_with_its_reason_and_taken_in_again(log, wren, squat):
    row = log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(80), 5))
    assert journal.leave_out(log, row.id, "  wrong   bar ").left_out == "wrong bar"
    assert journal.take_in_again(log, row.id).left_out is None


@pytest.mark.parametrize("reason", ["", "   ", "x" * 201])
def test_without_a_reason_or_with_an_endless_one_nothing_is_left_out(log, wren, squat, reason):
    row = log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(80), 5))
    before = changes(log)
    with pytest.raises(BadInputError):
        journal.leave_out(log, row.id, reason)
    assert changes(log) == before


def test_a_session_moves_whole_with_what_was_said_of_it_and_comes_back(log, wren, tobin, squat):
    rows = [log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(load), 5)) for load in (60, 80)]
    session_said.rate_session(log, rows[0].session_id, wren.id, rating=7, minutes=40, note="windy")
    assert journal.move_session(log, rows[0].session_id, tobin.id, DAY - timedelta(days=1), today=this_day()) == 2
    moved = journal.sessions(log, tobin.id)
    assert [(str(row.load), row.reps) for row in moved[0].sets] == [("60 kg", 5), ("80 kg", 5)]
    assert (moved[0].session.day, moved[0].session.rating, moved[0].session.note) == (
        DAY - timedelta(days=1),
        7,
        "windy",
    )
    assert journal.sessions(log, wren.id) == ()
    journal.undo_act(log, journal.acts(log, wren.id)[0].act_id)
    assert journal.sessions(log, tobin.id) == ()
    assert journal.sessions(log, wren.id)[0].session.rating == 7


def test_what_the_other_session_says_of_itself_stays(log, wren, tobin, squat):
    mine = log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(80), 5))
    theirs = log_set.log_set(log, tobin.id, DAY, NewSet(squat.id, kg(90), 5))
    session_said.rate_session(log, mine.session_id, wren.id, rating=7, minutes=None, note="mine")
    session_said.rate_session(log, theirs.session_id, tobin.id, rating=3, minutes=None, note="theirs")
    journal.move_session(log, mine.session_id, tobin.id, DAY, today=this_day())
    kept = journal.sessions(log, tobin.id)[0]
    assert (kept.session.note, kept.session.rating, len(kept.sets)) == ("theirs", 3, 2)


def test_a_session_can_t_move_to_where_it_is_nor_to_a_day_to_come(log, wren, squat):
    row = log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(80), 5))
    before = changes(log)
    for day in (DAY, this_day() + timedelta(days=9)):
        with pytest.raises(BadInputError):
            journal.move_session(log, row.session_id, wren.id, day, today=this_day())
    with pytest.raises(BadInputError):
        journal.move_session(log, "nowhere", wren.id, DAY, today=this_day())
    assert changes(log) == before


def test_a_large_act_hides_none_of_those_before_it(log, wren, squat):
    """A sheet of twelve weeks hid every earlier act: only so many lines of the history were read."""
    for reps in (3, 4, 5):
        log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(80), reps), sure=True)
    title = "Title: Weir\n"
    days = "".join(
        f"Week {week}, day {day}\nFront squat, barbell\n" + "".join(f"1 x 5 @ {60 + n} kg\n" for n in range(9))
        for week in range(1, 13)
        for day in (1, 3, 5)
    )
    sheets.take_sheet(log, [wren.id], title + days, DAY)
    found = journal.acts(log, wren.id, limit=30)
    assert [each.words.split(" ")[0] for each in found] == ["took", "logged", "logged", "logged", "added"]
    assert found[0].records > 36 * 9
    assert [each.records for each in found[1:4]] == [changes_of(log, each.act_id) for each in found[1:4]]
    assert [each.act_id for each in journal.acts(log, wren.id, limit=2)] == [each.act_id for each in found[:2]]
    journal.undo_act(log, found[1].act_id)
    assert [each.undone for each in journal.acts(log, wren.id, limit=30)] == [False, False, True, False, False, False]


def changes_of(log: Log, act_id: str) -> int:
    with log.reading() as session:
        return session.scalar(select(func.count()).select_from(Change).where(Change.act_id == act_id)) or 0


def test_any_act_can_be_taken_back_once(log, wren, squat):
    log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(60), 5))
    log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(80), 5))
    newest = journal.acts(log, wren.id)[0]
    assert "80 kg" in journal.undo_act(log, newest.act_id)
    with pytest.raises(TidemarkError):
        journal.undo_act(log, newest.act_id)
    assert [row.load for row in journal.sessions(log, wren.id)[0].sets] == [kg(60)]


def test_a_rep_max_is_listed_removed_and_brought_back(log, wren, squat):
    rep_maxes.add_rep_max(log, wren.id, squat.id, DAY, 3, kg(95), tested=True)
    found = rep_maxes.rep_maxes(log, wren.id)
    assert [(str(row.load), row.source) for row in found] == [("95 kg", "tested")]
    rep_maxes.remove_rep_max(log, wren.id, found[0].id)
    assert rep_maxes.rep_maxes(log, wren.id) == ()
    undo_newest(log, wren.id)
    assert len(rep_maxes.rep_maxes(log, wren.id)) == 1


def test_a_rep_max_of_somebody_else_can_t_be_removed(log, wren, tobin, squat):
    rep_maxes.add_rep_max(log, wren.id, squat.id, DAY, 3, kg(95), tested=True)
    with pytest.raises(BadInputError):
        rep_maxes.remove_rep_max(log, tobin.id, rep_maxes.rep_maxes(log, wren.id)[0].id)


def test_what_was_told_stands_once_and_what_was_found_does_not_stand_among_the_acts(log, wren, tobin, squat):
    log_set.log_set(log, wren.id, DAY, NewSet(squat.id, kg(80), 5))
    with log.act("changed both", tobin.id) as act:
        log_members.change_member(act, tobin.id, alone=True)
        act.tell(wren.id, "was given the sheet wave")
    found = [{"record": FOUND, "record_id": chain.NOBODY, "member_id": wren.id, "after": {}} for _ in range(50)]
    with log.engine.begin() as connection:
        held.write(connection, found, "sealed the history")
    shown = [(each.words, each.records, each.theirs) for each in journal.acts(log, wren.id, limit=2)]
    assert shown == [("was given the sheet wave", 1, False), ("logged front squat, barbell: 5 x 80 kg", 2, True)]
