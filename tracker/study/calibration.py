"""Does what is said to be so likely happen so often: bands of every width, and chances of planned sets."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tracker.study.figures import Figure, share
from tracker.study.invented import MemberResult

LEVELS = (10, 20, 30, 40, 50, 60, 70, 80, 90, 95)  # % of a central band
STEPS = (0, 50, 70, 80, 90, 95, 98, 100)  # % of a chance: where the groups of sets begin and end


@dataclass(frozen=True, slots=True)
class Level:
    """Of truths, how many lay within the central band of `said` per cent."""

    said: int
    held: Figure


@dataclass(frozen=True, slots=True)
class ChanceGroup:
    """Of sets with a chance between two, in per cent: how likely they were said to be, how many were made, and how many sets."""

    low: int
    high: int
    said: float
    made: Figure
    sets: int


def levels(below: Sequence[Sequence[float]]) -> list[Level]:
    """Return coverage at each level; `below` are, for each person, the probabilities given to what lies below the truth."""
    return [
        Level(
            level, share([float(np.mean([abs(2 * each - 1) <= level / 100 for each in one])) for one in below if one])
        )
        for level in LEVELS
    ]


def chances(members: Sequence[MemberResult]) -> list[ChanceGroup]:
    """Return how many sets were made by the chance that was given; people without a set in a group don't count there."""
    found: list[ChanceGroup] = []
    for low, high in itertools.pairwise(STEPS):
        groups = [
            [each for each in one.sets if low <= 100 * each.chance < high or (high == 100 == 100 * each.chance)]
            for one in members
        ]
        some = [each for each in groups if each]
        if some:
            number = sum(map(len, some))
            said = 100 * sum(each.chance for group in some for each in group) / number
            found.append(ChanceGroup(low, high, said, _made([[each.made for each in group] for group in some]), number))
    return found


def _made(groups: Sequence[Sequence[bool]]) -> Figure:
    """Return the share of all sets that were made; its error is between people, who have unequal numbers of sets."""
    sizes = np.array([len(each) for each in groups], dtype=float)
    sums = np.array([sum(each) for each in groups], dtype=float)
    middle = float(sums.sum() / sizes.sum())
    if len(groups) == 1:
        return Figure(100 * middle, 0.0, 1)
    rest = sums - middle * sizes
    error = float(np.sqrt(len(groups) / (len(groups) - 1) * (rest**2).sum()) / sizes.sum())
    return Figure(100 * middle, 100 * error, len(groups))
