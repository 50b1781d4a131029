"""The history as it is read: a member's acts, newest first, and when something was last done at all."""

from __future__ import annotations

import re
from datetime import datetime

from sqlalchemy import case, func, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log import row_access
from tracker.log.chain import FOUND, TOLD
from tracker.log.models import Change
from tracker.log.records import ChangeRow

FIRST_WORD = re.compile(r"^((?:undid: )*)(\w+)(?= )")
SAID_NOW = {  # of acts of older logs: what is sealed stays as it was written
    "mended": "edited",
    "brought": "moved",
}
ENTRIES = 10  # of the history that an act has at most, as a rule


def acts(session: OrmSession, member_id: str, limit: int) -> tuple[ChangeRow, ...]:
    """List the newest acts of a member, newest first."""
    rows = session.execute(
        select(
            Change.act_id, func.max(Change.act), func.min(Change.at), func.count(Change.undone_by), func.count(),
            func.sum(case((Change.record == TOLD, 1), else_=0)),
        )
        .where(Change.member_id == member_id, Change.record != FOUND, Change.act_id.in_(_newest(session, member_id, limit)))
        .group_by(Change.act_id)
        .order_by(func.max(Change.number).desc())
    ).all()  # fmt: skip
    refused = row_access.of_others(session.connection(), [row.act_id for row in rows])
    return tuple(
        ChangeRow(act_id, words_now(words), at, undone > 0, records, not told and act_id not in refused)
        for act_id, words, at, undone, records, told in rows
    )


def words_now(words: str) -> str:
    """Say an act of an older log in the words of today."""
    return FIRST_WORD.sub(lambda found: found[1] + SAID_NOW.get(found[2], found[2]), words)


def _newest(session: OrmSession, member_id: str, limit: int) -> list[str]:
    """Find the newest acts: most are of few entries, so that few have to be looked at, and more only after a large one."""
    entries = limit * ENTRIES
    while True:
        newest = (
            select(Change.act_id)
            .where(Change.member_id == member_id, Change.record != FOUND)
            .order_by(Change.number.desc())
            .limit(entries)
        )
        rows = session.scalars(newest).all()
        found = list(dict.fromkeys(rows))
        if len(found) >= limit or len(rows) < entries:
            return found[:limit]
        entries *= ENTRIES


def newest_before(session: OrmSession, moment: datetime) -> datetime | None:
    """Return when the newest act before a moment was done; None where there is none."""
    return session.scalar(select(Change.at).where(Change.at < moment).order_by(Change.at.desc()).limit(1))
