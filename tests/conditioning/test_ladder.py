"""Ladders there and back: counting one by one, worked examples, and positions that can't be."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.conditioning.ladder import (
    ImpossiblePositionError,
    Ladder,
    Listed,
    Position,
    Steady,
    equal_ladder,
    listed_ladder,
    unequal_ladder,
)
from tracker.conditioning.standing import standing, through_words
from tracker.errors import BadInputError

MANY = 10**60


def counted(ladder: Ladder, rounds: int):
    """Every position of the first rounds, one repetition at a time: the slow way that can't be wrong."""
    for k in range(rounds):
        for j, asked in enumerate(ladder.at(k)):
            for p in range(asked):
                yield Position(k, j, p)


SMALL = (
    [equal_ladder(a, d, m) for a in range(1, 7) for d in range(6) for m in range(1, 6)]
    + [equal_ladder(a, d, m) for a in range(1, 13) for d in (-1, -2, -3) for m in (1, 2, 3)]
    + [equal_ladder(a, d, m, n) for a in (1, 3) for d in (0, 2) for m in (1, 3) for n in (1, 2, 5)]
    + [Ladder((Steady(a, d), Steady(b, e))) for a in (1, 4) for d in (-1, 0, 3) for b in (2, 10) for e in (-2, 0, 1)]
    + [
        listed_ladder((*range(a, a + n * d, d), *range(a + n * d, a - 1, -d)), m)
        for a in (1, 2)
        for d in (1, 2)
        for n in (1, 3)
        for m in (1, 2)
    ]
    + [Ladder((Listed((21, 15, 9)), Steady(10))), listed_ladder((5, 1, 5, 2), 3)]
)


@pytest.mark.parametrize("ladder", SMALL, ids=str)
def test_counting_one_by_one_agrees_there_and_back(ladder):
    rounds = min(ladder.rounds or 8, 12)
    for total, where in enumerate(counted(ladder, rounds)):
        assert ladder.total(where) == total
        assert ladder.position(total) == where
        assert sum(ladder.per_movement(total)) == total


def test_the_small_cases_are_many():
    assert sum(1 for ladder in SMALL for _ in counted(ladder, min(ladder.rounds or 8, 12))) > 50_000


steps = st.builds(Steady, st.integers(1, 10**9), st.integers(0, 10**9))
lists = st.builds(Listed, st.lists(st.integers(1, 10**6), min_size=1, max_size=30).map(tuple))


@given(st.lists(steps, min_size=1, max_size=5), st.integers(0, MANY))
@settings(max_examples=200, deadline=None)
def test_any_total_of_an_open_ladder_comes_back(runs, total):
    ladder = Ladder(tuple(runs))
    where = ladder.position(total)
    assert ladder.total(where) == total
    assert ladder.through(where.rounds) <= total < ladder.through(where.rounds + 1)


@given(st.lists(st.one_of(lists, steps), min_size=1, max_size=4), st.data())
@settings(max_examples=150, deadline=None)
def test_any_total_of_a_ladder_with_an_end_comes_back(runs, data):
    ladder = Ladder(tuple(runs), data.draw(st.integers(1, 40)))
    total = data.draw(st.integers(0, ladder.all_reps))
    assert ladder.total(ladder.position(total)) == total
    with pytest.raises(ImpossiblePositionError) as refused:
        ladder.position(ladder.all_reps + 1)
    assert refused.value.meant == Position(ladder.rounds)


@given(st.integers(1, 10**12), st.integers(1, 10**12), st.integers(1, 20), st.integers(0, MANY))
@settings(max_examples=200, deadline=None)
def test_rounds_agree_with_the_whole_number_root_of_the_quadratic(first, step, movements, total):
    """The closed form of the sum of an arithmetic series, solved with an integer square root."""
    each = total // movements
    root = (math.isqrt((2 * first - step) ** 2 + 8 * step * each) - (2 * first - step)) // (2 * step)
    ladder = equal_ladder(first, step, movements)
    root += ladder.through(root + 1) <= total
    assert ladder.position(total).rounds == root


def test_a_float_root_would_be_off_by_one_where_halving_is_not():
    """Just under a round's end, far out, where doubles have no room for the last repetition."""
    ladder, k = equal_ladder(1, 1, 1), 10**9
    total = ladder.through(k) - 1
    assert ladder.position(total) == Position(k - 1, 0, k - 1)
    assert math.floor((-1 + math.sqrt(1 + 8.0 * total)) / 2) == k  # the float answer, one too many


# Worked by the formula T = sum over movements of (k a + d k (k-1) / 2), plus the finished movements of the open round,
# plus p: the sum of an arithmetic series (any school text). Figures computed by hand and by counting.
WORKED = [
    (equal_ladder(3, 3, 3), Position(5, 1, 7), 18, 160),
    (equal_ladder(2, 2, 3), Position(6, 2, 5), 14, 159),
    (equal_ladder(1, 1, 2), Position(12, 1, 0), 13, 169),
    (equal_ladder(5, 5, 2), Position(4, 0, 19), 25, 119),
    (equal_ladder(4, 4, 3), Position(3, 2, 15), 16, 119),
    (equal_ladder(10, 0, 3), Position(7, 2, 4), 10, 234),
    (Ladder((Steady(3, 3), Steady(3, 3), Steady(10))), Position(5, 1, 4), None, 162),
    (Ladder((Steady(5), Steady(10), Steady(15))), Position(9, 1, 6), None, 281),
]


@pytest.mark.parametrize(("ladder", "where", "open_round_reps", "total"), WORKED)
def test_worked_examples(ladder, where, open_round_reps, total):
    stands = standing(ladder, where)
    assert (stands.total_reps, stands.open_round_reps) == (total, open_round_reps)
    assert standing(ladder, total) == stands


@pytest.mark.parametrize(
    ("ladder", "total", "where", "open_round_reps"),
    [(equal_ladder(3, 3, 3), 181, Position(5, 2, 10), 18), (equal_ladder(2, 2, 3), 182, Position(7, 0, 14), 16)],
)
def test_worked_inverses(ladder, total, where, open_round_reps):
    assert ladder.position(total) == where
    assert standing(ladder, total).open_round_reps == open_round_reps


def test_a_round_just_finished_is_the_start_of_the_next():
    assert equal_ladder(3, 3, 3).position(27) == Position(2, 0, 0)
    with pytest.raises(ImpossiblePositionError) as refused:
        equal_ladder(3, 3, 3).total(Position(1, 3, 0))
    assert refused.value.meant == Position(2, 0, 0)
    assert "2 rounds, 0 movements and 0 repetitions" in str(refused.value)


@pytest.mark.parametrize(
    ("ladder", "said", "meant"),
    [
        (equal_ladder(3, 3, 3), Position(5, 0, 18), Position(5, 1, 0)),  # the movement is finished
        (equal_ladder(3, 3, 3), Position(5, 2, 18), Position(6, 0, 0)),  # and with it the round
        (equal_ladder(3, 3, 3), Position(5, 1, 25), Position(5, 1, 7)),  # counted from the start of the round
        (equal_ladder(3, 3, 3), Position(5, 0, 25), Position(5, 1, 7)),  # run on into the next movement
        (equal_ladder(3, 3, 3), Position(5, 1, 20), Position(5, 1, 2)),
        (equal_ladder(10, 0, 3), Position(7, 3, 4), Position(8, 0, 4)),
        (listed_ladder((21, 15, 9), 2), Position(4, 0, 0), Position(3)),
        (listed_ladder((21, 15, 9), 2), Position(3, 1, 0), Position(3)),
        (listed_ladder((21, 15, 9), 2), Position(2, 2, 0), Position(3)),
        (listed_ladder((21, 15, 9), 2), Position(2, 1, 400), Position(3)),
        (equal_ladder(3, 3, 3), Position(-1, 0, 0), None),
        (equal_ladder(3, 3, 3), Position(1, 0, -4), None),
    ],
)
def test_what_cannot_be_is_refused_with_what_was_probably_meant(ladder, said, meant):
    with pytest.raises(ImpossiblePositionError) as refused:
        ladder.total(said)
    assert refused.value.meant == meant
    assert (refused.value.mend).startswith("Probably meant" if meant else "Count from 0")
    if meant:
        ladder.check(meant)


@given(st.sampled_from(SMALL), st.integers(-3, 40), st.integers(-2, 8), st.integers(-2, 60))
@settings(max_examples=300, deadline=None)
def test_every_position_is_either_taken_or_refused_with_one_that_is(ladder, rounds, done, reps):
    said = Position(rounds, done, reps)
    try:
        assert ladder.position(ladder.total(said)) == said
    except ImpossiblePositionError as refused:
        if refused.meant is not None:
            ladder.check(refused.meant)


@pytest.mark.parametrize(
    "build",
    [
        lambda: equal_ladder(0, 1, 3),
        lambda: equal_ladder(3, 3, 0),
        lambda: equal_ladder(3, 3, 2, 0),
        lambda: listed_ladder((), 2),
        lambda: listed_ladder((5, 0, 5), 2),
        lambda: Ladder(()),
        lambda: equal_ladder(1, 1, 1).position(-1),
    ],
)
def test_ladders_that_cannot_be_are_refused_with_a_way_to_mend_them(build):
    with pytest.raises(BadInputError) as refused:
        build()
    assert refused.value.mend


def test_a_falling_ladder_ends_before_it_asks_for_nothing():
    assert equal_ladder(10, -3, 1).rounds == 4  # 10, 7, 4, 1
    assert equal_ladder(10, -3, 1).all_reps == 22
    assert equal_ladder(9, -3, 1).rounds == 3  # 9, 6, 3 and then none


@pytest.mark.parametrize(
    ("ladder", "total", "words"),
    [
        (equal_ladder(3, 3, 3), 160, "through the 15s, plus 25 (1 movement and 7)"),
        (equal_ladder(3, 3, 3), 135, "through the 15s"),
        (equal_ladder(3, 3, 3), 143, "through the 15s, plus 8"),
        (equal_ladder(3, 3, 3), 2, "in the first round, 2 reps"),
        (equal_ladder(10, 0, 3), 234, "7 rounds, plus 24 (2 movements and 4)"),
        (equal_ladder(10, 0, 3), 40, "1 round, plus 10 (1 movement)"),
        (
            Ladder((Steady(3, 3), Steady(3, 3), Steady(10))),
            162,
            "through round 5 (15, 15 and 10), plus 22 (1 movement and 4)",
        ),
        (listed_ladder((21, 15, 9), 2), 77, "through the 15s, plus 5"),
        (listed_ladder((21, 15, 9), 2), 90, "all of it, 90 reps"),
        (listed_ladder((2, 4, 6, 4, 2), 1), 17, "through the 4s for the second time, plus 1"),
        (equal_ladder(1, 1, 1), 10**18, "through the 1,414,213,561s, plus 1,234,742,859"),
    ],
)
def test_words_called_across_a_gym(ladder, total, words):
    assert standing(ladder, total).words == words


def test_unequal_ladders_and_their_record():
    ladder = unequal_ladder((3, 3, 10), (3, 3, 0))
    assert standing(ladder, Position(5, 1, 4)).record == {
        "total_reps": 162, "rounds": 5, "done": 1, "reps": 4, "open_round_reps": None, "open_round": [18, 18, 10],
        "into_round": 22, "words": "through round 5 (15, 15 and 10), plus 22 (1 movement and 4)",
    }  # fmt: skip
    with pytest.raises(BadInputError, match="belong together"):
        unequal_ladder((3, 3), (3,))


def test_naming_finished_rounds():
    assert through_words(Ladder((Steady(5), Steady(10), Steady(15))), 9) == "9 rounds"
    assert through_words(equal_ladder(2, 2, 3), 6) == "through the 12s"
