"""What a member ticked of a piece that has no score: entries of history by hand, undone and exported as any.

Each says all that is ticked by then of one piece in one session on one day, so that the newest one counts.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from sqlalchemy.orm import Session as OrmSession

from tracker.log.by_hand import newest_said, say
from tracker.log.unit_of_work import TICKED, Act

Tick = tuple[int, int]  # round and movement, both from 0


def put(act: Act, member_id: str, day: date, step_id: str, piece_id: str, done: Iterable[Tick]) -> None:
    """Note all that is ticked of a piece by now."""
    ticks = sorted(set(done))
    said = {"day": day.isoformat(), "step": step_id, "piece": piece_id, "done": [list(each) for each in ticks]}
    say(act, TICKED, member_id, said)


def ticked(session: OrmSession, member_id: str, day: date, step_id: str, piece_id: str) -> frozenset[Tick]:
    """Return what is ticked of a piece on a day."""
    wanted = {"day": day.isoformat(), "step": step_id, "piece": piece_id}
    for entry in newest_said(session, member_id, [TICKED]):
        if all(entry.said.get(key) == value for key, value in wanted.items()):
            return frozenset((int(at), int(task)) for at, task in entry.said.get("done", ()))
    return frozenset()
