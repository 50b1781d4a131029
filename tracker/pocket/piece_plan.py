"""What a phone takes along of a piece: what is on in each round, and how its score is touched. Plain JSON."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

from tracker.conditioning.asked import movement_lines, now_words
from tracker.conditioning.entry import movement_choices, names_in, round_choices
from tracker.conditioning.named import after_count, many
from tracker.conditioning.pieces import IN_INTERVALS, Piece
from tracker.units import Mass

Record = dict[str, Any]
MOST_ROUNDS = 30  # to be touched


def unit_of(load: Mass | tuple[Mass, Mass] | None) -> str:
    """Return the unit of a movement's load, so that another one can be said; empty where it has none."""
    one = load[0] if isinstance(load, tuple) else load
    return one.unit if one else ""


def on_now(piece: Piece) -> list[str]:
    """Say what is on in each round or interval; the last entry holds for all that follow."""
    lines = movement_lines(piece)
    if piece.kind in IN_INTERVALS:
        return list(lines) if piece.in_turn else ["; ".join(lines)]
    if (
        piece.placed
        and (words := [now_words(piece, number) for number in range((piece.rounds_to_tap or 0) + 1)])
        and any(words)
    ):
        return [each.removeprefix("Now: ") for each in words]
    if not piece.placed or piece.rounds_to_tap == 0:
        return ["; ".join(lines)]
    ladder, names = piece.ladder, names_in(piece)
    count = min(piece.rounds_to_tap or MOST_ROUNDS, MOST_ROUNDS)
    return [
        "; ".join(many(names[ladder.first_of(number) + at], reps) for at, reps in enumerate(ladder.at(number)))
        for number in range(count)
    ]


@lru_cache(maxsize=256)  # many of the rounds are words, and a piece that was written stays
def way(piece: Piece) -> Record:
    """Say how the score is touched: by rounds, time, number, intervals kept, load, or just that it was done."""
    if piece.kind == "unscored":
        return {"way": "done"}
    if piece.kind == "heaviest":
        return {"way": "load"}
    if piece.kind in IN_INTERVALS:
        kept = piece.scored_by == "completed"
        return {
            "way": "kept" if kept else "each",
            "most": piece.intervals,
            "unit": piece.tasks[0].measure if piece.tasks else "",
        }
    if piece.kind in ("distance", "calories"):
        return {"way": "number", "unit": "m" if piece.kind == "distance" else "cal"}
    if not piece.placed:
        unit = piece.one_number_in
        return {"way": "time" if piece.kind == "for time" else "number", "unit": unit, "capped": bool(piece.cap_s)}
    return {
        "way": "time" if piece.kind == "for time" else "rounds",
        "unit": "reps",
        "capped": bool(piece.cap_s),
        "rounds": _rounds(piece),
    }


def _rounds(piece: Piece) -> list[Record]:
    ladder, names = piece.ladder, names_in(piece)
    said: list[Record] = []
    for choice in round_choices(ladder)[: MOST_ROUNDS + 1]:
        asked = ladder.at(choice.number)
        moves = movement_choices(names, ladder, choice.number)
        said.append(
            {
                "n": choice.number,
                "words": choice.words,
                "moves": [[each.number, each.words] for each in moves],
                "reps": [
                    [each, after_count(name, each), name]
                    for each, name in zip(asked, names[ladder.first_of(choice.number) :], strict=False)
                ],
            }
        )
    return said
