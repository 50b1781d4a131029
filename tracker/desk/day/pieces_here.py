"""A piece of the session that is on, in plain words: what it asks, its movements with their options, whose side, the score."""

from __future__ import annotations

from dataclasses import dataclass

from tracker.conditioning.asked import asked_words, movement_lines, option_lines, scheme_words
from tracker.conditioning.pieces import SIDES, Piece
from tracker.conditioning.scores import Score
from tracker.conditioning.sides import side_words
from tracker.conditioning.told import told_words
from tracker.conditioning.words import count_words
from tracker.desk.day.piece_at_place import kit_words
from tracker.desk.day.piece_at_place import piece_here as at_place
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
    notes: tuple[str, ...]  # the coach's, then what the kit here has of what is asked
    asks_side: tuple[str, ...]  # the two numbers of which the member has not said yet which is theirs; else empty
    yours: str  # the member's side of the pairs, in words; empty where there are none
    partners: int  # how many do it together; 1 alone
    score: str  # what was got; empty as long as it is open
    done: bool
    row: PieceRow
    amount: str  # all that was done, where the score says a place in rounds alone: "131 reps"
    shown: Piece  # with the coach's options in front that are for this place; its score is one of `row`


def piece_here(row: PieceRow, plan: DayPlan) -> PieceHere:
    """Say a piece of a plan's session; its newest score of the day counts."""
    piece, title = at_place(row.piece, plan.place), row.piece.title.casefold()
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
        (*(line for line in piece.note.splitlines() if line.strip()), *kit_words(piece, plan.place)),
        tuple(side_words(row.written, side) for side in SIDES) if piece.paired else (),
        piece.yours,
        piece.partners,
        told_words(got.score) if got else "",
        row not in plan.open_pieces,
        row,
        _amount(got.score) if got else "",
        piece,
    )


def _amount(score: Score) -> str:
    known = score.positions is not None and score.total is not None and not score.total.lost
    if not known or not score.total or score.piece.kind != "as many as possible":
        return ""
    amount = count_words(score.total, score.unit)
    return "" if told_words(score).startswith(amount) else amount
