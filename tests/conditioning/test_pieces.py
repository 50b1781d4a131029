"""One frozen definition of a piece: what it needs, what it refuses, and there and back as a plain record."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.conditioning.ladder import Listed, Steady
from tracker.conditioning.piece_record import piece_from, record_of
from tracker.conditioning.pieces import KINDS, MEASURES, Piece, Task
from tracker.conditioning.times import parse_time, time_words
from tracker.errors import BadInputError
from tracker.units import Mass

SWING = Task("kettlebell swing", Steady(10))


@pytest.mark.parametrize(
    "build",
    [
        lambda: Piece(" ", "unscored"),
        lambda: Piece("A", "as many as possible", (SWING,)),  # no time to fill
        lambda: Piece("A", "as many as possible", (), cap_s=60),
        lambda: Piece("A", "for time", (SWING,)),  # no end
        lambda: Piece("A", "for time", (SWING,), rounds=3, cap_s=0),
        lambda: Piece("A", "for time", (SWING,), rounds=3, cap_s=90_000),
        lambda: Piece("A", "every minute", (SWING,), work_s=60),
        lambda: Piece("A", "work and rest", (SWING,), work_s=60, intervals=0),
        lambda: Piece("A", "work and rest", (SWING,), work_s=60, intervals=9, rest_s=-1),
        lambda: Piece("A", "distance", (SWING, SWING), cap_s=60),
        lambda: Piece("A", "as many reps", (SWING,), cap_s=60),  # type: ignore[arg-type]
        lambda: Piece("A", "unscored", partners=0),
        lambda: Task(""),
        lambda: Task("row", measure="miles"),  # type: ignore[arg-type]
        lambda: Task("snatch", Steady(3, 2), per_side=True),  # 3, 5, 7 can't be split
        lambda: Task("snatch", implements=3),
    ],
)
def test_what_cannot_be_is_refused_with_a_way_to_mend_it(build):
    with pytest.raises(BadInputError) as refused:
        build()
    assert refused.value.mend


def test_a_falling_ladder_for_time_has_an_end_of_its_own():
    piece = Piece("Down", "for time", (Task("burpee", Steady(10, -1)),))
    assert piece.all_reps == 55
    assert piece.better == "less"


def test_a_distance_inside_a_round_counts_one():
    """Common practice: a run of a round counts once, calories count each."""
    tasks = (Task("run", Steady(200), "m"), Task("row", Steady(12), "cal"), Task("sit-up", Listed((9, 9))))
    assert Piece("A", "for time", tasks).all_reps == 2 * (1 + 12 + 9)


def test_length_of_intervals_leaves_out_the_last_rest():
    assert Piece("A", "work and rest", (SWING,), work_s=120, rest_s=60, intervals=5).length_s == 14 * 60


masses = st.builds(Mass, st.decimals("0.5", "200", places=2), st.sampled_from(("kg", "lb")))
runs = st.one_of(
    st.builds(Steady, st.integers(1, 50), st.integers(0, 5)),
    st.builds(Listed, st.lists(st.integers(1, 50), min_size=1, max_size=6).map(tuple)),
)
names = st.text(st.characters(categories=("L", "N"), include_characters=" -"), min_size=1, max_size=20).filter(
    str.strip
)
flat_tasks = st.builds(
    Task, names, runs, st.sampled_from(MEASURES), st.none() | masses, implement=names, implements=st.integers(1, 2),
    height_cm=st.none() | st.decimals("1", "200", places=1), assistance=names, standard=names,
)  # fmt: skip
tasks = st.builds(
    lambda task, options: Task(task.movement, task.run, task.measure, task.load, options=tuple(options)),
    flat_tasks, st.lists(flat_tasks, max_size=2),
)  # fmt: skip


@given(names, st.sampled_from(KINDS), st.lists(tasks, min_size=1, max_size=4), st.integers(1, 9), st.integers(1, 7200))
@settings(max_examples=80, deadline=None)
def test_any_piece_comes_back_from_its_record(title, kind, tasks_of_it, rounds, seconds):
    one = kind in ("distance", "calories", "heaviest")
    piece = Piece(title, kind, tuple(tasks_of_it[:1] if one else tasks_of_it), rounds, seconds, seconds, 5, rounds)
    assert piece_from(record_of(piece)) == piece


@pytest.mark.parametrize(
    ("record", "said"),
    [
        ({"title": "A", "kind": "unscored", "colour": "red"}, "'colour' is not known here"),
        ({"title": "A", "kind": "for time", "cap": "8.30"}, "'8.30' is not a time"),
        ({"title": "A", "kind": "for time", "rounds": 2.5}, "2.5 is not a whole number"),
        ({"title": "A", "kind": "for time", "rounds": 2, "movement": [{"name": "row", "load": "12"}]}, "unit of load"),
        (
            {"title": "A", "kind": "for time", "rounds": 2, "movement": [{"name": "row", "reps": [True]}]},
            "whole number",
        ),
    ],
)
def test_a_wrong_record_says_where(record, said):
    with pytest.raises(BadInputError, match=said) as refused:
        piece_from(record)
    assert refused.value.where.startswith("A")


@pytest.mark.parametrize(
    ("text", "seconds"), [("8:41", 521), ("12:00", 720), ("1:02:03", 3723), ("45 s", 45), ("12 min", 720), ("0:59", 59)]
)
def test_times_are_read(text, seconds):
    assert parse_time(text) == seconds
    assert parse_time(time_words(seconds)) == seconds


@pytest.mark.parametrize("text", ["", "8:61", "1:75:00", "eight", "-3:00", "8,41", "٨:٤١", "nan"])
def test_what_is_no_time_is_refused(text):
    with pytest.raises(BadInputError, match="is not a time"):
        parse_time(text)


def test_words_of_a_task():
    ball = Task("wall ball shot", Steady(12), load=Mass(Decimal(6), "kg"), implement="ball", target_cm=Decimal("300.0"))
    assert ball.words() == "12 wall ball shots, 6 kg, to 300 cm"
