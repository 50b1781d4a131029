"""What a member said of a session on a day that no record holds: entries of history by hand, as for cautions put away.

They go with the member, can be undone, and stand in every export and copy.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal, get_args

from sqlalchemy.orm import Session as OrmSession

from tracker.log.by_hand import before_newest, newest_said, say
from tracker.log.unit_of_work import DAY_MARK, Act

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
    say(act, DAY_MARK, member_id, {"day": day.isoformat(), "step": step_id, "said": said})


def marks_on(session: OrmSession, member_id: str, day: date) -> tuple[Mark, ...]:
    """Return what a member said on a day and did not take back, the newest first."""
    since = before_newest(session, member_id)
    return tuple(
        Mark(entry.said["step"], entry.said["said"], entry.act_id, entry.at)
        for entry in newest_said(session, member_id, [DAY_MARK], since=since)
        if entry.said.get("day") == day.isoformat() and entry.said.get("said") in get_args(Said)
    )
