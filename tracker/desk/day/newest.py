"""The newest set of a lift, read without its whole history."""

from __future__ import annotations

from tracker.desk.base.roles import may
from tracker.log import sets as log_sets
from tracker.log.keeper import Log
from tracker.log.records import SetRow


@may("see")
def newest_set(log: Log, member_id: str, lift_id: str) -> SetRow | None:
    """Return the last set of a lift on the last day it was done; None where it never was."""
    with log.reading() as session:
        days = (day for lift, _, day in log_sets.lifts_done(session, member_id) if lift.id == lift_id)
        newest = next(days, None)
        sets = log_sets.sets_of(session, member_id, lift_id=lift_id, since=newest) if newest else ()
    return sets[-1] if sets else None
