"""How likely the next go at a piece is as good as a score that somebody wants, from their own results of the same version.

With few results no trend can be told from luck, so none is assumed: the next go is held to be drawn as the last ones were, a
normal of unknown mean and spread of the logarithm, whose predictive distribution is Student's t (a standard result, e.g. Gelman
et al., Bayesian Data Analysis, 3rd ed., section 3.2, from memory). Whoever is getting better is a little better than that.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log, sqrt
from statistics import fmean, stdev

from tracker.conditioning.change import LEARNING
from tracker.conditioning.compare import like_key, sorting_span
from tracker.conditioning.scores import Score

ENOUGH = 4  # results after those that still carry learning; design
NEWEST = 12  # of them at most; design
LEAST_SD = 0.005  # of a logarithm: nobody is steadier than half a per cent; design
TOO_FEW = "It can't be known yet"


@dataclass(frozen=True, slots=True)
class NextGo:
    """The chance of the next go; None where it can't be known, and `words` say why or from what it comes."""

    chance: float | None
    words: str


def is_reached(goal: Score, score: Score) -> bool:
    """Tell whether a score of the same version is surely as good as a goal; a lost count that may be as good is not."""
    if like_key(goal) != like_key(score):
        return False
    wanted, got = sorting_span(goal), sorting_span(score)
    return wanted is not None and got is not None and got.low >= wanted.high


def next_go(goal: Score, scores: Sequence[Score]) -> NextGo:
    """Return how likely the next go is as good as `goal`, from scores in the order they were done."""
    spans = [sorting_span(each) for each in scores if like_key(each) == like_key(goal)]
    known = [float(span.low) for span in spans if span is not None and span.low == span.high and span.low != 0]
    counted = known[LEARNING - 1 :][-NEWEST:]
    if len(counted) < ENOUGH:
        missing = ENOUGH + LEARNING - 1 - len(known)
        return NextGo(
            None,
            f"{TOO_FEW}: {missing} more {'go' if missing == 1 else 'goes'} at the same version, and a chance stands here.",
        )
    if len({each > 0 for each in counted}) > 1:
        return NextGo(None, f"{TOO_FEW}: results with and without a time can't be put on one scale.")
    wanted = sorting_span(goal)
    if wanted is None or wanted.high == 0 or (wanted.high > 0) != (counted[0] > 0):
        return NextGo(None, f"{TOO_FEW}: this goal can't be put beside your results.")
    logs = [_log(each) for each in counted]
    spread = max(stdev(logs), LEAST_SD) * sqrt(1 + 1 / len(logs))
    chance = _t_above((_log(float(wanted.high)) - fmean(logs)) / spread, len(logs) - 1)
    return NextGo(
        chance,
        f"If the next go is like your last {len(logs)}: no progress is assumed, since so few can't tell it from luck.",
    )


def _log(value: float) -> float:
    """Return what grows as the result gets better: of a time, kept below zero, less is better."""
    return log(value) if value > 0 else -log(-value)


def _t_above(t: float, freedom: int) -> float:
    """Return the chance that Student's t exceeds a value."""
    from scipy.special import stdtr  # pyright: ignore[reportMissingTypeStubs]  # SciPy has no types; it comes when first used

    return float(1 - stdtr(freedom, t))
