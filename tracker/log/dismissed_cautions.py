"""Cautions that a member put away for a day: entries of history by hand, so that they go with the member and can be undone."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from sqlalchemy.orm import Session as OrmSession

from tracker.log.by_hand import newest_said, say
from tracker.log.unit_of_work import AWAY, Act


def put_away(act: Act, member_id: str, keys: Collection[str], day: date) -> None:
    """Note that a member has seen these cautions on a day."""
    say(act, AWAY, member_id, {"day": day.isoformat(), "keys": sorted(keys)})


def away_on(session: OrmSession, member_id: str, day: date) -> dict[str, frozenset[str]]:
    """Return, for each act by which cautions were put away on `day` and not got back, which they are."""
    return {
        entry.act_id: frozenset(entry.said["keys"])
        for entry in newest_said(session, member_id, [AWAY])
        if entry.said.get("day") == day.isoformat()
    }
