"""The clock of a piece: a state that a reload can't lose."""

import json
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.conditioning.clock import Clock, Plan, clock_for, clock_from, clock_record
from tracker.conditioning.words import parse_score
from tracker.errors import BadInputError

T0 = 1_772_440_000.0


def test_count_in_time_and_cap(ladder_piece):
    clock = clock_for(ladder_piece)
    assert clock.reading(T0).phase == "ready"
    clock = clock.start(T0)
    assert clock.reading(T0 + 4) == replace(clock.reading(T0 + 4), phase="count-in", left_s=6.0)
    running = clock.reading(T0 + 10 + 61.5)
    assert (running.phase, running.elapsed_s, running.left_s) == ("work", 61.5, 658.5)
    over = clock.reading(T0 + 10 + 999)
    assert (over.phase, over.elapsed_s) == ("over", 720)


def test_taps_fill_the_splits_of_a_score(ladder_piece, day):
    clock = clock_for(ladder_piece).start(T0)
    for second in (34.2, 103.4, 208.0):
        clock = clock.tap(T0 + 10 + second)
    clock = clock.stop(T0 + 10 + 800)
    assert clock.stopped == T0 + 10 + 720  # it ended by itself before the touch
    assert clock.splits_s == (34, 103, 208)
    assert clock.reading(T0 + 9999).elapsed_s == 720
    splits = " ".join(f"{s // 60}:{s % 60:02d}" for s in clock.splits_s)
    assert parse_score(ladder_piece, day, "through the 9s, plus 5", splits=splits).splits_s == clock.splits_s


def test_touches_that_change_nothing(ladder_piece):
    clock = clock_for(ladder_piece).start(T0)
    assert clock.start(T0 + 50) == clock  # a second start
    assert clock.tap(T0 + 5) == clock  # in the count-in
    once = clock.tap(T0 + 60)
    assert once.tap(T0 + 60.5) == once  # a bounce
    assert once.tap(T0 + 10 + 721) == once  # after the end
    stopped = once.stop(T0 + 100)
    assert stopped.stop(T0 + 200) == stopped
    assert stopped.tap(T0 + 150) == stopped
    assert once.untap() == clock


def test_a_tap_before_the_start_and_a_clock_set_back_are_refused(ladder_piece):
    with pytest.raises(BadInputError, match="not been started"):
        clock_for(ladder_piece).tap(T0)
    with pytest.raises(BadInputError, match="set back"):
        clock_for(ladder_piece).start(T0).tap(T0 + 100).tap(T0 + 50)


def test_intervals_of_work_and_rest(interval_piece):
    clock = clock_for(interval_piece, count_in_s=0).start(T0)
    seen = [(r.phase, r.interval, r.left_s) for r in (clock.reading(T0 + s) for s in (0, 119, 120, 179, 180, 839, 840))]
    assert seen == [
        ("work", 1, 120), ("work", 1, 1), ("rest", 1, 60), ("rest", 1, 1), ("work", 2, 120), ("work", 5, 1), ("over", 5, 0.0),
    ]  # fmt: skip


def test_without_a_cap_it_runs_until_it_is_stopped():
    clock = Clock(Plan(count_in_s=3)).start(T0)
    assert clock.reading(T0 + 5000).left_s is None
    assert clock.stop(T0 + 403).reading(T0 + 9000).elapsed_s == 400
    assert clock.stop(T0 + 1).reading(T0 + 2).elapsed_s == 0  # stopped in the count-in


@given(st.lists(st.floats(0, 900), max_size=20), st.floats(0, 1000))
@settings(max_examples=100, deadline=None)
def test_a_reload_at_any_moment_loses_nothing(taps, later):
    clock = Clock(Plan(cap_s=720)).start(T0)
    for tap in sorted(taps):
        clock = clock.tap(T0 + tap)
    again = clock_from(json.loads(json.dumps(clock_record(clock))))
    assert again == clock
    assert again.reading(T0 + later) == clock.reading(T0 + later)
    assert list(again.splits_s) == sorted(set(again.splits_s))


@pytest.mark.parametrize(
    "spoilt",
    [{"started": None, "taps": [5.0]}, {"taps": [9.0, 5.0]}, {"stopped": T0 - 5}, {"taps": None}, {"taps": ["soon"]}],
)
def test_a_spoilt_record_is_refused(ladder_piece, spoilt):
    record = clock_record(clock_for(ladder_piece).start(T0)) | spoilt
    with pytest.raises(BadInputError):
        clock_from(record)
    with pytest.raises(BadInputError):
        clock_from({})
