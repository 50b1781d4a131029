"""Cautions that a member has seen: put away for the day on every device, and got back when they ask for them."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.log import dismissed_cautions
from tracker.log.undo import undo
from tracker.log.unit_of_work import Log

WORDS = "put cautions away until tomorrow"


@may("see")
@cached_until_write
def put_away_on(log: Log, member_id: str, day: date) -> frozenset[str]:
    """Return the keys of the cautions that a member put away on a day."""
    with log.reading() as session:
        return frozenset[str]().union(*dismissed_cautions.away_on(session, member_id, day).values())


@may("change")
def put_away(log: Log, member_id: str, keys: Collection[str], day: date) -> None:
    """Put cautions away for a day; tomorrow they are back."""
    with log.act(WORDS, member_id, own=True) as act:
        dismissed_cautions.put_away(act, member_id, keys, day)


@may("change")
def show_again(log: Log, member_id: str, day: date) -> None:
    """Get back all that a member put away on a day."""
    with log.reading() as session:
        acts = dismissed_cautions.away_on(session, member_id, day)
    for act_id in acts:
        undo(log, act_id)
