"""One session as a whole: found, and what was said of it taken along when its sets move."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date
from typing import NamedTuple

from sqlalchemy import func, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.keeper import Act
from tracker.log.models import LiftedSet, Session
from tracker.log.records import SessionRow
from tracker.log.sets import session_row


def one_session(session: OrmSession, session_id: str) -> SessionRow | None:
    found = session.get(Session, session_id)
    return session_row(found) if found else None


class LastPlace(NamedTuple):
    """A session, and the position of its last set; -1 where it has none."""

    id: str
    member_id: str
    day: date
    label: str
    place_id: str | None
    last: int


def last_places(session: OrmSession, member_ids: Collection[str], first: date, last: date) -> Iterator[LastPlace]:
    """Yield the sessions of some members from `first` to `last`, the oldest made first, each with where its sets end."""
    ends = func.coalesce(func.max(LiftedSet.position), -1)
    query = (
        select(Session.id, Session.member_id, Session.day, Session.label, Session.place_id, ends)
        .outerjoin(LiftedSet, LiftedSet.session_id == Session.id)
        .where(Session.member_id.in_(member_ids), Session.day >= first, Session.day <= last)
        .group_by(Session.id)
        .order_by(Session.created_at)
    )
    return (LastPlace(*row) for row in session.execute(query))


def carry_over(act: Act, from_id: str, to_id: str) -> None:
    """Take place, rating, minutes and note of one session to another, where that one has none of its own."""
    source, target = act.session.get_one(Session, from_id), act.session.get_one(Session, to_id)
    if source is target or target.rating is not None or target.minutes is not None or target.note:
        return
    target.place_id = target.place_id or source.place_id
    target.rating, target.minutes, target.note = source.rating, source.minutes, source.note
    target.rated_at = source.rated_at
    source.rating = source.minutes = source.rated_at = None
    source.note = ""
    act.session.flush()
