"""All tables in one run: `python -m tracker.strength.backtest.shown [members] [athletes] [seed] [competitors.csv]`.

Members of whom little is known, then the athletes of the former table over five seeds, each beside the oracle, then
competitors. One processor; 300 members and 242 athletes take some ten minutes of it. +- is one standard error: between
members, and for the five seeds between seeds.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path

import numpy as np

from tracker.strength.backtest import competitors, thin, thin_table
from tracker.strength.backtest.athletes import invent
from tracker.strength.backtest.report import Score, rms, score

SEEDS = 5


def summary(scores: Sequence[Score]) -> tuple[float, float, float, float]:
    """Return error (%), error over the oracle's, coverage (%) and the worst member's error (%)."""
    some = [each for each in scores if each.held]
    error, oracle = (rms(value for each in some for value in each.errors[key]) for key in ("estimate", "oracle"))
    held = 100 * float(np.mean([value for each in some for value in each.held]))
    return error, error / oracle, held, max(rms(each.errors["estimate"]) for each in some)


def main(members: int = 300, athletes: int = 242, seed: int = 1, *, path: str = "") -> None:
    """Print all tables."""
    print(
        f"{members} invented members a kind, seed {seed}; +- is one standard error between members\n{thin_table.HEAD}"
    )
    for kind in thin.KINDS:
        scores = [thin_table.score(member) for member in thin.invent(kind, members, seed)]
        print(thin_table.row(kind.__name__, scores), flush=True)
    print(f"\n{athletes} invented athletes a seed\n{'seed':<8}{'error %':>9}{'/oracle':>9}{'held %':>9}{'worst %':>9}")
    found: list[tuple[float, float, float, float]] = []
    for each in range(seed, seed + SEEDS):
        found.append(summary([score(lift) for lift in invent(athletes, each)]))
        print(f"{each:<8}" + "".join(f"{value:>9.2f}" for value in found[-1]), flush=True)
    means, errors = np.mean(found, axis=0), np.std(found, axis=0, ddof=1) / SEEDS**0.5
    print("all  " + "".join(f"{value:>9.2f} +-{error:.2f}" for value, error in zip(means, errors, strict=True)))
    if path:
        for half in ("odd", "even"):
            print()
            competitors.main(str(Path(path)), half)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:4]), path="".join(sys.argv[4:5]))
