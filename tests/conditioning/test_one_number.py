"""A piece that is scored by one number: in metres or calories where that is all that counts in it."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.words import parse_score, score_words

ROW = Task("row", measure="m", most=True)
BIKE = Task("bike", measure="cal", most=True)
HOLD = Task("plank", no_amount=True)
BURPEES = Task("burpee", Steady(10))


def amrap(*tasks: Task) -> Piece:
    return Piece("Lantern", "as many as possible", tasks, cap_s=1200, partners=2)


@pytest.mark.parametrize(
    ("piece", "measure"),
    [
        (amrap(ROW), "m"),
        (amrap(ROW, HOLD), "m"),
        (amrap(HOLD, ROW), "m"),
        (amrap(BURPEES, ROW), "m"),  # what is left goes into metres: nothing else of it is open
        (amrap(ROW, BURPEES), "reps"),
        (amrap(BIKE, HOLD), "cal"),
        (amrap(Task("row", Steady(400), "m", part="buy-in"), BIKE, HOLD), "cal"),
        (amrap(Task("row", measure="cal", no_amount=True), Task("bike", measure="cal", no_amount=True)), "cal"),
        (amrap(BIKE, BURPEES), "reps"),  # calories and repetitions are counted together
        (amrap(ROW, BIKE), "reps"),
        (amrap(HOLD, Task("push-up", most=True)), "reps"),
    ],
)
def test_the_measure_is_that_of_what_counts(piece: Piece, measure: str):
    assert not piece.placed
    assert piece.one_number_in == measure
    said = score_words(parse_score(piece, this_day(), "412"))
    assert said == f"412 {measure}"


def test_metres_are_taken_where_metres_count():
    piece = amrap(HOLD, ROW)
    assert score_words(parse_score(piece, this_day(), "412 m")) == "412 m"
    assert score_words(parse_score(amrap(BIKE, HOLD), this_day(), "58 cal")) == "58 cal"
