"""Time and memory for many members: `python -m tracker.strength.backtest.many [members]`.

Estimates three years of one lift for each member, one after another, keeping no more models than the desk does, and
says what it took. Progress goes to standard error.
"""

from __future__ import annotations

import sys
import tracemalloc
from collections import deque
from time import perf_counter

from tracker.strength.backtest.athletes import KINDS, invent
from tracker.strength.estimator import LiftModel

KEPT = 64  # models in memory at once
KIND = KINDS[0]


def main(members: int = 1000, kept: int = KEPT) -> None:
    """Run over `members` invented three-year histories; print seconds and the peak of memory."""
    three_years = type(KIND)("three years", weeks=(156, 156), per_week=(1,))
    models: deque[LiftModel] = deque(maxlen=kept)
    tracemalloc.start()
    began = perf_counter()
    for number, lift in enumerate(invent(members, 31, (three_years,)), 1):
        models.append(LiftModel.of(lift.records))
        models[-1].estimate(models[-1].last_day)
        _progress(number, members)
    taken, peak = perf_counter() - began, tracemalloc.get_traced_memory()[1]
    print(f"{members} members, three years each: {taken:.0f} s, at most {peak / 1e6:.0f} MB with {kept} models kept")


def _progress(done: int, of: int) -> None:
    bar = "#" * (40 * done // of)
    print(f"\r[{bar:<40}] {done} of {of}", end="" if done < of else "\n", file=sys.stderr, flush=True)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
