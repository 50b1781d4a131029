"""Which of two written numbers is a member's ("43/30 kg"): entries of history by hand, as for cautions put away.

They go with the member, can be undone, and stand in every export and copy.

The newest choice that was made for a piece, or for all, counts for that piece; the newest of all counts for any other one.
"""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy.orm import Session as OrmSession

from tracker.conditioning.pieces import SIDES, Side
from tracker.log.by_hand import newest_said, say
from tracker.log.unit_of_work import SIDE, Act


@dataclass(frozen=True, slots=True)
class Chosen:
    """The sides that a member has chosen: the newest of all, and of single pieces by id."""

    newest: Side | None = None
    of_piece: tuple[tuple[str, Side], ...] = ()

    def side(self, piece_id: str) -> Side | None:
        """Return the side that counts for a piece; None where the member was never asked."""
        for found, side in self.of_piece:
            if found == piece_id:
                return side
        return self.newest


def choose(act: Act, member_id: str, side: Side, piece_id: str = "") -> None:
    """Note which number a member takes, of one piece or of all."""
    say(act, SIDE, member_id, {"side": side, "piece": piece_id})


def chosen(session: OrmSession, member_id: str | None) -> Chosen:
    """Return what a member has chosen and not taken back."""
    if member_id is None:
        return Chosen()
    newest: Side | None = None
    of_piece: dict[str, Side] = {}
    for entry in newest_said(session, member_id, [SIDE]):
        side, piece_id = entry.said.get("side"), entry.said.get("piece", "")
        if side not in SIDES:
            continue
        newest = newest or side
        if not piece_id:  # for all: what was chosen earlier for one piece is over
            break
        of_piece.setdefault(piece_id, side)
    return Chosen(newest, tuple(of_piece.items()))
