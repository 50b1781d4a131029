"""A movement for each side is shown as the coach wrote it, and counted for both; rounds without a score are said."""

from __future__ import annotations

import pytest

from tracker.conditioning.asked import asked_words
from tracker.conditioning.pieces import Piece
from tracker.prescription.sheet import read
from tracker.prescription.sheet.piece import PieceBlock
from tracker.prescription.sheet.written.piece_scored import scored_piece


def piece_of(text: str) -> Piece:
    (block,) = [each for day in read(text).sheet.sessions for each in day.items if isinstance(each, PieceBlock)]
    return scored_piece(block)


def test_so_many_a_side_as_it_was_written():
    piece = piece_of("10 min AMRAP\n10 walking lunges each leg\n30 s side plank each side\n10 burpees")
    said = asked_words(piece)
    assert "10 each side: walking lunges; 30 s each side: side plank; 10 burpees" in said
    assert piece.tasks[0].amount.at(0) == 20  # both count
    assert piece.tasks[0].words() == "10 each side: walking lunges"


def test_so_many_a_side_in_a_scheme():
    assert "21-15-9 each side: lunges; 21-15-9: burpees" in asked_words(
        piece_of("21-15-9 for time\nlunges each leg\nburpees")
    )
    alone = asked_words(piece_of("21-15-9 for time\nlunges each leg\nstep-ups each leg"))
    assert "21-15-9 each side" in alone
    assert "42" not in alone


@pytest.mark.parametrize("text", ["Core\n3 rounds\n10 walking lunges each leg\n30 s side plank each side\n15 sit-ups"])
def test_rounds_without_a_score_are_said(text: str):
    piece = piece_of(text)
    assert (
        asked_words(piece) == "3 rounds, no score; 10 each side: walking lunges; 30 s each side: side plank; 15 sit-ups"
    )
