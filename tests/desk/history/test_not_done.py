"""What was left out of a session is said wherever somebody looks back: the journal, and the coach's table of a class."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.desk.doing import somebody
from tracker.desk.coach import send_result
from tracker.desk.coach.class_table import class_table
from tracker.desk.day import from_memory, today
from tracker.desk.history import journal
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.desk.sheet import sheets
from tracker.exchange.result_line import find_lines
from tracker.log.unit_of_work import Log

SHEET = "Deadlift 5x5 @ 80 kg\n\nPiece: Harbour sprint\nAMRAP 12 min\n10 burpees"


@pytest.fixture
def una(log: Log):
    member = somebody(log, "Una")
    sheets.take_sheet(log, [member.id], SHEET, this_day())
    return member


def log_some(log, member, number, day=None):
    from_memory.log_as_planned(log, member.id, day or this_day(), first=number)


def said(log, member):
    return [each.not_done for each in journal.sessions(log, member.id)]


def step(log, member):
    return today.steps(log, member.id)[0]


def test_an_ended_session_says_how_many_sets_and_which_piece_were_left_out(log, una):
    log_some(log, una, 3)
    assert said(log, una) == ["3 of 5 sets so far; Harbour sprint not done yet"]
    today.finish(log, una.id, step(log, una), this_day())
    assert said(log, una) == ["3 of 5 sets; Harbour sprint not done"]
    (missing,) = class_table(log, [una.id], this_day()).missing
    assert missing.came == "ended with 3 of 5 sets; Harbour sprint not done"


def test_the_line_for_the_coach_says_it_in_words_and_is_read_all_the_same(log, una):
    log_some(log, una, 3)
    today.finish(log, una.id, step(log, una), this_day())
    text, line = (each(log, una.id, this_day()) for each in (send_result.message, send_result.result_line))
    assert text == f"Not all of it: 3 of 5 sets; Harbour sprint not done. {line}"
    found, passed = find_lines(text)
    assert ([each.text for each in found], passed) == ([line], ())


def test_with_all_its_sets_only_the_piece_is_missing_and_with_that_nothing(log, una):
    log_some(log, una, 5)
    assert said(log, una) == ["Harbour sprint not done"]
    piece = today.day_plan(log, una.id, this_day()).pieces[0]
    conditioning.log_score(log, una.id, piece.id, this_day(), Said("84"), member_step_id=step(log, una).id)
    assert (said(log, una), class_table(log, [una.id], this_day()).missing) == ([""], ())


def test_what_is_gone_on_with_on_the_next_day_counts_for_both(log, una):
    yesterday = this_day() - timedelta(days=1)
    with log.act("a day back", una.id) as act:
        from tracker.log import waves

        waves.set_due(act, step(log, una).id, yesterday)
    log_some(log, una, 3, yesterday)
    today.begin_now(log, una.id, step(log, una), this_day())
    log_some(log, una, 1)
    newest, before = said(log, una)
    assert before.startswith("4 of 5 sets so far, some of them on ")
    assert newest.startswith("4 of 5 sets so far, some of them on ")
    log_some(log, una, 1)
    assert said(log, una) == ["Harbour sprint not done"] * 2


def test_the_rest_of_what_was_ended_early_is_done_on_another_day(log, una):
    log_some(log, una, 3)
    assert journal.sessions(log, una.id)[0].ended_early == ""  # nobody ended it
    today.finish(log, una.id, step(log, una), this_day())
    (entry,) = journal.sessions(log, una.id)
    tomorrow = this_day() + timedelta(days=1)
    assert today.day_plan(log, una.id, tomorrow).step is None
    today.go_on(log, una.id, today.step(log, una.id, entry.ended_early), tomorrow)
    plan = today.day_plan(log, una.id, tomorrow)
    assert (plan.step.id, plan.next_line.number, len([each for each in plan.lines if each.open])) == (
        entry.ended_early,
        4,
        2,
    )
