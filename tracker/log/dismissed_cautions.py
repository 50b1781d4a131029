"""Cautions that a member put away for a day: entries of history by hand, so that they go with the member and can be undone."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import Change
from tracker.log.unit_of_work import AWAY, Act

NEWEST = 50  # entries of one member that are looked at; a day has a few


def put_away(act: Act, member_id: str, keys: Collection[str], day: date) -> None:
    """Note that a member has seen these cautions on a day."""
    act.note(AWAY, member_id, before=None, after={"day": day.isoformat(), "keys": sorted(keys)})


def away_on(session: OrmSession, member_id: str, day: date) -> dict[str, frozenset[str]]:
    """Return, for each act by which cautions were put away on `day` and not got back, which they are."""
    query = (
        select(Change.act_id, Change.after)
        .where(Change.member_id == member_id, Change.record == AWAY, Change.undone_by.is_(None))
        .order_by(Change.number.desc())
        .limit(NEWEST)
    )
    return {
        act_id: frozenset(after["keys"])
        for act_id, after in session.execute(query)
        if after and after.get("day") == day.isoformat()
    }
