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
    "no warm-up",  # it is left out
    "begun",  # this session is on, whatever else is planned
    "ended",  # with what was done, whatever is left of it
    "let go",  # what was left open of it is not done any more
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


def given_up(session: OrmSession, member_id: str) -> frozenset[str]:
    """Return the sessions of which a member said last, on whichever day, that what is left of them is not done any more."""
    newest: dict[str, Said] = {}
    for mark in _marks(session, member_id, None):
        if mark.said in ("begun", "ended", "let go"):
            newest.setdefault(mark.step_id, mark.said)
    return frozenset(step for step, said in newest.items() if said != "begun")


def marks_on(session: OrmSession, member_id: str, day: date) -> tuple[Mark, ...]:
    """Return what a member said on a day and did not take back, the newest first."""
    return _marks(session, member_id, day)


def _marks(session: OrmSession, member_id: str, day: date | None) -> tuple[Mark, ...]:
    since = before_newest(session, member_id)
    return tuple(
        Mark(entry.said["step"], entry.said["said"], entry.act_id, entry.at)
        for entry in newest_said(session, member_id, [DAY_MARK], since=since)
        if (day is None or entry.said.get("day") == day.isoformat()) and entry.said.get("said") in get_args(Said)
    )
