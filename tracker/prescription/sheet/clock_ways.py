"""Strength on a clock in its two readings: sets of a lift, or a piece."""

from __future__ import annotations

from tracker.prescription.sheet.model import Reps, SetGroup
from tracker.prescription.sheet.piece import Count, Movement, Pair
from tracker.prescription.sheet.pieces.draft import PieceDraft, as_complex
from tracker.prescription.sheet.walk.drafts import LiftDraft
from tracker.prescription.sheet.words.names import known
from tracker.prescription.sheet.written.said_back import load_words
from tracker.units import Mass


def as_piece(lift: LiftDraft) -> PieceDraft | None:
    """Return the piece on a clock that these sets would be; None where they stand on none, or can't be."""
    groups = [group for group in lift.groups if isinstance(group, SetGroup)]
    if not lift.every_s or len(groups) != 1 or len(lift.names) != 1 or len(groups[0].reps.parts) != 1:
        return None
    load = groups[0].load
    words = [] if load is None or isinstance(load, Mass | Pair) else [load_words(load, lift.of)]
    move = Movement(
        lift.names[0][:1].lower() + lift.names[0][1:],
        Count((groups[0].reps.parts[0],)),
        "reps",
        load if isinstance(load, Mass | Pair) else None,
        standard=", ".join(words),
        line=lift.line,
    )
    fields = {"kind": "every minute", "work_s": lift.every_s, "intervals": groups[0].sets}
    return PieceDraft(
        lift.line, fields=fields, moves=[move], notes=list(lift.notes), text=list(lift.text), label=lift.label
    )


def _each_time(move: Movement) -> int:
    """The repetitions of a barbell's lift in each interval, at its load; 0 where it is none."""
    entry = known(move.name, lift=True)
    plain = move.load is not None and move.measure == "reps" and entry is not None and entry.implement == "barbell"
    return (
        move.count.reps[0] if plain and move.count is not None and not move.count.listed and not move.count.step else 0
    )


def lift_on_clock(piece: PieceDraft) -> LiftDraft | None:
    """Return the sets that this piece would be if its one lift is meant as strength; None where it can't be."""
    work, number = piece.fields.get("work_s"), piece.fields.get("intervals")
    if piece.fields.get("kind") != "every minute" or not piece.strength_clock or not piece.moves or not number:
        return None
    moves = as_complex(piece.moves, piece.text)
    if len(moves) > 1 and moves == piece.moves:
        return None  # several movements, and no complex on one bar
    move, reps = moves[0], [_each_time(move) for move in moves]
    entry = known(move.name, lift=True)
    if not all(reps) or entry is None:
        return None
    lift = LiftDraft(
        [move.name[:1].upper() + move.name[1:], *(each.name for each in moves[1:])],
        piece.line,
        entry,
        every_s=work,
        text=list(piece.text),
        notes=list(piece.notes),
    )
    lift.groups = [SetGroup(number, Reps(tuple(reps)), move.load, line=piece.line)]
    return lift
