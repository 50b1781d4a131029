"""Print the table of results: `python -m tracker.strength.backtest [athletes] [seed]`."""

from __future__ import annotations

import sys

from tracker.strength.backtest import changed
from tracker.strength.backtest.athletes import invent
from tracker.strength.backtest.report import score, table

COUNT, SEED = 242, 8128  # the table of results; other seeds (1 to 9, 2026, 4711, 90101, 90111) served for tuning


def main(count: int = COUNT, seed: int = SEED) -> None:
    """Invent athletes, run the estimate and its yardsticks over them, print the table."""
    print(f"{count} invented athletes, seed {seed}; errors are root mean squares over days after the first test")
    print(table([score(lift) for lift in invent(count, seed)]))
    print(changed.line(count // 10, seed))


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
