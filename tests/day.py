"""Which day it is for a test: one, from its start to its end, and no test keeps the day of another.

A test reads the day from `this_day`, its child processes and the browser read the machine's own clock, and the two must
say the same. So a test that begins shortly before midnight, in the zone of the run, waits for it; and on a new day what
outlives tests is made anew, because it holds records of the former one.
"""

from __future__ import annotations

import time
from datetime import date, datetime, timedelta

LONGEST_S = 60  # what a test may take on a busy machine; nothing else hangs on it
_of_this_test: list[date] = []
_last: list[date] = []


def this_day() -> date:
    """Return the local day of the test that runs. At import there is none: what is kept from there is wrong tomorrow."""
    if not _of_this_test:
        raise RuntimeError("No test has begun: ask for the day within a test or a fixture, not where a module is read.")
    return _of_this_test[0]


def begin() -> bool:
    """Let a test begin, after midnight where that is near; true where the day is another one than the last test's."""
    if 0 < (left := _to_midnight()) < LONGEST_S:
        time.sleep(left)
    _of_this_test[:] = [date.today()]
    new = bool(_last) and _last != _of_this_test
    _last[:] = _of_this_test
    return new


def end() -> None:
    _of_this_test.clear()


def _to_midnight() -> float:
    here = datetime.now().astimezone()
    midnight = datetime.combine(here.date() + timedelta(days=1), datetime.min.time()).astimezone()
    return (midnight - here).total_seconds()
