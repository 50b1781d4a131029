"""What the rest of a piece's time is for is a movement without a number, and its repetitions are the score."""

from __future__ import annotations

from datetime import date

import pytest

from tracker.conditioning.told import told_words
from tracker.conditioning.words import parse_score
from tracker.prescription.sheet import parse_sheet
from tracker.prescription.sheet.piece import PieceBlock
from tracker.prescription.sheet.written.piece_scored import scored_piece

HEAD = "20 min AMRAP\n100 cal bike\n80 box step-ups\n60 swings\n"


def piece_of(text: str):
    (item,) = parse_sheet(text).sessions[0].items
    assert isinstance(item, PieceBlock)
    return scored_piece(item)


@pytest.mark.parametrize(
    "last",
    [
        "then as many burpees as possible in what is left",
        "then as many burpees as possible",
        "and then as many burpees as you can in the time left",
        "as many burpees as possible in the remaining time",
        "then as many burpees as possible until the end",
    ],
)
def test_as_many_as_possible_of_the_rest_is_a_movement(last: str):
    piece = piece_of(HEAD + last)
    assert [task.movement for task in piece.tasks][-1] == "burpee"
    assert piece.tasks[-1].most
    assert piece.tasks[-1].standard == ""
    assert piece.placed


def test_it_is_read_within_a_line_too():
    piece = piece_of(
        "20 min AMRAP: 100 cal bike, 80 box step-ups, 60 swings, then as many burpees as possible in what is left"
    )
    assert piece.tasks[-1].most


def test_the_score_is_all_parts_and_so_many_of_the_last():
    piece = piece_of(HEAD + "then as many burpees as possible in what is left")
    score = parse_score(piece, date(2026, 3, 2), "1 round and 47 reps")
    assert score.count is not None
    assert score.count.low == 100 + 80 + 60 + 47
    assert "47" in told_words(score)


def test_words_about_sets_stay_words():
    items = parse_sheet("Back squat 3x5 @ 80 % of 5RM\nDo as many warm-up sets as you need").sessions[0].items
    assert len(items) >= 1
    assert not any(isinstance(each, PieceBlock) for each in items)
