"""What a member chose around the sets of a day: entries of history by hand, as for cautions put away.

What was chosen after a miss, whether safety arms were set before a test, when its clock or that of sets was started, that somebody trained
while the log knew nothing, how they start after a break, which of their maxes still holds, which one
they set aside, what they told their coach, and
which load they go on with, what becomes their max, what percentages of a lift of the body are of, which unit a lift or a day is in, where they train on one day, whether days without an entry were rest, and which weeks
without one were none. They go with the member, can be undone, and stand in every export and copy.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

from sqlalchemy.orm import Session as OrmSession

from tracker.log.by_hand import Entry, newest_said, say
from tracker.log.unit_of_work import CHOSEN, Act

What = Literal[
    "after a miss", "safety of a test", "clock of a test", "trained meanwhile", "after a break", "still holds",
    "set aside", "told the coach", "carry on", "new max", "percent of", "clock of sets", "unit today", "place today",
    "silent days", "silent weeks",
]  # fmt: skip

PLACE: What = "place today"


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice: what it is about, of which day, and what was said, as plain texts."""

    what: str
    day: date
    said: Mapping[str, str]
    at: datetime
    act_id: str

    def get(self, key: str) -> str:
        return self.said.get(key, "")


def choose(act: Act, member_id: str, what: What, day: date, **said: str) -> None:
    """Note what a member chose."""
    say(act, CHOSEN, member_id, {"what": what, "day": day.isoformat(), **said})


def choices(session: OrmSession, member_id: str) -> tuple[Choice, ...]:
    """Return what a member chose and did not take back, the newest first."""
    return choices_of(newest_said(session, member_id, [CHOSEN]))


def choices_of(entries: Iterable[Entry]) -> tuple[Choice, ...]:
    """Read entries of choices, in their order."""
    found: list[Choice] = []
    for entry in entries:
        said = {str(key): str(value) for key, value in entry.said.items() if key not in ("what", "day")}
        day = date.fromisoformat(str(entry.said["day"]))
        found.append(Choice(str(entry.said["what"]), day, said, entry.at, entry.act_id))
    return tuple(found)


def place_of_day(session: OrmSession, member_id: str, day: date) -> str:
    """Return the id of the place that was chosen for one day alone; empty where none was, or one was kept after it."""
    for each in choices(session, member_id):
        if each.what == PLACE and (not each.get("place") or each.day == day):
            return each.get("place")
    return ""


def choose_place(act: Act, member_id: str, day: date, place_id: str) -> None:
    """Note where a member trains on one day alone."""
    choose(act, member_id, PLACE, day, place=place_id)


def keep_place(act: Act, member_id: str) -> None:
    """Let a place that is kept from now on go before those that were chosen for a day, where there were any."""
    newest = next((each for each in choices(act.session, member_id) if each.what == PLACE), None)
    if newest is not None and newest.get("place"):
        choose(act, member_id, PLACE, newest.day, place="")
