"""What the log keeps about a member, who sees it, and whom they can ask: counted from the log as it is now."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tracker.desk.base.roles import may
from tracker.errors import BadInputError
from tracker.log import erase, members
from tracker.log.engine import file_of
from tracker.log.unit_of_work import Log
from tracker.log.who import HERE, who

Seen = Literal["household", "coach", "alone"]

# What is counted, its tables, and what stands in it that a stranger would not guess. A table that is in none of these is
# counted under the last, so that a new one can't be kept without a word.
PARTS: dict[str, tuple[tuple[str, ...], str]] = {
    "Who you are": (
        ("members", "accounts", "group_members", "class_members"),
        "your name, unit and place, the switches under Preferences, your groups and classes",
    ),
    "Body mass": (("body_masses",), "each with its day"),
    "Training": (
        ("sessions", "sets"),
        "loads, repetitions, misses, how many were left, effort, rest, times, your notes, and whether a set hurt",
    ),
    "Maxes": (("rep_maxes",), "tested or told, each with its day"),
    "Pieces": (("scores", "piece_clocks"), "scores, options, who with, notes, clocks that ran"),
    "Plans": (
        ("member_waves", "member_steps", "goals", "rest_days"),
        "sessions in your calendar and your goals",
    ),
    "History": (("changes",), "each change to these, when and by whose account, so that it can be undone"),
    "All else": ((), "what was sore or ill and until when, cautions that you have read, how you like things shown"),
}


@dataclass(frozen=True, slots=True)
class Part:
    """One kind of what is kept."""

    name: str
    records: int
    what: str


@dataclass(frozen=True, slots=True)
class YourData:
    """What the page says.

    Attributes:
        name: The member's.
        parts: What is kept, in the order of `PARTS`.
        seen: By whom: all of the household, coach and owner beside the member, or the member alone.
        where: The file, where the household may know it; else empty.
        on_server: The log lies on a database server, whose dumps are its keeper's.
    """

    name: str
    parts: tuple[Part, ...]
    seen: Seen
    where: str
    on_server: bool


@may("hand over")
def of_member(log: Log, member_id: str) -> YourData:
    """Count what is kept about a member, and say who sees it.

    Args:
        log: The log.
        member_id: Whose: one's own, for an owner anybody's.

    Raises:
        BadInputError: if the member is not in the log any more.
    """
    with log.reading() as session:
        found = members.member(session, member_id)
        counts = erase.count(session, member_id)
        entries, facts = erase.count_beside(session, member_id)
    if found is None:
        raise BadInputError("This member is not in the log any more.", where="member", mend="Reload the page.")
    counts["changes"] = entries
    parts = [
        Part(name, sum(counts.pop(table, 0) for table in tables), what)
        for name, (tables, what) in PARTS.items()
        if tables
    ]
    name, (_, what) = list(PARTS.items())[-1]
    parts.append(Part(name, facts + sum(counts.values()), what))
    here, file = who().role == HERE.role, file_of(log.url)
    return YourData(
        name=found.name,
        parts=tuple(parts),
        seen="household" if here else "coach" if found.shared else "alone",
        where=str(file) if here and file else "",
        on_server=file is None,
    )
