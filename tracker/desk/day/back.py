"""Somebody trained while the log knew nothing: then loads do not start lower."""

from __future__ import annotations

from datetime import date

from tracker.desk.base.roles import may
from tracker.log import choices
from tracker.log.unit_of_work import Log


@may("change")
def trained_meanwhile(log: Log, member_id: str, since: date, day: date) -> None:
    """Keep that the member trained in the weeks without an entry that began after `since`; undo takes it back."""
    with log.act("trained without an entry", member_id, own=True) as act:
        choices.choose(act, member_id, "trained meanwhile", day, since=since.isoformat())
