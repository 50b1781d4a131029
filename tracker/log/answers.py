"""How a member answered what a sheet can be read in two ways: entries of history by hand, as for cautions put away.

They are kept with the member who takes the sheets, go with them, can be undone, and stand in every export and copy. The
newest answer to a question counts.
"""

from __future__ import annotations

from collections.abc import Mapping

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import Change
from tracker.log.unit_of_work import ANSWERED, Act

NEWEST = 200  # entries of one member that are looked at; a coach's way of writing has a few
MOST = 100  # letters of a question's key and of an answer's code


def keep(act: Act, member_id: str, answers: Mapping[str, str]) -> None:
    """Note what was answered, each question by its key; what was answered the same before is not noted again."""
    before = kept(act.session, member_id)
    new = {
        key: code for key, code in answers.items() if before.get(key) != code and len(key) <= MOST and len(code) <= MOST
    }
    if new:
        act.note(ANSWERED, member_id, before=None, after=dict(sorted(new.items())))


def kept(session: OrmSession, member_id: str | None) -> dict[str, str]:
    """Return the newest answer of a member to each question, by its key."""
    if member_id is None:
        return {}
    query = (
        select(Change.after)
        .where(Change.member_id == member_id, Change.record == ANSWERED, Change.undone_by.is_(None))
        .order_by(Change.number.desc())
        .limit(NEWEST)
    )
    found: dict[str, str] = {}
    for after in session.scalars(query):
        for key, code in (after or {}).items():
            found.setdefault(str(key), str(code))
    return found
