"""Pace within a piece: repetitions per minute by round, the slowest, and the drift from first to last.

Described, never prescribed. Rounds of a ladder are not equal work, so pace is in repetitions per minute and never in
rounds. (Mangine et al. 2021, J Hum Kinet, doi 10.2478/hukin-2021-0043, abstract: the average round rate predicted the
result best in three of five pieces, among 11 competitors.)
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from tracker.conditioning.scores import Score


@dataclass(frozen=True, slots=True)
class Pace:
    """Repetitions per minute: of each finished round with a split, and over all.

    `overall` is a range where the count was lost, None where the time is not known. `drift` is the last round's pace
    against the first's, a fraction: below zero is slower.
    """

    rounds: tuple[float, ...]
    overall: tuple[float, float] | None

    @property
    def slowest(self) -> float | None:
        return min(self.rounds, default=None)

    @property
    def average(self) -> float | None:
        """Mean of the rounds' paces, each round counting the same."""
        return sum(self.rounds) / len(self.rounds) if self.rounds else None

    @property
    def drift(self) -> float | None:
        return self.rounds[-1] / self.rounds[0] - 1 if len(self.rounds) > 1 else None


def pace_of(score: Score) -> Pace | None:
    """Return the pace of a score whose repetitions are known by the minute, or None.

    Pieces in intervals, for distance, calories, load and unscored ones have no such pace.
    """
    if not score.done.placed:
        return None
    ladder, ends = score.ladder, (0, *score.splits_s)
    reps = [ladder.through(index + 1) - (ladder.through(index) if index else 0) for index in range(len(ends) - 1)]
    rates = tuple(60 * each / (end - start) for each, (start, end) in zip(reps, pairwise(ends), strict=True))
    total, lasted = score.total, score.lasted_s
    return Pace(rates, total.per(lasted / 60) if total is not None and lasted else None)


def spread_of(score: Score) -> tuple[int, int] | None:
    """Fewest and most of the intervals of a piece, where none of them was lost; None without intervals."""
    known = [each.known for each in score.each]
    numbers = [number for number in known if number is not None]
    return (min(numbers), max(numbers)) if numbers and len(numbers) == len(known) else None
