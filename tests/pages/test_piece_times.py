"""What the page of pieces asks of times: about so, not known, a clock that started late, intervals timed one by one."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.pages.conftest import Open, tap, words
from tests.pages.pieces import button_labels, field, scores
from tests.undoing import undo_newest
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.coach import class_table, send_result, take_results
from tracker.desk.day import falls
from tracker.desk.pieces import clocks, conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.log.clocks import moment
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log

ROUNDS = Piece("Quarry", "for time", (Task("box jump", Steady(10)), Task("burpee", Steady(5))), rounds=5)


@pytest.fixture
def quarry(log: Log) -> PieceRow:
    return conditioning.add_piece(log, ROUNDS)


@pytest.fixture
def rows(log: Log) -> PieceRow:
    return conditioning.add_piece(
        log, Piece("Rows", "work and rest", (Task("row", Steady(500), "m"),), rest_s=120, intervals=6)
    )


def test_a_time_about_so_is_kept_as_such_and_is_no_best(show: Open, log: Log, anna: MemberRecord, quarry: PieceRow):
    conditioning.log_score(log, anna.id, quarry.id, this_day() - timedelta(days=9), Said("12:00"))
    at = show(log, "conditioning", anna.id)
    field(at, "text_input", "_time").set_value("11:00").run()
    field(at, "button_group", "_sure").set_value("Only about so").run()
    assert at.button(key="score_log").label == "Log about 11:00"
    tap(at, "score_log")
    row = scores(log, anna)[-1]
    assert (row.score.time_s, row.score.about) == (660, True)
    assert falls.fallen_score(log, anna.id, row.id) is None
    assert "about 11:00" in words(show(log, "journal", anna.id))


def test_done_without_a_time_closes_the_piece(show: Open, log: Log, anna: MemberRecord, quarry: PieceRow):
    at = show(log, "conditioning", anna.id)
    field(at, "button_group", "_sure").set_value("Time not known").run()
    assert at.button(key="score_log").label == "Log done, time not known"
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert row.score.time_unknown
    (table,) = class_table.class_table(log, [anna.id], this_day()).pieces
    assert [line.said for group in table.groups for line in group.lines] == ["done, time not known"]


def test_the_clock_that_ran_on_is_no_reason_to_refuse_the_time_on_the_wall(
    show: Open, log: Log, anna: MemberRecord, quarry: PieceRow
):
    """Nobody stopped it: three rounds were tapped, then it ran for an hour."""
    began = clocks.start_clock(log, anna.id, quarry.id, this_day(), count_in_s=0, at=moment() - 3600)
    for after in (200, 400, 1200):
        clocks.tap_round(log, began.id, at=began.clock.started + after)
    at = show(log, "conditioning", anna.id)
    field(at, "text_input", "_time").set_value("16:04").run()
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert (row.score.time_s, row.score.splits_s) == (964, (200, 400))
    assert clocks.open_clock(log, anna.id) is None


def test_a_clock_that_started_late_is_put_forward(show: Open, log: Log, anna: MemberRecord, quarry: PieceRow):
    began = clocks.start_clock(log, anna.id, quarry.id, this_day(), count_in_s=0, at=moment() - 800)
    at = show(log, "conditioning", anna.id)
    at.text_input(key="clock_late_by").set_value("2:44")
    next(each for each in at.button if each.label == "Put it forward").click().run()
    assert "counts from the start of the piece" in words(at)
    found = clocks.open_clock(log, anna.id)
    assert found is not None
    assert round((began.clock.started or 0) - (found.clock.started or 0)) == 164
    at.text_input(key="clock_late_by").set_value("soon")
    next(each for each in at.button if each.label == "Put it forward").click().run()
    assert "is not a time" in words(at)


def test_intervals_are_tapped_timed_and_scored(show: Open, log: Log, anna: MemberRecord, rows: PieceRow):
    at = show(log, "conditioning", anna.id)
    assert "6 times, each for time, 2:00 of rest between" in words(at)
    start = moment() - 2000
    began = clocks.start_clock(log, anna.id, rows.id, this_day(), count_in_s=0, at=start)
    for number, took in enumerate((112, 110, 111, 113, 114)):
        start += took + (120 if number else 0)
        clocks.tap_round(log, began.id, at=start)
    at = show(log, "conditioning", anna.id)
    assert "Interval 6 done" in button_labels(at)
    assert "Intervals: 1:52 · 1:50 · 1:51 · 1:53 · 1:54" in words(at)
    tap(at, "clock_stop")
    each = [one for one in at.text_input if "_interval_" in str(one.key)]
    assert [one.value for one in each] == ["1:52", "1:50", "1:51", "1:53", "1:54", ""]
    each[5].set_value("1:49").run()
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert row.score.each_s == (112, 110, 111, 113, 114, 109)
    assert "slowest 1:54, fastest 1:49, average 1:52" in words(at)


def test_an_interval_that_nobody_timed_keeps_its_place(show: Open, log: Log, anna: MemberRecord, rows: PieceRow):
    at = show(log, "conditioning", anna.id)
    for number, said in ((3, "2:00.1"), (0, "1:58.4"), (1, "1:58.9")):  # in any order
        next(one for one in at.text_input if str(one.key).endswith(f"_interval_{number}")).set_value(said).run()
    assert at.button(key="score_log").label == "Log 1:58.4, 1:58.9, -, 2:00.1"
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert [float(each) for each in row.score.each_s] == [118.4, 118.9, 0, 120.1]
    assert "1:58.4, 1:58.9, not timed, 2:00.1" in words(at)


def test_a_tap_in_the_rest_says_that_it_is_on(show: Open, log: Log, anna: MemberRecord, rows: PieceRow):
    began = clocks.start_clock(log, anna.id, rows.id, this_day(), count_in_s=0, at=moment() - 130)
    clocks.tap_round(log, began.id, at=moment() - 20)
    at = tap(show(log, "conditioning", anna.id), "clock_tap")
    assert "The rest after interval 1 is still on" in words(at)


@pytest.mark.parametrize("said", ["about 11:00", "done"])
def test_a_result_carries_what_is_about_so_or_unknown(log: Log, anna: MemberRecord, quarry: PieceRow, said: str):
    conditioning.log_score(log, anna.id, quarry.id, this_day(), Said(said))
    line = send_result.result_line(log, anna.id, this_day())
    assert line.startswith("Tidemark result 3 |")
    before = scores(log, anna)
    undo_newest(log, anna.id)
    assert scores(log, anna) == ()
    take_results.take_results(log, line)
    assert [row.score for row in scores(log, anna)] == [row.score for row in before]


def test_while_the_clock_runs_stop_stands_alone_and_large(show: Open, log: Log, anna: MemberRecord, quarry: PieceRow):
    clocks.start_clock(log, anna.id, quarry.id, this_day(), count_in_s=0, at=moment() - 60)
    at = show(log, "conditioning", anna.id)
    box = next(each for each in at.expander if each.label == "Beep, a late start, or no clock")
    inside = {each.key for each in box.button}
    assert "clock_away" in inside
    assert not inside & {"clock_stop", "clock_tap"}


def test_a_piece_by_the_minute_is_all_done_in_two_touches_and_a_minute_short_in_two_more(
    show: Open, log: Log, anna: MemberRecord
):
    tasks = (Task("power clean", Steady(3)), Task("bike", Steady(12), "cal"))
    conditioning.add_piece(
        log, Piece("Lighthouse", "every minute", tasks, work_s=60, intervals=12, in_turn=True, scored_by="completed")
    )
    at = show(log, "conditioning", anna.id)
    field(at, "button_group", "_kept").set_value(12).run()
    assert at.button(key="score_log").label == "Log 12/12"
    field(at, "button_group", "_kept").set_value(10).run()
    field(at, "button_group", "_short").set_value([8, 10]).run()
    field(at, "number_input", "_short_10").set_value(10).run()
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert (row.score.kept, row.score.short) == (10, ((8, 0), (10, 10)))
    assert "18 power cleans, 58 cal bike; minute 8: none; minute 10: 10" in words(at)


def test_a_partner_s_name_is_kept_with_the_score_and_goes_nowhere(show: Open, log: Log, anna: MemberRecord):
    tasks = (Task("burpee", Steady(10)), Task("sit-up", Steady(10)))
    conditioning.add_piece(log, Piece("Ferry", "as many as possible", tasks, cap_s=1800, partners=2))
    at = show(log, "conditioning", anna.id)
    field(at, "text_input", "_partner").set_value("Juno").run()
    field(at, "button_group", "_way").set_value("In words").run()
    field(at, "text_input", "_words").set_value("8 rounds").run()
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert row.score.partner == "Juno"
    assert "8 rounds, with Juno" in words(at)
    assert "Juno" not in send_result.result_line(log, anna.id, this_day())
    assert "Juno" not in send_result.result_file(log, anna.id, this_day())
