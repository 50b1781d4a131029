"""Time and memory for many members: `python -m tracker.strength.backtest.many [members]`.

Estimates three years of one lift for each member, one after another, keeping no more models than the desk does, and
says what it took and the most memory that the process held. Progress goes to standard error.
"""

from __future__ import annotations

import resource
import sys
from collections import deque
from time import process_time

from tracker.strength.backtest.athletes import KINDS, invent
from tracker.strength.estimator import LiftModel

KEPT = 64  # models in memory at once
KIND = KINDS[0]


def main(members: int = 1000, kept: int = KEPT) -> None:
    """Run over `members` invented three-year histories; print processor seconds and the peak of memory."""
    three_years = type(KIND)("three years", weeks=(156, 156), per_week=(1,))
    models: deque[LiftModel] = deque(maxlen=kept)
    before, taken, sets = _peak_mb(), 0.0, 0
    for number, lift in enumerate(invent(members, 31, (three_years,)), 1):
        began = process_time()
        models.append(LiftModel.of(lift.records))
        models[-1].estimate(models[-1].last_day)
        taken, sets = taken + process_time() - began, sets + len(lift.records)
        _progress(number, members)
    print(
        f"{members} members, three years each, {sets:,} sets: {taken:.0f} s of processor time; the process grew from "
        f"{before:.0f} MB to at most {_peak_mb():.0f} MB with {kept} models kept"
    )


def _peak_mb() -> float:
    """The most memory that this process held so far, resident, in MB; Linux counts it in KiB, macOS in bytes."""
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak / 1e6 if sys.platform == "darwin" else peak * 1024 / 1e6


def _progress(done: int, of: int) -> None:
    bar = "#" * (40 * done // of)
    print(f"\r[{bar:<40}] {done} of {of}", end="" if done < of else "\n", file=sys.stderr, flush=True)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
