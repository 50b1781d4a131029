"""What was written since a moment of the log's history: so that what is kept in memory is mended and not read anew."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from typing import NamedTuple

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log import row_access
from tracker.log.chain import ACTS, TOLD
from tracker.log.models import Change, LiftedSet, Session
from tracker.log.unit_of_work import SAID, TOUCH

MANY = 200  # entries of history, above which everything is read anew
# A new or mended record of these changes no set but those that are named themselves.
BESIDE_SETS = frozenset(
    {
        "body_masses",
        "rep_maxes",
        "member_waves",
        "member_steps",
        "piece_clocks",
        "scores",
        "rest_days",
        "goals",
        ACTS,
        TOLD,
        TOUCH,
    }
    | SAID
)
_OPEN = {row_access.WALLED: True}  # numbers and names of tables say nothing of anybody


class Stamp(NamedTuple):
    """The newest entry of the log's history; two logs of one name differ in its act."""

    number: int
    act_id: str


def stamp(session: OrmSession) -> Stamp | None:
    """Return the newest entry, which every act leaves; None in a log without any."""
    newest = select(Change.number, Change.act_id).order_by(Change.number.desc()).limit(1)
    found = session.execute(newest, execution_options=_OPEN).first()
    return Stamp(found.number, found.act_id) if found else None


def touched_sets(session: OrmSession, since: Stamp) -> frozenset[str] | None:
    """Return the sets that were written since `since`; None where only reading all of them tells what they are now."""
    query = (
        select(Change.number, Change.act_id, Change.record, Change.record_id, Change.before.is_(None).label("new"))
        .where(Change.number >= since.number)
        .order_by(Change.number)
        .limit(MANY)
    )
    found = session.execute(query, execution_options=_OPEN).all()
    if len(found) == MANY or not found or (found[0].number, found[0].act_id) != since:
        return None  # much was written, or this is another log than the one that was read
    sets: set[str] = set()
    for row in found[1:]:
        if row.record == "sets":
            sets.add(row.record_id)
        elif row.record not in BESIDE_SETS and not (row.record == "sessions" and row.new):
            return None
    return frozenset(sets)


def days_of(session: OrmSession, set_ids: Collection[str], member_id: str, lift_id: str) -> frozenset[date]:
    """Return the days of those of the sets that are one member's, of one lift."""
    query = (
        select(Session.day)
        .join(LiftedSet, LiftedSet.session_id == Session.id)
        .where(LiftedSet.id.in_(set_ids), Session.member_id == member_id, LiftedSet.lift_id == lift_id)
    )
    return frozenset(session.scalars(query))
