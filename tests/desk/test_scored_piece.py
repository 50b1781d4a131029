"""Every piece of a sheet is one that the log can keep, whatever it says."""

from __future__ import annotations

from hypothesis import given, settings

from tests.prescription.sheet.test_round_trip import pieces
from tracker.desk.scored_piece import scored_piece
from tracker.prescription.sheet import parse_sheet
from tracker.prescription.sheet.piece import Piece


@settings(max_examples=100, deadline=None)
@given(pieces())
def test_every_piece_of_a_sheet_is_one_that_can_be_kept(piece: Piece) -> None:
    scored = scored_piece(piece)
    assert scored.title
    assert len(scored.tasks) in (0, len(piece.movements))


def test_what_is_counted_for_each_side_is_scored_for_both_together() -> None:
    (item,) = parse_sheet("Piece: Mill\nfor time\n5 lunge, each side, 2 x 10 kg dumbbells").sessions[0].items
    assert isinstance(item, Piece)
    (lunge,) = scored_piece(item).tasks
    assert (lunge.run.at(1), lunge.per_side, str(lunge.load), lunge.implements) == (10, True, "10 kg", 2)
