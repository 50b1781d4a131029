"""What knowing a part of an athlete would be worth: `python -m tracker.strength.backtest.oracle [athletes] [seed]`.

It is also the answer to whether lifts of one member should inform each other: no other lift can tell more of a habit or
a curve than knowing it outright.
"""

from __future__ import annotations

import sys
from math import log

from tracker.strength.backtest.athletes import Lift, invent
from tracker.strength.backtest.report import rms
from tracker.strength.backtest.training import START
from tracker.strength.backtest.yardsticks import ALL, Known, carried, oracle

COUNT, SEED = 66, 3
TOLD: dict[str, tuple[Known, ...]] = {
    "nothing": (), "curve": ("curve",), "habit": ("habit",), "gain": ("gain",), "curve, habit": ("curve", "habit"),
    "all": ALL,
}  # fmt: skip


def errors(lift: Lift) -> dict[str, list[float]]:
    """Errors (logarithms) of the filter told more and more, on each day after the first test."""
    days = sorted({record.day for record in lift.records})
    counted = [last is not None for last in carried(lift.records, lift.reps, days)]
    truth = [lift.truth.rep_max((day - START).days, lift.reps) for day in days]
    found: dict[str, list[float]] = {}
    for name, knows in TOLD.items():
        bands = oracle(lift, days, knows)
        found[name] = [log(b.estimate / t) for b, t, counts in zip(bands, truth, counted, strict=True) if counts]
    return found


def main(count: int = COUNT, seed: int = SEED) -> None:
    """Print the error by kind, in per cent, for each thing told."""
    by_kind: dict[str, dict[str, list[float]]] = {}
    for lift in invent(count, seed):
        for name, some in errors(lift).items():
            for kind in (lift.kind.name, "all"):
                by_kind.setdefault(kind, {}).setdefault(name, []).extend(some)
    print(f"{'told':<11}" + "".join(f"{name:>14}" for name in TOLD))
    for kind in [*(each for each in by_kind if each != "all"), "all"]:
        print(f"{kind:<11}" + "".join(f"{rms(by_kind[kind][name]):>13.2f}%" for name in TOLD))


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
