"""A piece of a sheet as the conditioning room scores it: what that room has no place for stands in words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from tracker.prescription.sheet.piece import (
    COUNTLESS,
    ONE_MOVEMENT,
    Count,
    Movement,
    Pair,
    Piece,
    piece_record,
)
from tracker.prescription.sheet.printing import movement_line
from tracker.units import plain

MOST_TITLE = 60
# What the conditioning room calls otherwise: its options and scores of before go by these names.
SCORED_NAMES = {
    "wall ball": "wall ball shot", "toes to bar": "toes-to-bar", "double under": "double-under", "knee push-up": "push-up from the knees",
}  # fmt: skip
NEEDS_TIME = ("as many as possible", "distance", "calories", "heaviest")


def piece_title(piece: Piece) -> str:
    """Return the piece's title; without one its kind and movements."""
    if piece.title.strip():
        return " ".join(piece.title.split())[:MOST_TITLE].strip()
    names = ", ".join(movement.name for movement in piece.movements)
    kind = {"as many as possible": "AMRAP", "unscored": "Piece"}.get(piece.kind, piece.kind)
    words = f"{kind}: {names}" if names else kind
    words = words[:1].upper() + words[1:]
    return words if len(words) <= MOST_TITLE else words[: MOST_TITLE - 1].rstrip(" ,") + "…"


def scored_record(piece: Piece) -> dict[str, Any]:
    """Return the piece as keys and values that `conditioning.piece_record.piece_from` takes.

    A pair of amounts counts its larger one, and stands in words with a pair of loads, for each member to take a side. What
    is done once before or after rounds is a note. Without what its kind needs to be scored it is not scored.
    """
    once = [movement for movement in piece.movements if movement.part]
    if once and (piece.rounds or _lists(piece)):
        notes = [movement_line(movement).capitalize() for movement in once]
        piece = replace(
            piece, movements=tuple(each for each in piece.movements if not each.part), notes=(*notes, *piece.notes)
        )
    piece = replace(piece, title=piece_title(piece))
    if piece.kind in ONE_MOVEMENT and len(piece.movements) != 1:
        piece = replace(piece, kind="as many as possible")
    if not _can_be_scored(piece):
        piece = replace(piece, kind="unscored")
    record = piece_record(replace(piece, movements=()))
    record.pop("movement")
    return record | {"movement": [_movement(each, piece.scheme) for each in piece.movements]}


def unscored_record(piece: Piece) -> dict[str, Any]:
    """Return the piece as words alone, where it can't be scored as it is written."""
    words = "\n".join([*(movement_line(each) for each in piece.movements), *piece.notes])
    return {"title": piece_title(piece), "kind": "unscored", "movement": [], **({"note": words} if words else {})}


def _lists(piece: Piece) -> bool:
    counts = [movement.count or piece.scheme for movement in piece.movements]
    return any(count is not None and count.listed for count in counts)


def _can_be_scored(piece: Piece) -> bool:
    if not piece.movements:
        return piece.kind == "unscored"
    if piece.kind in NEEDS_TIME and piece.cap_s is None:
        return False
    if piece.kind in ("every minute", "work and rest") and not (piece.work_s and piece.intervals):
        return False
    counted = [movement.count or piece.scheme or movement.sides or movement.most for movement in piece.movements]
    if piece.kind not in COUNTLESS and not all(counted):
        return piece.kind == "as many as possible"
    rises = any(
        count is not None and not isinstance(count, (bool, tuple)) and count.step > 0
        for count in counted
        if isinstance(count, Count)
    )
    return not (piece.kind == "for time" and rises and not piece.rounds and not _lists(piece))


def _movement(movement: Movement, before: Count | None) -> dict[str, Any]:
    count = movement.count or (Count((movement.sides[0],)) if movement.sides else None) or before or Count((1,))
    twice = 2 if movement.each_side else 1
    record: dict[str, Any] = {"name": SCORED_NAMES.get(movement.name, movement.name)}
    if count.listed:
        record["reps"] = [each * twice for each in count.reps]
    else:
        record |= {"first": count.reps[0] * twice, "step": count.step * twice}
    if movement.load is not None and not isinstance(movement.load, Pair):
        record |= {"load": plain(movement.load.amount), "unit": movement.load.unit}
    heights = movement.heights_cm
    words: Sequence[str] = [
        movement.when, f"{movement.sides[0]}/{movement.sides[1]}" if movement.sides else "", "as many as there is time for" if movement.most else "",
        str(movement.load) if isinstance(movement.load, Pair) else "", f"{plain(heights[0])}/{plain(heights[1])} cm high" if heights else "",
        movement.standard,
    ]  # fmt: skip
    values: dict[str, Any] = {
        "measure": movement.measure if movement.measure != "reps" else "", "implement": movement.implement,
        "implements": movement.implements if movement.implements > 1 else 0, "per_side": movement.each_side,
        "height_cm": None if movement.height_cm is None else plain(movement.height_cm),
        "target_cm": None if movement.target_cm is None else plain(movement.target_cm),
        "assistance": movement.assistance, "standard": ", ".join(word for word in words if word),
        "options": [_movement(replace(each, options=()), count) for each in movement.options],
    }  # fmt: skip
    return record | {key: value for key, value in values.items() if value}
