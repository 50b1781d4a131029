"""Pace within a piece: what is done in a minute by round, the slowest, and the drift from first to last.

Described, never prescribed. Rounds of a ladder are not equal work, so pace is in repetitions per minute and never in
rounds. (Mangine et al. 2021, J Hum Kinet, doi 10.2478/hukin-2021-0043, abstract: the average round rate predicted the
result best in three of five pieces, among 11 competitors.) A piece of calories alone has calories per minute, one of a
single distance its metres, which are said as the time for a length (common practice).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from tracker.conditioning.counts import Count
from tracker.conditioning.ladder import Ladder
from tracker.conditioning.scores import Score

PaceUnit = Literal["reps", "cal", "m"]
ON_A_MACHINE = re.compile(
    r"\b(?:row|rowing|rower|ski|skiing)\b", re.IGNORECASE
)  # these show the time of 500 m; common practice


@dataclass(frozen=True, slots=True)
class Pace:
    """What is done per minute, in `unit`: of each finished round with a split, and over all.

    `overall` is a range where the count was lost, None where the time is not known. `drift` is the last round's pace
    against the first's, a fraction: below zero is slower. `length_m` is the length whose time says a pace in metres.
    """

    rounds: tuple[float, ...]
    overall: tuple[float, float] | None
    unit: PaceUnit = "reps"
    length_m: int = 0

    @property
    def slowest(self) -> float | None:
        return min(self.rounds, default=None)

    @property
    def drift(self) -> float | None:
        return self.rounds[-1] / self.rounds[0] - 1 if len(self.rounds) > 1 else None

    @property
    def length_s(self) -> tuple[float, float] | None:
        """Seconds for `length_m` at the overall pace, the shortest first; None where that is not known, or not in metres."""
        if not self.length_m or not self.overall or min(self.overall) <= 0:
            return None
        slow, fast = (60 * self.length_m / each for each in self.overall)
        return fast, slow


def pace_of(score: Score) -> Pace | None:
    """Return the pace of a score whose amount is known by the minute, or None.

    Pieces in intervals, those that ask only for as much as possible, of load and unscored ones have no such pace; nor have
    several distances, or times, which only count as done.
    """
    unit = unit_of(score)
    if not score.done.placed or unit is None:
        return None
    ladder, ends = _ladder(score, unit), (0, *score.splits_s)
    amounts = [ladder.through(index + 1) - (ladder.through(index) if index else 0) for index in range(len(ends) - 1)]
    rates = tuple(60 * each / (end - start) for each, (start, end) in zip(amounts, pairwise(ends), strict=True))
    total, lasted = all_of(score), None if score.about else score.lasted_s
    length_m = 0 if unit != "m" else 500 if ON_A_MACHINE.search(score.tasks[0].movement) else 1000
    return Pace(rates, total.per(float(lasted) / 60) if total is not None and lasted else None, unit, length_m)


def unit_of(score: Score) -> PaceUnit | None:
    """Name what the amount of all movements together is in; None where it is in nothing that can be summed up.

    Beside repetitions a distance counts 1 when done, as in the score.
    """
    measures = {task.measure for task in score.tasks}
    if measures == {"cal"}:
        return "cal"
    if measures & {"reps", "cal"}:
        return "reps"
    return "m" if measures == {"m"} and len(score.tasks) == 1 and not score.tasks[0].part else None


def all_of(score: Score) -> Count | None:
    """All that was done of a piece whose score has a place, in `unit_of`; None without a place, a count or a unit."""
    unit = unit_of(score)
    if unit is None or score.positions is None:
        return None
    if unit != "m":
        return score.total
    ladder = _ladder(score, unit)
    low, high = (ladder.through(each.rounds) for each in score.positions)
    return Count(low, high)


def _ladder(score: Score, unit: PaceUnit) -> Ladder:
    """The ladder of a piece; of a single distance in metres, where that of its score has 1 for each round."""
    return Ladder((score.tasks[0].amount,), score.ladder.rounds) if unit == "m" else score.ladder


def spread_of(score: Score) -> tuple[int, int] | None:
    """Fewest and most of the intervals of a piece, where none of them was lost; None without intervals."""
    known = [each.known for each in score.each]
    numbers = [number for number in known if number is not None]
    return (min(numbers), max(numbers)) if numbers and len(numbers) == len(known) else None
