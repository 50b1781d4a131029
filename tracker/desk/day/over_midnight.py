"""The day that is written on shortly after midnight: whoever trains then goes on with the day on which they began."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from tracker.desk.base.roles import may
from tracker.log import sets as log_sets
from tracker.log.unit_of_work import Log

EARLY_H = 4  # hours of the new day; a choice of ours, as the next one, and the phone's (`dayOn` in page/next.js)
RUNS_ON = timedelta(hours=2)  # after the newest set


@may("see")
def day_on(log: Log, member_id: str, moment: datetime) -> date:
    """Return the day before where a set of it was logged less than two hours ago and none of the new day; else the new day.

    Args:
        log: The log.
        member_id: Whose day it is.
        moment: Now, with its time zone, by the clock of whoever trains.
    """
    today = moment.date()
    if moment.hour >= EARLY_H:
        return today
    with log.reading() as session:
        sets = log_sets.sets_of(session, member_id, since=today - timedelta(days=1))
    goes_on = bool(sets) and sets[-1].day < today and any(moment - row.logged_at < RUNS_ON for row in sets)
    return today - timedelta(days=1) if goes_on else today
