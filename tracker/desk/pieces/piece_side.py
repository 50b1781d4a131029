"""Which of two written numbers is a member's ("43/30 kg"): asked once, kept with the member, changed when they like."""

from __future__ import annotations

from tracker.conditioning.pieces import SIDES, Piece, Side
from tracker.conditioning.sides import side_words
from tracker.desk.base.cached import while_unchanged
from tracker.desk.base.roles import may
from tracker.errors import BadInputError
from tracker.log import pieces as log_pieces
from tracker.log import sides
from tracker.log.keeper import Log

QUESTION = "Which of the two numbers is yours?"


class SideUnknownError(BadInputError):
    """A score of a piece with pairs, of a member who has not said yet which of the two numbers is theirs."""

    def __init__(self, piece: Piece) -> None:
        larger, smaller = (side_words(piece, side) for side in SIDES)
        super().__init__(f"{QUESTION} {larger} or {smaller}.", where=piece.title, mend="Touch one of the two first.")


@may("see")
@while_unchanged
def side_of(log: Log, member_id: str, piece_id: str = "") -> Side | None:
    """Return which number a member takes in a piece, or without one which they took last; None where they never said."""
    with log.reading() as session:
        return sides.chosen(session, member_id).side(piece_id)


@may("change")
def choose_side(log: Log, member_id: str, side: Side, piece_id: str | None = None) -> None:
    """Keep which number a member takes: in one piece, and from now on in new ones; without a piece in all of them.

    Raises:
        BadInputError: if it is neither "larger" nor "smaller", or there is no such piece.
    """
    if side not in SIDES:
        raise BadInputError(f"{side!r} is none of the two.", where="side", mend="Choose the larger or the smaller.")
    words = f"took the {side} of two numbers"
    with log.act(words, member_id, own=True) as act:
        if piece_id:
            row = log_pieces.piece(act.session, piece_id)
            if row is None:
                raise BadInputError("This piece is not in the log any more.", where="piece", mend="Reload the page.")
            act.words = f"took {side_words(row.piece, side) or side} in {row.piece.title}"[:200]
        sides.choose(act, member_id, side, piece_id or "")
