"""One session as a whole: found, and what was said of it taken along when its sets move."""

from __future__ import annotations

from sqlalchemy.orm import Session as OrmSession

from tracker.log.keeper import Act
from tracker.log.models import Session
from tracker.log.records import SessionRow
from tracker.log.sets import session_row


def one_session(session: OrmSession, session_id: str) -> SessionRow | None:
    found = session.get(Session, session_id)
    return session_row(found) if found else None


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
