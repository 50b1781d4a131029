"""Invented athletes of the kinds that a gym knows, drawn from a seed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from tracker.strength.backtest.training import train
from tracker.strength.backtest.truth import Kind, Truth, draw
from tracker.strength.records import SetRecord

KINDS = (
    Kind("regular"),
    Kind("no report", reports=(0.0, 0.0)),
    Kind("lay-off", away=(3, 10)),
    Kind("high reps", reps=(8, 10, 12), steep=(0.028, 0.22)),
    Kind("poor judge", judge_sd=(1.4, 2.4), share=(0.4, 1.1)),
    Kind("always 2", always=2.0),
    Kind("beginner", weeks=(20, 40), early=0.2, gain=(0.05, 0.15), per_week=(2, 3), test_weeks=(4, 8)),
    Kind("rep-outs", rep_out=0.5, reports=(0.0, 0.6)),
    Kind("typos", typo=0.012),
    Kind("two lifts", lifts=2, per_week=(1, 2)),
    Kind("pounds", unit="lb"),
)


@dataclass(frozen=True, slots=True)
class Lift:
    """One lift of one invented athlete: its records, and its truth."""

    member: int
    kind: Kind
    records: tuple[SetRecord, ...]
    truth: Truth
    reps: int
    share: float  # of repetitions left that is written
    judge_sd: float


def invent(count: int, seed: int, kinds: tuple[Kind, ...] = KINDS) -> Iterator[Lift]:
    """Invent `count` athletes, the kinds in turn; the same seed gives the same ones."""
    return numbered(range(count), seed, kinds)


def numbered(numbers: Iterable[int], seed: int, kinds: tuple[Kind, ...] = KINDS) -> Iterator[Lift]:
    """Invent the athletes of a seed that have these numbers, from 0 on."""
    for member in numbers:
        kind = kinds[member % len(kinds)]
        dice = np.random.default_rng([seed, member])
        for _ in range(kind.lifts):
            weeks = int(dice.integers(*kind.weeks, endpoint=True))
            truth = draw(kind, weeks, dice)
            diary = train(kind, truth, dice)
            if diary.records:
                yield Lift(member, kind, tuple(diary.records), truth, diary.reps, diary.share, diary.judge_sd)
