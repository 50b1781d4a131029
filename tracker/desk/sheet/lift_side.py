"""Which of two written loads of a lift ("43/30 kg") is a member's: the side that they take in pieces too, asked once."""

from __future__ import annotations

from dataclasses import replace

from tracker.conditioning.pieces import SIDES, Side
from tracker.desk.base.roles import may
from tracker.desk.sheet.sheet_words import pair_in
from tracker.errors import BadInputError
from tracker.log import sides
from tracker.log.keeper import Log
from tracker.log.records import PlannedSetRow
from tracker.units import Mass


def pair_of(planned: PlannedSetRow) -> tuple[Mass, Mass] | None:
    """Return the two loads that are written for a set, the larger first; None where there is one or none."""
    return pair_in(planned.own_words)


def for_side(planned: PlannedSetRow, side: Side | None) -> PlannedSetRow:
    """Return the set as one side does it; without a side it has no load."""
    pair = pair_of(planned)
    return planned if pair is None or side is None else replace(planned, load=pair[SIDES.index(side)])


@may("change")
def choose_lift_side(log: Log, member_id: str, side: Side) -> None:
    """Keep which of two written numbers is a member's, from now on.

    Raises:
        BadInputError: if it is neither "larger" nor "smaller".
    """
    if side not in SIDES:
        raise BadInputError(f"{side!r} is none of the two.", where="side", mend="Choose the larger or the smaller.")
    with log.act(f"took the {side} of two loads", member_id, own=True) as act:
        sides.choose(act, member_id, side)
