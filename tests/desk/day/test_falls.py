"""A best mark that falls is known at once, with what it was before and when."""

from __future__ import annotations

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.day import this_day
from tests.desk.doing import did
from tests.loads import kg
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.day import falls
from tracker.desk.maxes import marks, rep_maxes
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.log.records import LiftRecord, MemberRecord, SetRow
from tracker.log.unit_of_work import Log


@pytest.fixture
def ivo(log: Log) -> MemberRecord:
    return people.add_member(log, "Ivo")


@pytest.fixture
def press(log: Log, ivo: MemberRecord) -> LiftRecord:
    return people.add_lift(log, "strict press", "barbell")


def test_the_fall_says_what_it_was_before_and_when_and_what_else_fell(log, ivo, press):
    did(log, ivo, press, 24, 40, 5)
    did(log, ivo, press, 10, 45, 3)
    row = did(log, ivo, press, 0, 42.5, 5)
    fallen = falls.fallen_mark(log, row)
    assert fallen is not None
    before = this_day() - timedelta(days=24)
    year = f" {before.year}" if before.year != this_day().year else ""
    assert fallen.words(this_day()) == (
        f"Best for 5: 42.5 kg. Before: 40 kg on {before:%a} {before.day} {before:%b}{year}. Best for 4 as well."
    )


@pytest.mark.parametrize(
    ("load", "reps", "more"),
    [(40, 5, {}), (37.5, 6, {}), (45, 3, {}), (50, 5, {"left_out": "a slip"}), (60, 0, {"outcome": "missed"})],
    ids=["equal", "lighter, and a first one for six", "equal for three", "left out", "nothing was made"],
)
def test_what_is_no_fall(log, ivo, press, load, reps, more):
    did(log, ivo, press, 24, 40, 5)
    did(log, ivo, press, 10, 45, 3)
    assert falls.fallen_mark(log, did(log, ivo, press, 0, load, reps, **more)) is None


def test_the_first_set_of_a_lift_has_beaten_nothing(log, ivo, press):
    assert falls.fallen_mark(log, did(log, ivo, press, 0, 40, 5)) is None


def test_a_max_that_was_tested_elsewhere_counts_and_a_declared_one_does_not(log, ivo, press):
    day = this_day() - timedelta(days=9)
    rep_maxes.add_rep_max(log, ivo.id, press.id, day, 1, kg(60), tested=False)
    rep_maxes.add_rep_max(log, ivo.id, press.id, day, 1, kg(50), tested=True)
    fallen = falls.fallen_mark(log, did(log, ivo, press, 0, 52.5, 1))
    assert fallen is not None
    assert (fallen.before, fallen.before_on) == (kg(50), day)


def test_a_set_that_is_logged_late_beats_nothing_that_came_after_it(log, ivo, press):
    did(log, ivo, press, 30, 40, 5)
    did(log, ivo, press, 2, 60, 5)
    late = falls.fallen_mark(log, did(log, ivo, press, 10, 50, 5))
    assert late is not None
    assert late.before == kg(40)


@given(st.lists(st.tuples(st.integers(1, 12), st.integers(20, 60)), min_size=2, max_size=8))
def test_it_is_a_fall_exactly_where_the_list_of_best_marks_changes_one_that_was_there(made):
    *before, (reps, load) = made
    day = this_day()
    best = {n: max((kg for r, kg in before if r >= n), default=None) for n in range(1, 13)}
    wanted = [n for n in range(1, reps + 1) if best[n] is not None and load > best[n]]
    lift = LiftRecord("l", "press", "barbell", 1, False, False, False)
    row = SetRow(
        "s", "m", "x", day, lift, 0, "work", kg(load), reps, None, "done", None, None, "", None, None, None,
        None, None,  # type: ignore[arg-type]
    )  # fmt: skip
    found = falls.fallen(row, [(r, kg(each), day) for r, each in before])
    assert ([found.reps, *found.also] if found else []) == sorted(wanted, reverse=True)


def test_it_agrees_with_the_best_marks_that_the_trend_shows(log, ivo, press):
    did(log, ivo, press, 24, 40, 5)
    did(log, ivo, press, 0, 42.5, 5)
    five = next(each for each in marks.best_marks(log, ivo, press) if each.reps == 5)
    assert (five.done, five.done_on) == (kg(42.5), this_day())


def test_a_piece_that_was_beaten_says_the_best_before_among_like_ones(log, ivo):
    piece = conditioning.add_piece(
        log, Piece("Harbour", "for time", (Task("burpee", Steady(20)), Task("pull-up", Steady(10))), rounds=3)
    )

    def score(days_ago: int, text: str, **more):
        day = this_day() - timedelta(days=days_ago)
        return falls.fallen_score(
            log, ivo.id, conditioning.log_score(log, ivo.id, piece.id, day, Said(text, **more)).id
        )

    assert score(40, "8:41") is None  # the first has beaten nothing
    assert score(30, "9:02") is None
    assert score(20, "7:00", swaps="pull-up -> ring row") is None  # not alike
    fallen = score(0, "8:12")
    assert fallen is not None
    assert (fallen.now, fallen.before, fallen.before_on) == ("8:12", "8:41", this_day() - timedelta(days=40))
    assert fallen.words(this_day()).startswith("Best so far. Before: 8:41 on ")
    assert score(0, "8:12") is None  # the same again is none
