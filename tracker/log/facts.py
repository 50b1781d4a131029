"""Facts about the log itself, by key, of which no history is kept. What is about a member has their id at its front."""

from __future__ import annotations

from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import Meta
from tracker.log.unit_of_work import Act

MOST = 200  # letters of a key and of a value


def fact(session: OrmSession, key: str) -> str | None:
    found = session.get(Meta, key)
    return found.value if found else None


def of_member(member_id: str) -> str:
    """Return what the keys of a member's facts begin with, by which they go with the member."""
    return f"member {member_id} "


def forget(act: Act, key: str) -> None:
    """Take a fact away, if it is there."""
    if found := act.session.get(Meta, key):
        act.session.delete(found)
        act.session.flush()


def put_fact(act: Act, key: str, value: str) -> None:
    """Keep a fact in place of the former one; one that is too long is left."""
    if len(key) <= MOST and len(value) <= MOST:
        act.session.merge(Meta(key=key, value=value))
        act.session.flush()
