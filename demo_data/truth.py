"""What the demo's records never show: what each invented member really could lift on each day, and how they report it.

The rates and sizes are choices that lie within published ones: gains of 0.1 to 0.7 % a week that slow down, a form of
the day of about 2 %, no loss in the first two weeks off and about 1 % a week after, repetitions in reserve reported
too low by about one in five.
"""

from __future__ import annotations

import math
import random
from collections.abc import Mapping
from dataclasses import dataclass, field

WEEKS = 39  # nine months


@dataclass(frozen=True)
class Truth:
    """One lift of one member.

    `start` is the 1RM at the start, of what is really moved, body mass included, in the member's unit; then come
    its gain over the whole time as a fraction, and the share of the 1RM that each further repetition costs.
    """

    start: float
    gain: float
    curve: float = 0.03


@dataclass(frozen=True)
class Athlete:
    """An invented member: lifts, attendance and habits of reporting."""

    name: str
    lifts: Mapping[str, Truth]
    first_week: int = 0
    away: range = range(0)  # weeks without training
    attendance: float = 0.9
    reports: float = 0.6  # share of work sets with repetitions in reserve written down
    habit: float = 0.8  # reported repetitions in reserve for each one really there
    ramps: bool = False  # writes down ramp sets
    form_sd: float = 0.018
    drift: dict[str, list[float]] = field(default_factory=dict)

    def wander(self, dice: random.Random) -> None:
        """Draw the slow wander of each lift's level, week by week."""
        for lift in self.lifts:
            walk, at = [], 0.0
            for _ in range(WEEKS + 1):
                at = 0.9 * at + dice.gauss(0, 0.004)
                walk.append(at)
            self.drift[lift] = walk

    def level(self, lift: str, week: float) -> float:
        """The underlying 1RM of `lift` in `week`."""
        truth = self.lifts[lift]
        trained = max(0.0, week - self.first_week)
        grown = truth.gain * (trained / (WEEKS - self.first_week)) ** 0.75
        return truth.start * math.exp(grown - self.lost(week) + self.drift[lift][min(int(week), WEEKS)])

    def lost(self, week: float) -> float:
        """What a lay-off has cost by `week`: nothing for two weeks, then 1.2 % a week; regained over five."""
        if not self.away or week < self.away.start:
            return 0.0
        most = 0.012 * max(0, len(self.away) - 2)
        if week < self.away.stop:
            return 0.012 * max(0.0, week - self.away.start - 2)
        return most * max(0.0, 1 - (week - self.away.stop) / 5)

    def reps_left(self, lift: str, capability: float, load: float, dice: random.Random) -> float:
        """Repetitions to failure with `load`, on a day on which the 1RM is `capability`; below 1 means none."""
        return 1 + (capability / load - 1) / self.lifts[lift].curve + dice.gauss(0, 0.3)

    def rep_max(self, lift: str, week: float, reps: int) -> float:
        """The true load for `reps` repetitions, on an average day."""
        return self.level(lift, week) / (1 + self.lifts[lift].curve * (reps - 1))

    def reported(self, left: float, dice: random.Random) -> float | None:
        """What the member writes down when `left` repetitions were really left: often nothing, mostly too few."""
        if dice.random() > self.reports:
            return None
        told = max(0.0, self.habit * left + dice.gauss(0, 0.5))
        return min(6.0, round(told * 2) / 2 if dice.random() < 0.15 else float(round(told)))


ATHLETES = (
    Athlete(
        "Wren",
        {
            "front squat": Truth(79, 0.11, 0.027),
            "back squat": Truth(93, 0.10, 0.026),
            "press": Truth(42.5, 0.07, 0.032),
            "push press": Truth(54, 0.08, 0.032),
            "deadlift": Truth(113, 0.09, 0.033),
            "pull-up": Truth(76, 0.08, 0.031),
            "split squat": Truth(31, 0.12, 0.022),
        },
        reports=0.7,
        ramps=True,
    ),
    Athlete(
        "Tobin",
        {
            "front squat": Truth(252, 0.07, 0.031),
            "back squat": Truth(318, 0.06, 0.029),
            "press": Truth(148, 0.05, 0.034),
            "push press": Truth(186, 0.06, 0.034),
            "deadlift": Truth(392, 0.05, 0.036),
        },
        attendance=0.86,
        reports=0.45,
        habit=0.7,
    ),
    Athlete(
        "Ondrej",
        {
            "front squat": Truth(96, 0.07, 0.029),
            "back squat": Truth(118, 0.06, 0.028),
            "press": Truth(66, 0.05, 0.033),
            "deadlift": Truth(156, 0.06, 0.034),
            "pull-up": Truth(116, 0.06, 0.030),
        },
        away=range(34, 39),  # up to the day on which the story stops
        attendance=0.9,
        reports=0.5,
    ),
    Athlete(
        "Mirela",
        {
            "front squat": Truth(23, 0.20, 0.024),
            "press": Truth(16.5, 0.16, 0.030),
            "deadlift": Truth(23.5, 0.14, 0.024),
            "bent row": Truth(22, 0.15, 0.027),
        },
        attendance=0.8,
        reports=0.55,
        habit=0.85,
    ),
    Athlete(
        "Sunniva",
        {
            "snatch": Truth(34, 0.16, 0.031),
            "clean and jerk": Truth(44, 0.15, 0.032),
            "front squat": Truth(52, 0.15, 0.026),
        },
        first_week=28,
        attendance=0.92,
        reports=0.65,
        habit=0.6,
        ramps=True,
    ),
)
