"""After weeks without an entry: what the member says of them, and of the maxes that are older than them."""

from __future__ import annotations

from datetime import date
from typing import Literal

from tracker.desk.base.roles import may
from tracker.log import choices
from tracker.log.unit_of_work import Log

How = Literal["same", "lighter"]
Start = Literal["lower", "as asked"]


@may("change")
def trained_meanwhile(log: Log, member_id: str, since: date, day: date, how: How = "same") -> None:
    """Keep that the member trained in the weeks without an entry that began after `since`; undo takes it back.

    With the same kit and loads they come back at once; lighter, it counts as three weeks away.
    """
    with log.act("trained without an entry", member_id, own=True) as act:
        choices.choose(act, member_id, "trained meanwhile", day, since=since.isoformat(), how=how)


@may("change")
def start(log: Log, member_id: str, since: date, day: date, how: Start) -> None:
    """Keep that loads start lower after a break, by its steps, or as they are asked; undo takes it back."""
    words = "starts lower after a break" if how == "lower" else "starts as asked after a break"
    with log.act(words, member_id, own=True) as act:
        choices.choose(act, member_id, "after a break", day, since=since.isoformat(), how=how)


@may("change")
def still_holds(log: Log, member_id: str, lift_id: str, reps: int, since: date, day: date) -> None:
    """Keep that a max from before a break still holds, by the member's word; it is asked no more."""
    with log.act(f"says that a {reps}RM from before a break still holds", member_id, own=True) as act:
        choices.choose(act, member_id, "still holds", day, since=since.isoformat(), lift=lift_id, reps=str(reps))
