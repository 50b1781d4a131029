"""A heavy set that is built up to: as many sets before it as the member takes, none of which ends it.

How often and by how much is the member's and the coach's; no load is proposed.
"""

from __future__ import annotations

from dataclasses import replace

from tracker.log.records import PlannedSetRow
from tracker.log.sets import NewSet


def is_build_up(planned: PlannedSetRow) -> bool:
    """Whether a set is the heavy one of a day, without a load that is known beforehand: "build to a heavy single"."""
    heavy = "heavy for today" in planned.own_words.casefold()
    return heavy and not (planned.test or planned.rep_out) and planned.load is None and planned.percent is None


def on_the_way(new: NewSet) -> NewSet:
    """Return a set of a session as one on the way up: done on the day, and none of those that the session waits for."""
    return replace(new, planned_set_id=None, planned_round=None, member_step_id=None)
