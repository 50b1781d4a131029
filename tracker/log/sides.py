"""Which of two written numbers is a member's ("43/30 kg"): entries of history by hand, as for cautions put away.

They go with the member, can be undone, and stand in every export and copy.

The newest choice that was made for a piece, or for all, counts for that piece; the newest of all counts for any other one.
"""

from __future__ import annotations

from dataclasses import dataclass

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.conditioning.pieces import SIDES, Side
from tracker.log.models import Change
from tracker.log.unit_of_work import SIDE, Act

NEWEST = 200  # choices of one member that are looked at; a few are ever made


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
    act.note(SIDE, member_id, before=None, after={"side": side, "piece": piece_id})


def chosen(session: OrmSession, member_id: str | None) -> Chosen:
    """Return what a member has chosen and not taken back."""
    if member_id is None:
        return Chosen()
    query = (
        select(Change.after)
        .where(Change.member_id == member_id, Change.record == SIDE, Change.undone_by.is_(None))
        .order_by(Change.number.desc())
        .limit(NEWEST)
    )
    newest: Side | None = None
    of_piece: dict[str, Side] = {}
    for after in session.scalars(query):
        if not after or after.get("side") not in SIDES:  # the entry of an undoing
            continue
        newest = newest or after["side"]
        if not after["piece"]:  # for all: what was chosen earlier for one piece is over
            break
        of_piece.setdefault(after["piece"], after["side"])
    return Chosen(newest, tuple(of_piece.items()))
