"""Facts about the log itself, by key: no member's data, and no history is kept of them."""

from __future__ import annotations

from sqlalchemy.orm import Session as OrmSession

from tracker.log.keeper import Act
from tracker.log.models import Meta

MOST = 200  # letters of a key and of a value


def fact(session: OrmSession, key: str) -> str | None:
    found = session.get(Meta, key)
    return found.value if found else None


def put_fact(act: Act, key: str, value: str) -> None:
    """Keep a fact in place of the former one; one that is too long is left."""
    if len(key) <= MOST and len(value) <= MOST:
        act.session.merge(Meta(key=key, value=value))
        act.session.flush()
