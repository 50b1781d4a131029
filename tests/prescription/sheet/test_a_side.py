"""A movement for each side is shown as the coach wrote it, and counted for both; rounds without a score are said."""

from __future__ import annotations

import pytest

from tracker.conditioning.asked import asked_words
from tracker.conditioning.pieces import Piece
from tracker.prescription.sheet import read
from tracker.prescription.sheet.model import LiftBlock
from tracker.prescription.sheet.piece import Count, PieceBlock
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


@pytest.mark.parametrize("sides", ["8L/8R", "8 L / 8 R", "8 left, 8 right", "8l+8r", "8+8", "8 + 8"])
def test_each_side_by_its_letters_or_as_a_sum(sides: str):
    piece = piece_of(f"10 min AMRAP\n{sides} single arm dumbbell snatch 22.5 kg\n200 m run")
    assert "8 each side: single arm dumbbell snatch" in asked_words(piece)
    assert piece.tasks[0].amount.at(0) == 16
    (session,) = read(f"Split squat 3x{sides}, 2 x 16 kg").sheet.sessions
    (lift,) = session.items
    assert isinstance(lift, LiftBlock)
    assert (lift.each_side, [(each.sets, each.reps.parts) for each in lift.sets]) == (True, [(3, (8,))])


def test_a_sum_of_a_complex_is_no_number_of_sides():
    (session,) = read("Clean + jerk 3x2+2 @ 70 % of 1RM").sheet.sessions
    assert session.items[0].each_side is False


def test_a_home_version_in_brackets_is_an_option():
    (block,) = read("AMRAP 12:\n8 toes to bar (home version: 10 ring rows)\n12 wall balls 9 kg").sheet.sessions[0].items
    (option,) = block.movements[0].options
    assert (option.name, option.when, option.count) == ("ring row", "home", Count((10,)))


@pytest.mark.parametrize(
    ("line", "lift"),
    [
        ("Weighted pull-up 3x5 @ 70 % of 1RM", "weighted pull-up"),
        ("Bulgarian split squat 3x8, 2 x 16 kg", "bulgarian split squat"),
    ],
)
def test_work_right_below_a_warm_up_is_no_part_of_it(line: str, lift: str):
    warm, work = read(f"Warm-up\n5 min row\n2x10 goblet squats 12 kg\n{line}").sheet.sessions[0].items
    assert warm.lines == ("5 min row", "2x10 goblet squats 12 kg")
    assert work.names[0].lower() == lift
