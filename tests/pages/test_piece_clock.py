"""The clock on the page of pieces: kept through reloads, tapped, stopped, and what it fills in."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from tests.day import this_day
from tests.pages.conftest import Open, tap, words
from tests.pages.pieces import LADDER, ROW, button_labels, field, scores
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.pieces import clocks, conditioning
from tracker.log.clocks import moment
from tracker.log.models import PieceClock
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log


@pytest.fixture
def ladder(log: Log) -> PieceRow:
    return conditioning.add_piece(log, LADDER)


def test_the_clock_is_kept_in_the_log_through_reloads(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    tap(show(log, "conditioning", anna.id), "clock_start")
    began = clocks.open_clock(log, anna.id)
    assert began is not None
    at = show(log, "conditioning", anna.id)  # another tab, or the same one after a reload
    assert "Round 1 done" in button_labels(at)
    assert f"&quot;zero&quot;: {round((began.clock.zero or 0) * 1000)}" in next(
        each.proto.body for each in at.get("html") if "piece_clock" in each.proto.body
    )


def test_taps_stop_and_the_entry_that_they_fill(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    began = clocks.start_clock(log, anna.id, ladder.id, this_day(), at=moment() - 400)
    for after in (45, 118, 229):
        clocks.tap_round(log, began.id, at=moment() - 400 + after)
    at = show(log, "conditioning", anna.id)
    assert "Round 4 done" in button_labels(at)
    tap(at, "clock_tap")
    tap(at, "clock_untap")
    assert "Round 4 done" in button_labels(at)
    tap(at, "clock_stop")
    assert "Stopped. Enter your score below." in words(at)
    tap(at, "clock_goes_on")  # a stop by a slip of the hand
    going = clocks.open_clock(log, anna.id)
    assert going is not None
    assert (going.clock.stopped, going.clock.started, len(going.clock.taps)) == (None, began.clock.started, 3)
    assert "Round 4 done" in button_labels(at)
    tap(at, "clock_stop")
    assert at.button(key="score_log").label == "Log 54 reps"
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert (len(row.score.splits_s), row.clock_id) == (3, began.id)
    assert row.score.splits_s[0] in (34, 35, 36)
    assert "Start the clock" in button_labels(at)


def test_taps_on_an_open_page_fill_the_fields_and_leave_what_was_swapped(
    show: Open, log: Log, anna: MemberRecord, ladder: PieceRow
):
    at = show(log, "conditioning", anna.id)
    field(at, "selectbox", "_swap_2").set_value("push-up from the knees").run()
    tap(at, "clock_start")
    began = clocks.open_clock(log, anna.id)
    assert began is not None
    with log.act("as if it had begun earlier") as act:
        act.session.get_one(PieceClock, began.id).started_at = datetime.now(UTC) - timedelta(seconds=100)
    tap(at, "clock_tap")
    assert at.button(key="score_log").label == "Log 9 reps"
    tap(at, "clock_stop")
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert len(row.score.splits_s) == 1
    assert row.score.tasks[2].movement == "push-up from the knees"


def test_the_time_of_a_piece_for_time_is_that_of_the_last_round(show: Open, log: Log, anna: MemberRecord):
    piece = conditioning.add_piece(log, Piece("A", "for time", (Task("deadlift", Steady(10)),), rounds=2))
    began = clocks.start_clock(log, anna.id, piece.id, this_day(), count_in_s=0, at=moment() - 300)
    clocks.tap_round(log, began.id, at=began.clock.started + 100)
    clocks.tap_round(log, began.id, at=began.clock.started + 201)
    clocks.stop_clock(log, began.id, at=began.clock.started + 209)
    at = show(log, "conditioning", anna.id)
    assert field(at, "text_input", "_time").value == "3:21"
    assert '<p class="clock">3:29</p>' in words(at)
    tap(at, "score_log")
    assert scores(log, anna)[0].score.time_s == 201


STRETCHES = {
    "2k row": "2k row\nfor time\n2000 m row",
    "as far as possible": "Weir\nas far as possible in 10:00\nrow",
    "calories": "Ten minutes\nas many calories as possible in 10:00\nrow",
}


@pytest.mark.parametrize("text", STRETCHES.values(), ids=STRETCHES)
def test_a_piece_of_one_stretch_has_no_rounds_to_tap_nor_to_write(show: Open, log: Log, anna: MemberRecord, text: str):
    piece = conditioning.add_piece_in_words(log, text)
    at = tap(show(log, "conditioning", anna.id), "clock_start")
    began = clocks.open_clock(log, anna.id)
    assert began is not None
    assert not [label for label in button_labels(at) if "Round" in label]
    with log.act("as an earlier version tapped them") as act:
        row = act.session.get_one(PieceClock, began.id)
        row.started_at = datetime.now(UTC) - timedelta(seconds=500)
        zero = row.started_at.timestamp() + 10
        row.taps = [zero + 90 * n for n in range(1, 6)]
    at = tap(show(log, "conditioning", anna.id), "clock_stop")
    assert not [each for each in at.text_input if each.label == "Rounds ended at"]
    if piece.piece.kind == "for time":
        assert field(at, "text_input", "_time").value in ("8:10", "8:11")
    else:
        field(at, "number_input", "_amount").set_value(2310).run()
    tap(at, "score_log")
    (row,) = scores(log, anna)
    assert row.score.splits_s == ()


def test_the_rounds_to_tap_end_with_those_of_the_piece(show: Open, log: Log, anna: MemberRecord):
    piece = conditioning.add_piece(log, Piece("A", "for time", (Task("deadlift", Steady(10)),), rounds=2, cap_s=600))
    began = clocks.start_clock(log, anna.id, piece.id, this_day(), count_in_s=0, at=moment() - 300)
    for after in (100, 201, 260):
        clocks.tap_round(log, began.id, at=began.clock.started + after)
    found = clocks.open_clock(log, anna.id)
    assert found is not None
    assert len(found.clock.taps) == 2
    at = show(log, "conditioning", anna.id)
    assert "Round 3 done" not in button_labels(at)
    tap(at, "clock_stop")
    tap(at, "score_log")
    assert scores(log, anna)[0].score.time_s == 201


def test_the_clock_of_another_piece_is_put_away_first(show: Open, log: Log, anna: MemberRecord, ladder: PieceRow):
    other = conditioning.add_piece(log, Piece("A", "distance", (ROW,), cap_s=600))
    clocks.start_clock(log, anna.id, ladder.id, this_day())
    at = show(log, "conditioning", anna.id)
    at.selectbox(key="kept_piece").set_value(other.id).run()
    assert "The clock of another piece is on." in words(at)
    tap(at, "clock_go")
    assert at.selectbox(key="kept_piece").value == ladder.id
    at.selectbox(key="kept_piece").set_value(other.id).run()
    tap(at, "clock_away")
    assert "Start the clock" in button_labels(at)


FOR_TIME = Piece("A", "for time", (Task("deadlift", Steady(10)), Task("burpee", Steady(5))), rounds=3, cap_s=900)


def test_at_the_cap_nothing_is_chosen_that_nobody_did(show: Open, log: Log, anna: MemberRecord):
    """The clock ran out by itself: whether all of it was done by then only the member knows."""
    piece = conditioning.add_piece(log, FOR_TIME)
    clocks.start_clock(log, anna.id, piece.id, this_day(), count_in_s=0, at=moment() - 1000)
    at = show(log, "conditioning", anna.id)
    assert "Time is up. Enter your score below." in words(at)
    way = field(at, "button_group", "_way")
    assert (way.label, way.value) == ("Did you finish?", None)
    assert at.button(key="score_log").label == "Log it"
    tap(at, "score_log")
    assert "says nothing yet" in words(at)
    assert scores(log, anna) == ()
    field(at, "button_group", "_way").set_value("Finished").run()
    assert field(at, "text_input", "_time").value == ""  # that it took the whole time nobody said
    field(at, "button_group", "_way").set_value("Ran into the cap").run()
    field(at, "button_group", "_rounds").set_value(2).run()
    tap(at, "score_log")
    assert "Logged A: CAP + 15" in words(at)
    assert "30 of 45" in words(at)


def test_a_piece_for_time_without_places_asks_too_at_its_cap(show: Open, log: Log, anna: MemberRecord):
    tasks = (Task("run to the corner", no_amount=True), Task("burpee", Steady(5)))
    piece = conditioning.add_piece(log, Piece("A", "for time", tasks, rounds=3, cap_s=900))
    clocks.start_clock(log, anna.id, piece.id, this_day(), count_in_s=0, at=moment() - 1000)
    at = show(log, "conditioning", anna.id)
    assert field(at, "button_group", "_way").value is None
    assert at.button(key="score_log").label == "Log it"
    field(at, "button_group", "_way").set_value("Finished").run()
    assert field(at, "text_input", "_time").value == ""


def test_stopped_with_rounds_left_it_is_asked_whether_that_was_all(show: Open, log: Log, anna: MemberRecord):
    piece = conditioning.add_piece(log, FOR_TIME)
    began = clocks.start_clock(log, anna.id, piece.id, this_day(), count_in_s=0, at=moment() - 500)
    clocks.tap_round(log, began.id, at=began.clock.started + 100)
    clocks.stop_clock(log, began.id, at=began.clock.started + 400)
    at = show(log, "conditioning", anna.id)
    assert field(at, "button_group", "_way").value is None
    field(at, "button_group", "_way").set_value("Finished").run()
    assert field(at, "text_input", "_time").value == "6:40"  # of the stop, which somebody touched
