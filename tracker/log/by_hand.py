"""What a member settles for themselves: entries of history by hand.

They go with the member, are undone, and travel in every export and copy. Each kind is written and read by this module; what
it says stands in answers, choices, day_marks, dismissed_cautions and sides, and for those below in the desk.

`SAVED` are sessions of their own that they gave a name, `REST` is how long they rest and how they are told, `SORE` is what
hurts, `FEEL` how they are before they train. The last two are the member's alone: the second wall lets nobody else read them (`row_access.py`), whoever shares what.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import bindparam, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import Change
from tracker.log.unit_of_work import Act

NEWEST = 400  # entries of one member that are looked at; a day has a few, and most days have none
LOOKED_AT = 1000  # entries of one member's whole history, the newest, where what was said long ago matters no more


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing that a member said and did not take back."""

    kind: str
    said: Mapping[str, Any]
    at: datetime
    act_id: str


def say(act: Act, kind: str, member_id: str, said: Mapping[str, Any]) -> None:
    """Note what a member says."""
    act.note(kind, member_id, before=None, after=dict(said))


def said(session: OrmSession, member_id: str, kinds: Collection[str]) -> tuple[Entry, ...]:
    """Return what a member said of these kinds, the oldest first, without what they took back."""
    return tuple(reversed(newest_said(session, member_id, kinds)))


def newest_said(session: OrmSession, member_id: str, kinds: Collection[str], *, since: int = 0) -> tuple[Entry, ...]:
    """Return what a member said of these kinds and did not take back, the newest first, after the entry numbered `since`."""
    rows = session.execute(_SAID, {"member": member_id, "kinds": list(kinds), "since": since})
    return _entries(rows)


def _entries(rows: Iterable[Any]) -> tuple[Entry, ...]:
    return tuple(Entry(kind, after, at, act_id) for kind, after, at, act_id in rows if after)  # else of an undoing


def newest_by_kind(session: OrmSession, member_id: str, kinds: Collection[str]) -> dict[str, tuple[Entry, ...]]:
    """Return for each kind what `newest_said` does of it alone; asked at once, where that is as much."""
    rows = session.execute(_SAID, {"member": member_id, "kinds": list(kinds), "since": 0}).all()
    if len(rows) < NEWEST:
        return {kind: _entries(row for row in rows if row[0] == kind) for kind in kinds}
    return {kind: newest_said(session, member_id, [kind]) for kind in kinds}


_SAID = (  # built once: it is asked in each act
    select(Change.record, Change.after, Change.at, Change.act_id)
    .where(Change.member_id == bindparam("member"), Change.record.in_(bindparam("kinds", expanding=True)))
    .where(Change.undone_by.is_(None), Change.number > bindparam("since"))
    .order_by(Change.number.desc())
    .limit(NEWEST)
)


def before_newest(session: OrmSession, member_id: str) -> int:
    """Return the number of the entry before the newest of a member that are looked at; 0 where these are all."""
    of_member = select(Change.number).where(Change.member_id == member_id).order_by(Change.number.desc())
    return session.scalar(of_member.offset(LOOKED_AT).limit(1)) or 0
