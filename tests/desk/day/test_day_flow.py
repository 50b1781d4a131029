"""Which session is on: begun, dated today, missed; and the way from its last set over its piece to what comes next."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.desk.ladders import LADDER, TIMED
from tests.loads import kg
from tests.undoing import undo_newest
from tests.with_pieces import put_into_step
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.day import log_set, session_said, today
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

ABROAD = Piece("Aqueduct", "for time", (Task("burpee", Steady(5)),), rounds=3)  # the first of all by its name


@pytest.fixture
def calendar(log, ana, squat):
    """Put sessions of two sets into Ana's calendar, each so many days from today, and each with its pieces."""

    def put(**days):
        named = {}
        for title, day in days.items():
            steps = [NewStep(title, 0, [NewPlannedSet(squat.id, 2, 3, load=kg("80"))])]
            with log.act("a wave") as act:
                wave = log_waves.add_wave(act, f"Wave of {title}", steps)
                log_waves.start_wave(act, ana.id, wave, this_day() + timedelta(days=day))
            named[title] = next(step for step in today.steps(log, ana.id) if step.title == title)
        return named

    return put


def plan(log, member, **named):
    return today.day_plan(log, member.id, this_day(), **named)


def do_all(log, member, **named):
    for line in plan(log, member, **named).lines:
        new = NewSet(line.lift.id, line.made.load, line.reps, planned_set_id=line.planned.id, planned_round=line.number,
                     member_step_id=line.step_id)  # fmt: skip
        log_set.log_set(log, member.id, this_day(), new)


def titles(found):
    return [each.title for each in found]


def test_a_session_dated_today_comes_before_an_older_unfinished_one(log, ana, calendar):
    calendar(older=-7, old=-2, now=0, soon=3)
    day = plan(log, ana)
    assert (day.step.title, titles(day.missed), day.ahead.title) == ("now", ["older", "old"], "soon")


def test_an_older_unfinished_one_is_on_where_nothing_else_is(log, ana, calendar):
    calendar(older=-7, old=-2, soon=3)
    day = plan(log, ana)
    assert (day.step.title, titles(day.missed), day.ahead.title) == ("older", ["old"], "soon")


def test_what_was_missed_is_done_now_or_left_out_and_moves_nothing_else(log, ana, calendar):
    steps = calendar(old=-2, now=0, soon=3)
    today.begin_now(log, ana.id, steps["old"], this_day())
    assert plan(log, ana, member_step_id=steps["old"].id).step.title == "old"
    assert {step.title: (step.due - this_day()).days for step in today.steps(log, ana.id)} == {
        "old": 0,
        "now": 0,
        "soon": 3,
    }
    do_all(log, ana, member_step_id=steps["old"].id)
    assert plan(log, ana).step.title == "old"  # how hard was it?
    session_said.rate(log, ana.id, this_day(), steps["old"], 6)
    assert plan(log, ana).step.title == "now"
    undo_newest(log, ana.id)
    undo_newest(log, ana.id)
    today.skip(log, ana.id, steps["old"])
    assert titles(plan(log, ana).missed) == []


def test_bringing_a_missed_session_to_today_leaves_those_after_it_in_its_wave(log, ana, squat):
    with log.act("a wave") as act:
        planned = [NewPlannedSet(squat.id, 1, 3, load=kg("80"))]
        wave = log_waves.add_wave(act, "Tide", [NewStep("first", 0, planned), NewStep("second", 9, planned)])
        log_waves.start_wave(act, ana.id, wave, this_day() - timedelta(days=4))
    today.begin_now(log, ana.id, today.steps(log, ana.id)[0], this_day())
    assert [(step.due - this_day()).days for step in today.steps(log, ana.id)] == [0, 5]


def test_what_is_begun_after_a_finished_session_is_on_and_stays_on(log, ana, calendar):
    steps = calendar(now=0, soon=3)
    do_all(log, ana)
    day = plan(log, ana)
    assert (day.step.title, day.next_line, day.whole, day.ahead.title) == ("now", None, True, "soon")
    today.begin_now(log, ana.id, steps["soon"], this_day())
    day = plan(log, ana)  # as after a reload
    assert (day.step.title, day.next_line.number, day.ahead) == ("soon", 1, None)
    do_all(log, ana)
    assert (plan(log, ana).step.title, plan(log, ana).whole) == ("soon", True)


def test_the_piece_of_the_session_stays_its_piece_after_the_last_set(log, ana, calendar):
    conditioning.add_piece(log, ABROAD)
    ladder, downhill = conditioning.add_piece(log, LADDER), conditioning.add_piece(log, TIMED)
    steps = calendar(now=0, soon=3)
    for row in (ladder, downhill):
        put_into_step(log, steps["now"].step_id, row.id)
    do_all(log, ana)
    for scored, left in ((ladder, ["Lantern ladder", "Downhill"]), (downhill, ["Downhill"])):
        day, pieces = plan(log, ana), conditioning.piece_day(log, ana.id, this_day())
        assert (day.step.title, day.next_line, day.whole) == ("now", None, False)
        assert [row.piece.title for row in day.open_pieces] == left
        assert (pieces.step.id, titles(row.piece for row in pieces.planned)) == (
            day.step.id,
            ["Lantern ladder", "Downhill"],
        )
        said = Said("through the 9s" if scored is ladder else "4:10")
        conditioning.log_score(log, ana.id, scored.id, this_day(), said, member_step_id=day.step.id)
    assert (plan(log, ana).open_pieces, plan(log, ana).whole) == ((), True)


def test_a_piece_that_is_open_is_done_before_another_session_of_the_day_unless_that_was_begun(log, ana, calendar):
    ladder = conditioning.add_piece(log, LADDER)
    steps = calendar(morning=0, evening=0)
    put_into_step(log, steps["morning"].step_id, ladder.id)
    do_all(log, ana)
    assert (plan(log, ana).step.title, plan(log, ana).ahead.title) == ("morning", "evening")
    chosen = {"member_step_id": steps["evening"].id}
    assert plan(log, ana, **chosen).step.title == "evening"
    assert conditioning.piece_day(log, ana.id, this_day(), **chosen).step.title == "evening"
    conditioning.log_score(
        log, ana.id, ladder.id, this_day(), Said("through the 9s"), member_step_id=steps["morning"].id
    )
    assert plan(log, ana).step.title == "morning"  # how hard was it?
    session_said.rate(log, ana.id, this_day(), steps["morning"], 6)
    assert plan(log, ana).step.title == "evening"


def test_a_session_of_nothing_but_a_piece_is_done_with_it(log, ana):
    ladder = conditioning.add_piece(log, LADDER)
    with log.act("a wave") as act:
        wave = log_waves.add_wave(act, "Pieces", [NewStep("Ladder day", 0, []), NewStep("Ladder again", 7, [])])
        log_waves.start_wave(act, ana.id, wave, this_day())
    step = today.steps(log, ana.id)[0]
    put_into_step(log, step.step_id, ladder.id)
    assert (plan(log, ana).step.title, plan(log, ana).whole) == ("Ladder day", False)
    conditioning.log_score(log, ana.id, ladder.id, this_day(), Said("through the 9s"), member_step_id=step.id)
    assert (plan(log, ana).step.title, plan(log, ana).whole) == ("Ladder day", True)
    assert plan(log, ana).ahead.title == "Ladder again"


def test_a_session_ended_by_hand_asks_for_no_more_and_can_be_gone_on_with(log, ana, calendar):
    steps = calendar(now=0, soon=3)
    line = plan(log, ana).lines[0]
    log_set.log_set(log, ana.id, this_day(), NewSet(line.lift.id, kg("80"), 3, planned_set_id=line.planned.id,
                                                planned_round=1, member_step_id=line.step_id))  # fmt: skip
    today.finish(log, ana.id, steps["now"], this_day())
    day = plan(log, ana)
    assert (day.step.title, day.closed, day.next_line, day.whole, day.ahead.title) == ("now", True, None, False, "soon")
    today.go_on(log, ana.id, day.step, this_day())
    assert plan(log, ana).next_line.number == 2


def test_what_the_address_names_counts_only_where_it_can_be_on(log, ana, calendar):
    steps = calendar(done=-3, now=0, soon=3)
    today.finish(log, ana.id, steps["done"], this_day())
    for wrong in (steps["done"].id, steps["soon"].id, "nothing"):
        assert plan(log, ana, member_step_id=wrong).step.title == "now"
