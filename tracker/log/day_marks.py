"""What a member said of a session on a day that no record holds: entries of history by hand, as for cautions put away.

They go with the member, can be undone, and stand in every export and copy.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal, get_args

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import Change
from tracker.log.unit_of_work import DAY_MARK, Act

LOOKED_AT = 1000  # entries of one member's history, the newest: what was said long ago matters no more
Said = Literal[
    "warm-up",  # it is done
    "begun",  # this session is on, whatever else is planned
    "ended",  # with what was done, whatever is left of it
    "answered",  # how hard it was, or that nobody will say
]


@dataclass(frozen=True, slots=True)
class Mark:
    """One thing said of one session of a member's calendar on a day."""

    step_id: str
    said: Said
    act_id: str
    at: datetime


def put(act: Act, member_id: str, day: date, step_id: str, said: Said) -> None:
    """Note what a member said of a session."""
    act.note(DAY_MARK, member_id, before=None, after={"day": day.isoformat(), "step": step_id, "said": said})


def marks_on(session: OrmSession, member_id: str, day: date) -> tuple[Mark, ...]:
    """Return what a member said on a day and did not take back, the newest first."""
    of_member = select(Change.number).where(Change.member_id == member_id).order_by(Change.number.desc())
    since = session.scalar(of_member.offset(LOOKED_AT).limit(1)) or 0
    query = (
        select(Change.act_id, Change.at, Change.after)
        .where(Change.member_id == member_id, Change.number > since)
        .where(Change.record == DAY_MARK, Change.undone_by.is_(None))
        .order_by(Change.number.desc())
    )
    return tuple(
        Mark(after["step"], after["said"], act_id, at)
        for act_id, at, after in session.execute(query)
        if after and after.get("day") == day.isoformat() and after.get("said") in get_args(Said)
    )
