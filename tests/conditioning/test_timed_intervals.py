"""Intervals that each ask for so much, with a rest between: a time for each, a clock that tells work and rest."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tracker.conditioning.asked import asked_words
from tracker.conditioning.change import measured
from tracker.conditioning.clock import clock_for
from tracker.conditioning.compare import beside, sorting_span
from tracker.conditioning.ladder import Steady
from tracker.conditioning.now import now_in_interval
from tracker.conditioning.piece_record import piece_from, record_of
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.words import parse_score, score_words
from tracker.errors import BadInputError

ROWS = Piece("Rows", "work and rest", (Task("row", Steady(500), "m"),), rest_s=120, intervals=6)
TIMES = "1:52, 1:50, 1:51, 1:53, 1:54, 1:49"


def test_it_asks_for_so_much_each(day):
    assert asked_words(ROWS) == "6 times, each for time, 2:00 of rest between; 500 m row"
    assert asked_words(replace(ROWS, scored_by="lowest")).startswith(
        "6 times, each for time, 2:00 of rest between, the slowest counts"
    )
    assert piece_from(record_of(ROWS)) == ROWS
    assert now_in_interval(ROWS, 3).head == "Interval 3: 500 m row"


@pytest.mark.parametrize(
    "wrong",
    [
        {"tasks": (Task("row", no_amount=True),)},  # nobody says how much
        {"tasks": (Task("row", measure="cal", most=True),)},
        {"tasks": (Task("plank hold", Steady(30), "s"),)},  # it lasts as long as it says
        {"intervals": None},
        {"kind": "every minute"},
    ],
)
def test_what_has_no_length_and_no_amount_is_no_interval(wrong):
    with pytest.raises(BadInputError, match="length of an interval"):
        replace(ROWS, **wrong)


def test_each_time_is_kept_and_said(day):
    score = parse_score(ROWS, day, TIMES)
    assert score.each_s == (112, 110, 111, 113, 114, 109)
    assert (score_words(score), parse_score(ROWS, day, score_words(score))) == (TIMES, score)
    assert score_from(ROWS, score_record(score)) == score
    assert parse_score(ROWS, day, "1:52 1:50").each_s == (112, 110)
    assert parse_score(ROWS, day, "6/6").kept == 6
    for wrong in (f"{TIMES}, 1:50", "577, 570 m", "0:00"):
        with pytest.raises(BadInputError):
            parse_score(ROWS, day, wrong)


def test_less_is_better_by_what_the_sheet_asks(day):
    """All together, which sorts as their average does; or the slowest, where the sheet says that it counts."""
    even, uneven = parse_score(ROWS, day, TIMES), parse_score(ROWS, day, "1:40, 1:40, 1:50, 1:50, 2:00, 2:00")
    assert (measured(even), measured(uneven)) == ((669.0, 669.0), (660.0, 660.0))
    assert [mark.best for mark in beside(uneven, [even, uneven])] == ["", "best"]
    slowest = replace(ROWS, scored_by="lowest")
    even, uneven = replace(even, piece=slowest), replace(uneven, piece=slowest)
    assert (measured(even), measured(uneven)) == ((114.0, 114.0), (120.0, 120.0))
    assert [mark.best for mark in beside(even, [uneven, even])] == ["", "best"]
    assert (ROWS.better, replace(ROWS, scored_by="completed").better) == ("less", "more")


def test_where_some_are_missing_nothing_is_compared(day):
    assert sorting_span(parse_score(ROWS, day, "1:40, 1:40, 1:40")) is None
    assert measured(parse_score(ROWS, day, "1:40, 1:40, 1:40")) is None


def test_the_clock_tells_work_and_rest_and_times_each():
    clock = clock_for(ROWS, count_in_s=10).start(1000.0)
    assert (clock.length_s, clock.reading(1005.0).phase) == (None, "count-in")
    reading = clock.reading(1060.0)
    assert (reading.phase, reading.interval, reading.left_s) == ("work", 1, None)
    clock = clock.tap(1122.0)
    reading = clock.reading(1132.0)
    assert (reading.phase, reading.interval, reading.left_s) == ("rest", 1, 110.0)
    with pytest.raises(BadInputError, match="rest after interval 1"):
        clock.tap(1150.0)
    assert (clock.reading(1243.0).phase, clock.reading(1243.0).interval) == ("work", 2)
    clock = clock.tap(1352.0)
    assert clock.each_s == (112, 110)
    assert clock.untap().each_s == (112,)


def test_the_last_interval_stops_the_clock_and_can_be_taken_back():
    clock = clock_for(replace(ROWS, intervals=2, rest_s=0), count_in_s=0).start(0.0).tap(100.0).tap(190.0)
    assert (clock.stopped, clock.reading(500.0).phase, clock.each_s) == (190.0, "over", (100, 90))
    again = clock.untap()
    assert (again.stopped, again.reading(200.0).phase) == (None, "work")


def test_a_clock_that_was_started_late_began_earlier():
    clock = clock_for(Piece("A", "for time", (Task("burpee", Steady(10)),), rounds=3), count_in_s=0).start(500.0)
    clock = clock.tap(600.0).began_earlier(164)
    assert (clock.reading(600.0).elapsed_s, clock.splits_s) == (264.0, (264,))
    for wrong in (0, -5, 10**6):
        with pytest.raises(BadInputError):
            clock.began_earlier(wrong)
