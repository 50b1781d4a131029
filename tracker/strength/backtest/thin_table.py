"""The table of members of whom little is known: `python -m tracker.strength.backtest.thin_table [members] [seed]`.

Every figure is made of members, not of days, and its standard error (+-) is between members: days of one are alike.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from math import log
from multiprocessing import Pool

import numpy as np

from tracker.strength.backtest.thin import KINDS, ThinMember, invent
from tracker.strength.backtest.yardsticks import carried
from tracker.strength.estimator import LiftModel
from tracker.strength.parameters import DEFAULT, Parameters

COUNT, SEED = 300, 6174  # the table of results; seeds 11 to 19, 30211 and 30977 served for tuning
PROCESSES = 2


@dataclass(frozen=True, slots=True)
class MemberScore:
    """What was found of one member, all in logarithms: over the days scored, each a mean."""

    square: float  # of the error
    bias: float
    held: float  # share of days
    width: float  # of the 80 % band
    carried_square: float  # of the last test carried on; nan where there was none
    below: tuple[float, ...] = ()  # how likely it was, each day, that the truth is lower than it was: even from 0 to 1


@dataclass(frozen=True, slots=True)
class Figure:
    """A mean over members and its standard error between them."""

    value: float
    error: float


def score(member: ThinMember, parameters: Parameters = DEFAULT) -> MemberScore:
    """Ask the estimate on each day that has a truth; with nothing but what was known then."""
    return score_of(LiftModel.of(member.records, parameters, member.elsewhere), member)


def score_of(model: LiftModel, member: ThinMember) -> MemberScore:
    """Score a model that was made of a member's records."""
    below: list[float] = []
    found: list[tuple[float, float, bool, float]] = []
    tests: list[float] = []
    for day, truth in member.truth.items():
        asked = day - timedelta(days=1) if member.ahead else day
        band = model.estimate(asked).rep_max[member.reps]
        error, held = log(band.estimate / truth), band.low80 <= truth <= band.high80
        found.append((error**2, error, held, log(band.high80 / band.low80)))
        below.append(model.below(truth, member.reps, asked))
        known = [each for each in member.records if each.day <= asked]
        last = carried(known, member.reps, [asked])[0]
        tests.append(log(last / truth) ** 2 if last else np.nan)
    square, bias, held, width = (float(value) for value in np.mean(found, axis=0))
    return MemberScore(square, bias, held, width, float(np.mean(tests)), tuple(below))


def rooted(squares: Sequence[float]) -> Figure:
    """Return the root of a mean square in per cent, and its standard error by first order."""
    root = float(np.sqrt(np.mean(squares)))
    return Figure(100 * root, 100 * float(np.std(squares, ddof=1)) / np.sqrt(len(squares)) / (2 * root))


def mean(values: Sequence[float]) -> Figure:
    """Return a mean in per cent and its standard error."""
    return Figure(100 * float(np.mean(values)), 100 * float(np.std(values, ddof=1)) / np.sqrt(len(values)))


def row(kind: str, scores: Sequence[MemberScore]) -> str:
    """Write one kind's row."""
    told = [each.carried_square for each in scores if not np.isnan(each.carried_square)]
    figures = [rooted([each.square for each in scores]), mean([each.bias for each in scores]),
               mean([each.held for each in scores]), mean([each.width for each in scores])]  # fmt: skip
    text = f"{kind:<10}{len(scores):>8}"
    text += "".join(f"{each.value:>8.1f} +-{each.error:<4.1f}" for each in figures)
    return text + (f"{rooted(told).value:>9.1f} ({len(told)})" if len(told) > 1 else f"{'-':>9}")


HEAD = f"{'kind':<10}{'members':>8}{'error %':>11}{'bias %':>15}{'held %':>15}{'width %':>15}{'carried %':>15}"


def scores_of(
    kind: Callable[[np.random.Generator], ThinMember], count: int, seed: int, parameters: Parameters = DEFAULT
) -> list[MemberScore]:
    """Score `count` members of a kind, on two processors."""
    with Pool(PROCESSES) as pool:
        return pool.starmap(score, ((each, parameters) for each in invent(kind, count, seed)), chunksize=4)


def main(count: int = COUNT, seed: int = SEED) -> None:
    """Print the table."""
    print(f"{count} invented members a kind, seed {seed}; +- is one standard error between members")
    print(HEAD)
    for kind in KINDS:
        print(row(kind.__name__, scores_of(kind, count, seed)), flush=True)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
