"""What an invented athlete really can lift on each day, which no record shows."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from tracker.strength.curve import Curve, Floats


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of athlete: ranges that its members are drawn from, and habits of training and writing down."""

    name: str
    weeks: tuple[int, int] = (26, 60)
    per_week: tuple[float, ...] = (1, 1, 2, 3)
    gain: tuple[float, float] = (0.0, 0.16)  # over a year, in logarithms, slowing down
    early: float = 0.0  # a beginner's gain on top, over some ten weeks
    reports: tuple[float, float] = (0.4, 0.9)  # share of sets with repetitions in reserve
    share: tuple[float, float] = (0.55, 1.05)  # of those really left that is written
    judge_sd: tuple[float, float] = (0.4, 0.9)
    always: float | None = None
    reps: tuple[int, ...] = (1, 3, 5)  # the tested rep-max
    test_weeks: tuple[int, int] = (6, 12)
    away: tuple[int, int] | None = None  # weeks of a lay-off
    rep_out: float = 0.0  # how often the last set goes to failure
    typo: float = 0.0
    unit: str = "kg"
    lifts: int = 1
    writes_ramp: float = 0.3
    steep: tuple[float, float] = (0.0295, 0.20)  # of the curve: middle, spread of the logarithm


@dataclass(frozen=True, slots=True)
class Truth:
    """One lift of one athlete, day by day; all strengths are logarithms of kilograms."""

    curve: Curve
    level: Floats  # of the 1RM
    lost: Floats  # by lay-off, part of the level
    grown: Floats  # known gain, part of the level
    form_sd: float
    fatigue: float
    rep_sd: float
    wander_sd: float  # per square root of a week
    away: range = field(default=range(0))

    def rep_max(self, day: int, reps: int) -> float:
        """The true load for `reps` repetitions on an average day, in kilograms."""
        return float(np.exp(self.level[day] - self.curve.drop(reps)))


SHAPES = (1.0, 1.0, 0.0, -1.0, 2.0)


def draw(kind: Kind, weeks: int, dice: np.random.Generator) -> Truth:
    """Draw one lift's truth."""
    days = weeks * 7 + 1
    at = np.arange(days) / 7
    per_rep = kind.steep[0] * float(np.exp(np.clip(dice.normal(0, kind.steep[1]), -0.5, 0.5)))
    curve = Curve.through(np.log1p(7 * per_rep), 8, float(dice.choice(SHAPES)))
    gain = dice.uniform(*kind.gain) * (at / 52) ** dice.uniform(0.6, 1.0)
    if kind.early:
        gain = gain + dice.uniform(0.6, 1.3) * kind.early * (1 - np.exp(-at / dice.uniform(8, 16)))
    lost, away = np.zeros(days), range(0)
    if kind.away:
        length = int(dice.integers(*kind.away, endpoint=True))
        first = int(dice.integers(weeks // 3, max(weeks // 3 + 1, weeks * 2 // 3)))
        away = range(first * 7, min(days, (first + length) * 7))
        rate, free = dice.uniform(0.005, 0.016), dice.uniform(1.5, 2.5)
        most = rate * max(0.0, length - free)
        regain = dice.uniform(3, 7)
        since = at - first
        lost = np.where(
            since < 0,
            0,
            np.where(
                since < length,
                rate * np.clip(since - free, 0, None),
                most * np.clip(1 - (since - length) / regain, 0, None),
            ),
        )
        pause = np.clip(since, 0, length)
        gain = np.interp(at - pause, at, gain)
    wander = np.zeros(days)
    sd, back = dice.uniform(0.002, 0.006), 0.97
    for day in range(7, days, 7):
        value = back * wander[day - 1] + dice.normal(0, sd)
        wander[day : day + 7] = value
    start = np.log(dice.uniform(45, 190))
    return Truth(
        curve,
        start + gain - lost + wander,
        lost,
        gain,
        dice.uniform(0.014, 0.029),
        dice.choice([0.0, dice.uniform(0, 0.006)]),
        dice.uniform(0.2, 0.5),
        sd,
        away,
    )
