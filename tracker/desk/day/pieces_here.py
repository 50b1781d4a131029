"""A piece of the session that is on, in plain words: what it asks, its movements with their options, whose side, the score."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.conditioning.asked import asked_words, movement_lines, option_lines, scheme_words
from tracker.conditioning.pieces import SIDES
from tracker.conditioning.sides import side_words
from tracker.conditioning.told import told_words
from tracker.desk.day.today import DayPlan
from tracker.desk.maxes.words import first_up
from tracker.log.pieces import PieceRow


@dataclass(frozen=True, slots=True)
class Movement:
    """One movement of a piece, and what may be done instead of it: the coach's options, then the member's own."""

    words: str
    options: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PieceHere:
    """One piece of the session that is on."""

    piece_id: str
    title: str
    words: str  # all that it asks, in one line
    scheme: str  # how it is scored and how long it goes
    movements: tuple[Movement, ...]
    notes: tuple[str, ...]  # the coach's
    asks_side: tuple[str, ...]  # the two numbers of which the member has not said yet which is theirs; else empty
    yours: str  # the member's side of the pairs, in words; empty where there are none
    partners: int  # how many do it together; 1 alone
    score: str  # what was got; empty as long as it is open
    done: bool
    row: PieceRow


def piece_here(row: PieceRow, plan: DayPlan) -> PieceHere:
    """Say a piece of a plan's session; its newest score of the day counts."""
    piece, title = row.piece, row.piece.title.casefold()
    got = next((each for each in reversed(plan.scores) if each.score.piece.title.casefold() == title), None)
    return PieceHere(
        row.id,
        piece.title,
        first_up(asked_words(piece)),
        first_up(scheme_words(piece)),
        tuple(
            Movement(whole, option_lines(piece, task))
            for whole, task in zip(movement_lines(piece), piece.tasks, strict=True)
        ),
        tuple(line for line in piece.note.splitlines() if line.strip()),
        tuple(side_words(row.written, side) for side in SIDES) if piece.paired else (),
        piece.yours,
        piece.partners,
        told_words(got.score) if got else "",
        row not in plan.open_pieces,
        row,
    )
