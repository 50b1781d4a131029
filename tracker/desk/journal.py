"""What was done: sessions with their sets, newest first, and the history of acts."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from sqlalchemy import select

from tracker.log import sets as log_sets
from tracker.log.keeper import Log
from tracker.log.models import Change
from tracker.log.records import ChangeRow, SessionRow, SetRow


@dataclass(frozen=True, slots=True)
class JournalSession:
    """One session and the sets done in it."""

    session: SessionRow
    sets: tuple[SetRow, ...]


def sessions(log: Log, member_id: str, *, limit: int = 20, text: str = "") -> tuple[JournalSession, ...]:
    """List the newest sessions with their sets; `text` searches lifts, notes and labels."""
    with log.reading() as session:
        rows = log_sets.sessions_of(session, member_id, limit=limit, text=text.strip())
        sets = (
            log_sets.sets_of(session, member_id, since=min(row.day for row in rows), until=max(row.day for row in rows))
            if rows
            else ()
        )
    by_session = {
        key: tuple(group)
        for key, group in groupby(sorted(sets, key=lambda row: row.session_id), key=lambda row: row.session_id)
    }
    found = (
        JournalSession(row, tuple(sorted(by_session.get(row.id, ()), key=lambda each: each.position))) for row in rows
    )
    return tuple(entry for entry in found if entry.sets or entry.session.note or entry.session.rating is not None)


def acts(log: Log, member_id: str, *, limit: int = 30) -> tuple[ChangeRow, ...]:
    """List the newest acts of a member, newest first."""
    with log.reading() as session:
        rows = session.scalars(
            select(Change).where(Change.member_id == member_id).order_by(Change.number.desc()).limit(limit * 10)
        ).all()
        found: dict[str, ChangeRow] = {}
        for row in rows:
            known = found.get(row.act_id)
            found[row.act_id] = ChangeRow(
                row.act_id, row.act, row.at, row.undone_by is not None, (known.records if known else 0) + 1
            )
    return tuple(found.values())[:limit]
