"""Whether goals that are said to be 30 and 70 % likely are reached so often: `python -m tracker.strength.backtest.goals [athletes] [seed]`.

Each invented athlete has one goal: on a random day from their first test on, for a random number of weeks, a load of which the
chance is just 30 or just 70 %, every other athlete. It is held against what is true then: whether the level really came to it in
one of those weeks, and, of other goals of the same athlete, whether one test on the last day makes it, with the form of a day and
the noise of repetitions drawn. An athlete whose lay-off falls into those weeks, or before whom no such weeks lie, has no goal:
nobody trained on in them.

What was found stands in DEVELOPERS.md.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from math import exp, log

import numpy as np

from tracker.strength.backtest.athletes import KINDS, Lift, invent
from tracker.strength.backtest.training import START
from tracker.strength.chance import chance_of
from tracker.strength.estimator import LiftModel
from tracker.strength.forecast import beliefs
from tracker.strength.goal import Ahead, ahead_of

SAID = (0.3, 0.7)
WEEKS = (4, 26)  # how far a goal lies ahead
SEED = 77003  # of the table; nothing was tuned on it
HALVINGS = 24


@dataclass(frozen=True, slots=True)
class Goal:
    """One goal of one athlete: what was said, and whether it happened; the same of one test on the last day."""

    kind: str
    said: float
    weeks: int
    there: bool
    made: bool


def goal_of(lift: Lift, said: float, dice: np.random.Generator) -> Goal | None:
    """Set one athlete a goal of a chance, and look whether it happens; None where no goal can be."""
    tests = [each.day for each in lift.records if each.kind == "test"]
    weeks = int(dice.integers(*WEEKS, endpoint=True))
    last = len(lift.truth.level) - 1 - 7 * weeks
    days = sorted({each.day for each in lift.records if tests and each.day >= tests[0]})
    at = [(day - START).days for day in days]
    away = lift.truth.away
    free = [each for each in at if each <= last and not (away and away.start <= each + 7 * weeks and each < away.stop)]
    if not free:
        return None
    asked = int(dice.choice(free))
    day = days[at.index(asked)]
    model = LiftModel.of([each for each in lift.records if each.day <= day])
    load = _load_to_come_to(
        ahead_of(model, lift.reps, day, weeks), said, model.estimate(day).rep_max[lift.reps].estimate
    )
    truth = [lift.truth.rep_max(asked + 7 * week, lift.reps) for week in range(weeks + 1)]
    tested = _load_of_chance(model, lift.reps, said, day, weeks)
    return Goal(lift.kind.name, said, weeks, max(truth) >= load, _made(lift, asked + 7 * weeks, tested, dice))


def _load_to_come_to(ahead: Ahead, said: float, middle: float) -> float:
    """Return the load to which the level comes by the last week with a chance."""
    if ahead.most is not None:
        return exp(float(np.quantile(ahead.most[-1], 1 - said)))
    low, high = middle / 3, middle * 3  # of a lift that is done rarely, week by week
    for _ in range(HALVINGS):
        load = (low * high) ** 0.5
        low, high = (load, high) if ahead.chances(load)[-1] > said else (low, load)
    return (low * high) ** 0.5


def _load_of_chance(model: LiftModel, reps: int, said: float, day: date, weeks: int) -> float:
    """Return the load that one test so many weeks later makes with a chance: see `LiftModel.chance`."""
    *_, (_, belief) = beliefs(model, day, weeks)
    told, middle = model.known(day).told, model.estimate(day).rep_max[reps].estimate
    low, high = middle / 3, middle * 3
    for _ in range(HALVINGS):
        load = (low * high) ** 0.5
        low, high = (load, high) if chance_of(belief, told, load, reps) > said else (low, load)
    return (low * high) ** 0.5


def _made(lift: Lift, at: int, load: float, dice: np.random.Generator) -> bool:
    """Draw one test on a day: its form and the noise of repetitions, as the athletes train."""
    truth = lift.truth
    fresh = truth.level[at] + float(dice.normal(0, truth.form_sd))
    says = float(truth.curve.reps(fresh - log(load)))
    return bool(np.floor(min(says, 60) + dice.normal(0, truth.rep_sd * (1 + 0.05 * max(says, 0)))) >= lift.reps)


def goals(athletes: int, seed: int) -> Iterator[Goal]:
    """Set every other athlete a goal of the one and of the other chance; of one athlete's lifts only the first counts."""
    seen: set[int] = set()
    for lift in invent(athletes, seed):
        if lift.member in seen:
            continue
        seen.add(lift.member)
        said = SAID[lift.member // len(KINDS) % 2]
        if found := goal_of(lift, said, np.random.default_rng([seed, lift.member, 1])):
            yield found


def row(name: str, found: Sequence[Goal]) -> Iterator[str]:
    """Write what happened of a kind's goals, of each chance, with the standard error of a share."""
    for said in SAID:
        some = [each for each in found if each.said == said]
        if not some:
            continue
        text = f"{name:<12}{100 * said:>6.0f}{len(some):>10}"
        for share in (np.mean([each.there for each in some]), np.mean([each.made for each in some])):
            text += f"{100 * share:>10.1f} +-{100 * (share * (1 - share) / len(some)) ** 0.5:<4.1f}"
        yield text


def main(athletes: int = 3300, seed: int = SEED) -> None:
    """Print the table."""
    say = partial(print, flush=True)
    found = list(goals(athletes, seed))
    say(f"seed {seed}; +- is one standard error between athletes, of whom each has one goal")
    say(f"{'kind':<12}{'said %':>6}{'athletes':>10}{'level there %':>17}{'one test made %':>17}")
    kinds = dict.fromkeys(each.kind for each in found)
    for name, some in (("all", found), *((kind, [each for each in found if each.kind == kind]) for kind in kinds)):
        for line in row(name, some):
            say(line)
    for low, high in ((4, 8), (9, 16), (17, 26)):
        for line in row(f"{low}-{high} weeks", [each for each in found if low <= each.weeks <= high]):
            say(line)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
