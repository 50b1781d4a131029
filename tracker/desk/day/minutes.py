"""How long a session took, from the moments at which its sets and scores were touched; what somebody typed wins.

From the first touch to the last one, for the first set that began it two minutes more (design choice). A gap of more than
an hour is no training and is left out. Where less than half a minute lies between touches on the mean they were logged in
one go, from memory, and say nothing; nor do touches of another day than the session's.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime, timedelta
from itertools import pairwise

from tracker.limits import MOST_MINUTES
from tracker.log.records import SessionRow, SetRow
from tracker.log.scores import ScoreRow

BEFORE_FIRST = timedelta(minutes=2)
LONGEST_GAP = timedelta(hours=1)
IN_ONE_GO = timedelta(seconds=30)


def minutes_of(moments: Iterable[datetime], day: date) -> int | None:
    """Return the minutes that touches of a day took; None where they say nothing."""
    touched = sorted(
        each for each in moments if abs((each.date() - day).days) <= 1
    )  # a day begins elsewhere at other hours
    gaps = [after - before for before, after in pairwise(touched)]
    trained = [gap for gap in gaps if gap <= LONGEST_GAP]
    if not trained or sum(trained, timedelta()) / len(trained) < IN_ONE_GO:
        return None
    seconds = (sum(trained, timedelta()) + BEFORE_FIRST).total_seconds()
    return min(max(round(seconds / 60), 1), MOST_MINUTES)


def session_minutes(row: SessionRow, sets: Iterable[SetRow], scores: Iterable[ScoreRow] = ()) -> int | None:
    """Return how long a session took: as somebody typed it, else by the touches of its sets and scores."""
    if row.minutes is not None:
        return row.minutes
    moments = [each.logged_at for each in sets if each.session_id == row.id]
    moments += [each.logged_at for each in scores if each.session_id == row.id]
    return minutes_of(moments, row.day)
