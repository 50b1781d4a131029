"""A piece of a sheet as the conditioning room scores it: pairs stay pairs, of which each member takes a side."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from tracker.conditioning.piece_record import usable_piece
from tracker.conditioning.pieces import Piece as ScoredPiece
from tracker.errors import BadInputError
from tracker.prescription.sheet.piece import Piece, piece_record
from tracker.prescription.sheet.piece_scored import SCORED_NAMES, piece_title, unscored_record


def scored_piece(piece: Piece) -> ScoredPiece:
    """Return the piece that the log keeps; one that can't be scored as it is written is kept without a score, else in words."""
    try:
        return usable_piece(_as_scored(piece_record(replace(piece, title=piece_title(piece)))))
    except BadInputError:
        return usable_piece(unscored_record(piece))


def _as_scored(record: dict[str, Any]) -> dict[str, Any]:
    """Call movements as the conditioning room does, and count both sides together, as it does.

    Its options and scores of before go by these names; a sheet says how many for each side.
    """
    named = record | {"name": SCORED_NAMES.get(record["name"], record["name"])} if "name" in record else record
    if record.get("each_side"):
        named |= {key: 2 * record[key] for key in ("first", "step") if key in record}
        named |= {key: [2 * each for each in record[key]] for key in ("reps", "sides") if key in record}
    return named | {key: [_as_scored(each) for each in record[key]] for key in ("movement", "options") if key in record}
