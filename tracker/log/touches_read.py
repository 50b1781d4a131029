"""Reads the touches that the log has of a member, newest first."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from sqlalchemy import Select, bindparam, select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.by_hand import before_newest
from tracker.log.models import Change
from tracker.log.unit_of_work import TOUCH


@dataclass(frozen=True, slots=True)
class TouchRow:
    """A touch that the log has: its own id, its act in the history, what the phone said, and what the act made."""

    id: str
    act_id: str
    said: dict[str, Any]
    undone: bool
    made: dict[str, str]  # kind of record: its id, of what the act made anew


def known(session: OrmSession, act_id: str) -> TouchRow | None:
    """Return the touch of an act; None where the log has none."""
    return next(iter(_rows(session, _OF_ACT, {"act": act_id})), None)


def newest(session: OrmSession, member_id: str) -> tuple[TouchRow, ...]:
    """List a member's newest touches, the newest first."""
    return _rows(session, _OF_MEMBER, {"member": member_id, "since": before_newest(session, member_id)})


_ENTRIES: Select[str, str, str, dict[str, Any] | None, str | None, bool] = select(
    Change.act_id, Change.record, Change.record_id, Change.after, Change.undone_by, Change.before.is_(None)
).order_by(Change.number.desc())  # built once: these are asked between two sets
_OF_ACT = _ENTRIES.where(Change.act_id == bindparam("act"))
_OF_MEMBER = _ENTRIES.where(Change.member_id == bindparam("member"), Change.number > bindparam("since"))


def _rows(
    session: OrmSession, query: Select[str, str, str, dict[str, Any] | None, str | None, bool], asked: dict[str, Any]
) -> tuple[TouchRow, ...]:
    touches: dict[str, tuple[str, dict[str, Any], bool]] = {}
    made: dict[str, dict[str, str]] = {}
    for act_id, record, record_id, after, undone_by, new in session.execute(query, asked):
        if record == TOUCH:
            touches[act_id] = record_id, after or {}, undone_by is not None
        elif new:
            made.setdefault(act_id, {})[record] = record_id
    return tuple(
        TouchRow(touch_id, act_id, said, undone, made.get(act_id, {}))
        for act_id, (touch_id, said, undone) in touches.items()
    )
