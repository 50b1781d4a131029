"""What a piece of a sheet is called where it is scored, and the piece in words alone."""

from __future__ import annotations

from typing import Any

from tracker.prescription.sheet.piece import Piece
from tracker.prescription.sheet.printing import movement_line

MOST_TITLE = 60
# What the conditioning room calls otherwise: its options and scores of before go by these names.
SCORED_NAMES = {
    "wall ball": "wall ball shot", "toes to bar": "toes-to-bar", "double under": "double-under", "knee push-up": "push-up from the knees",
}  # fmt: skip


def piece_title(piece: Piece) -> str:
    """Return the piece's title; without one its kind and movements."""
    if piece.title.strip():
        return " ".join(piece.title.split())[:MOST_TITLE].strip()
    names = ", ".join(movement.name for movement in piece.movements)
    kind = {"as many as possible": "AMRAP", "unscored": "Piece"}.get(piece.kind, piece.kind)
    words = f"{kind}: {names}" if names else kind
    words = words[:1].upper() + words[1:]
    return words if len(words) <= MOST_TITLE else words[: MOST_TITLE - 1].rstrip(" ,") + "…"


def unscored_record(piece: Piece) -> dict[str, Any]:
    """Return the piece as words alone, where it can't be scored as it is written."""
    words = "\n".join([*(movement_line(each) for each in piece.movements), *piece.notes])
    return {"title": piece_title(piece), "kind": "unscored", "movement": [], **({"note": words} if words else {})}
