"""An interval that nobody timed stays its own place in the row: those after it never move up."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.words import parse_score, score_words
from tracker.errors import BadInputError

ROWS = Piece("Rows", "work and rest", (Task("row", Steady(500), "m"),), rest_s=120, intervals=5)
METRES = Piece("Bike", "work and rest", (Task("bike", measure="m", most=True),), work_s=60, rest_s=60, intervals=4)
DAY = date(2026, 3, 2)


@pytest.mark.parametrize(
    "said", ["1:58.4, 1:58.9, , 2:00.1", "1:58.4; 1:58.9; ; 2:00.1", "1:58.4 1:58.9 - 2:00.1", "1:58.4, 1:58.9, not timed, 2:00.1, "]
)  # fmt: skip
def test_an_interval_without_a_time_keeps_its_place(said: str):
    score = parse_score(ROWS, DAY, said)
    assert score.each_s == (Decimal("118.4"), Decimal("118.9"), 0, Decimal("120.1"))
    words = score_words(score)
    assert words == "1:58.4, 1:58.9, not timed, 2:00.1"
    assert parse_score(ROWS, DAY, words) == score == score_from(ROWS, score_record(score))
    assert score.timed_s == (Decimal("118.4"), Decimal("118.9"), Decimal("120.1"))
    assert score.all_intervals_s == ()


def test_all_places_filled_but_one_is_not_all_of_them():
    score = parse_score(ROWS, DAY, "1:58, 1:59, -, 2:00, 2:01")
    assert len(score.each_s) == 5
    assert score.all_intervals_s == ()


@pytest.mark.parametrize("said", ["-", "-, -, -"])
def test_nothing_but_gaps_is_no_score(said: str):
    with pytest.raises(BadInputError):
        parse_score(ROWS, DAY, said)


def test_a_gap_in_counts_is_asked_about_and_never_closed():
    with pytest.raises(BadInputError, match="interval 2 says nothing"):
        parse_score(METRES, DAY, "577, , 554")
    assert [each.low for each in parse_score(METRES, DAY, "577, 0, 554").each] == [577, 0, 554]
