"""All that came in at once from the logs of others, taken back at once."""

from __future__ import annotations

from tracker.desk.base.roles import may
from tracker.desk.coach.take_results import Takings
from tracker.log.keeper import Log
from tracker.log.undo import undo


@may("run")
def take_back(log: Log, takings: Takings) -> int:
    """Take back what came of files and lines, the newest source first, and return how many results that were.

    Raises:
        TidemarkError: if something of it was changed since; sources that were taken back before that stay so.
    """
    for act_id in reversed(takings.acts):
        undo(log, act_id)
    return sum(each.changed for each in takings.taken)
