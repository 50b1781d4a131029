"""Every piece of a sheet is one that the log can keep, whatever it says."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given, settings

from tests.prescription.sheet.test_round_trip import pieces
from tracker.conditioning.asked import movement_lines
from tracker.conditioning.ladder import Listed, Steady
from tracker.conditioning.piece_record import piece_from, record_of
from tracker.conditioning.pieces import Kind
from tracker.prescription.sheet import parse_sheet
from tracker.prescription.sheet.piece import Count, Movement, Pair, PieceBlock
from tracker.prescription.sheet.written.piece_scored import scored_piece
from tracker.units import Mass


@settings(max_examples=100, deadline=None)
@given(pieces())
def test_every_piece_of_a_sheet_is_one_that_can_be_kept(piece: PieceBlock) -> None:
    scored = scored_piece(piece)
    assert scored.title
    assert record_of(piece_from(record_of(scored))) == record_of(scored)
    assert len(scored.tasks) in (0, len(piece.movements))


def test_what_is_counted_for_each_side_is_scored_for_both_together() -> None:
    (item,) = parse_sheet("Piece: Mill\nfor time\n5 lunge, each side, 2 x 10 kg dumbbells").sessions[0].items
    assert isinstance(item, PieceBlock)
    (lunge,) = scored_piece(item).tasks
    assert (lunge.run.at(1), lunge.per_side, str(lunge.load), lunge.implements) == (10, True, "10 kg", 2)


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        ("as many as possible", "it needs the time to fill"),
        ("every minute", "it needs the length of an interval"),
        ("for time", "nothing says how many rounds there are"),
    ],
)
def test_a_piece_that_lacks_something_is_kept_without_a_score_and_says_so(kind: Kind, said: str) -> None:
    """Of the one for time only what comes last ends by itself."""
    part = "cash-out" if kind == "for time" else ""
    movements = (Movement("row", measure="cal", sides=(12, 9)), Movement("wall ball", Count((10, 5)), part=part))
    piece = scored_piece(PieceBlock("", kind, movements, notes=("easy pace",)))
    assert piece.title.endswith(": row, wall ball")
    assert piece.kind == "unscored"
    assert piece.note.startswith("easy pace\n")
    assert said in piece.note
    assert movement_lines(piece)[0] == "12/9 cal row"
    assert [task.movement for task in piece.tasks] == ["row", "wall ball shot"]


def test_two_equal_numbers_are_no_pair_and_of_a_pair_the_larger_stands_first() -> None:
    light, heavy = Mass(Decimal(30), "kg"), Mass(Decimal("66.5"), "lb")
    swing = Movement("swing", load=Pair(light, heavy), heights_cm=(Decimal(51), Decimal(61)), sides=(9, 12))
    (task,) = scored_piece(PieceBlock("Mill", "for time", (swing,))).tasks
    assert (task.load, task.height_cm, task.sides) == ((heavy, light), (61, 51), (12, 9))
    same = Movement("swing", load=Pair(light, light), heights_cm=(Decimal(51), Decimal(51)), sides=(9, 9))
    (task,) = scored_piece(PieceBlock("Mill", "for time", (same,))).tasks
    assert (task.load, task.height_cm, task.sides, task.run) == (light, 51, None, Steady(9))


def test_an_option_without_an_amount_has_that_of_its_movement() -> None:
    options = (Movement("knee push-up"), Movement("plank", Count((30,)), "s"))
    main = Movement("push-up", Count((21, 15, 9)), part="buy-in", options=options)
    (task,) = scored_piece(PieceBlock("Mill", "for time", (main,))).tasks
    assert [(each.movement, each.run, each.measure, each.part) for each in task.options] == [
        ("push-up from the knees", Listed((21, 15, 9)), "reps", "buy-in"),
        ("plank", Steady(30), "s", "buy-in"),
    ]


@pytest.mark.parametrize(
    "movement",
    [
        Movement("lunge", Count((2_000_000_000,))),
        Movement("lunge", Count((5,)), implements=3),
        Movement(" ", Count((5,))),
        Movement("lunge", Count((5,)), load=Mass(Decimal("1E+40"), "kg")),
        Movement("lunge", Count((5,)), standard="far " * 5000),
        Movement("a", options=(Movement("b", options=(Movement("c", options=(Movement("d", options=(Movement("e"),)),)),)),)),
    ],
)  # fmt: skip
def test_what_no_movement_of_a_score_can_be_stays_in_words(movement: Movement) -> None:
    piece = scored_piece(PieceBlock("Mill", "as many as possible", (movement,), cap_s=600))
    assert (piece.kind, piece.tasks) == ("unscored", ())
    assert movement.name in piece.note
    assert piece_from(record_of(piece)) == piece


def test_more_notes_than_a_record_holds_refuse_no_sheet() -> None:
    """A piece with pages of remarks was refused, and the whole sheet with it."""
    notes = tuple(f"{number}: " + "word " * 60 for number in range(60))
    piece = scored_piece(PieceBlock("Mill", "for time", (Movement("burpee", Count((5,))),), notes=notes))
    assert (piece.kind, len(piece.tasks)) == ("for time", 1)
    assert piece.note.startswith(notes[0])
    assert piece.note.endswith("…")
    assert piece_from(record_of(piece)) == piece


def test_as_many_as_there_are_on_each_side_come_back_from_the_log() -> None:
    """What was kept of it could not be read again, and no page of pieces opened."""
    text = "Piece: Mill\nas many reps as possible in 10:00, 10 of each\nburpee\nmax lunge, each side"
    (item,) = parse_sheet(text).sessions[0].items
    assert isinstance(item, PieceBlock)
    piece = scored_piece(item)
    assert [(task.movement, task.most, task.per_side) for task in piece.tasks] == [
        ("burpee", False, False),
        ("lunge", True, True),
    ]
    assert movement_lines(piece_from(record_of(piece))) == movement_lines(piece)
