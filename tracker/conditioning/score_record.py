"""A score as plain values for a file or a log, and back; its piece is kept apart."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from tracker.conditioning.counts import Count
from tracker.conditioning.piece_record import task_from, task_record
from tracker.conditioning.pieces import SIDES, Piece
from tracker.conditioning.scores import Score, Swap
from tracker.conditioning.sides import for_side
from tracker.errors import BadInputError
from tracker.units import Mass, parse_decimal, parse_unit, plain

PLAIN = ("time_s", "ended", "kept", "tie_break_s", "note")


def score_record(score: Score) -> dict[str, Any]:
    """Return the score as values that JSON can hold; what is not set is left out."""
    record: dict[str, Any] = {"day": score.day.isoformat(), **{name: getattr(score, name) for name in PLAIN}}
    record["count"] = [score.count.low, score.count.high] if score.count else None
    record["load"] = [plain(score.load.amount), score.load.unit] if score.load else None
    record["each"] = [[each.low, each.high] for each in score.each]
    record["side"] = score.piece.side
    record["splits_s"] = list(score.splits_s)
    record["swaps"] = [{"index": swap.index, "task": task_record(swap.task)} for swap in score.swaps]
    return {name: value for name, value in record.items() if value not in (None, [], "")}


def score_from(piece: Piece, record: Mapping[str, Any]) -> Score:
    """Read a score of `piece` back; of a piece with pairs it is one of what this member did.

    Raises:
        BadInputError: if a value is missing or can't be.
    """
    try:
        piece = for_side(piece, record["side"]) if record.get("side") in SIDES else piece
        return Score(
            piece,
            date.fromisoformat(record["day"]),
            **{name: record[name] for name in PLAIN if name in record},
            count=Count(*record["count"]) if "count" in record else None,
            load=Mass(parse_decimal(record["load"][0]), parse_unit(record["load"][1])) if "load" in record else None,
            each=tuple(Count(*each) for each in record.get("each", ())),
            splits_s=tuple(record.get("splits_s", ())),
            swaps=tuple(
                Swap(swap["index"], task_from(swap["task"], where=piece.title)) for swap in record.get("swaps", ())
            ),
        )
    except (KeyError, TypeError, ValueError, IndexError, AttributeError) as err:
        raise BadInputError("This is no record of a score.", where=piece.title, mend="Enter the score again.") from err
