"""Would a person's other lift tell of this one's curve: `python -m tracker.strength.backtest.pooled [people] [seed] [alike, %]`.

People are invented whose lifts share a part of the curve: how many repetitions a lift allows at 80 % of the 1RM correlates
`ALIKE` between two lifts of one person. One lift was trained and tested over a wide range of repetitions for half a year;
then another one begins, in fives, and its 5RM and 10RM are asked. It is estimated alone, with a prior of its curve that the first
lift's belief gives (normal in the logarithm of steepness, with the correlation `ALIKE`), and with the
prior that the first lift's true curve would give. Where what is true is what is believed, nothing has to be guessed that would
have to be guessed of members: so far the trial is kind to pooling. With 0 for `alike` it says what a wrong belief costs.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import expm1, log, sqrt

import numpy as np

from tracker.strength.backtest import thin
from tracker.strength.backtest.thin_table import MemberScore, row, score
from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.estimator import LiftModel
from tracker.strength.parameters import DEFAULT, Parameters
from tracker.strength.records import SetRecord

PEOPLE, SEED = 150, 88201  # of the figures in lift_curves.py; nothing was chosen on any seed
ALIKE = 0.5
AT_80, AT_80_SD = 9.5, 2.5  # repetitions at 80 %, mean and SD between people, as in thin.py
ASKED = (5, 10)
EIGHT = 8  # repetitions at which steepness is told


@dataclass(frozen=True, slots=True)
class Pair:
    """What was logged of the first lift, the true logarithm of its 1RM over its 8RM, and the second lift with each rep-max asked."""

    first: tuple[SetRecord, ...]
    drop: float
    second: tuple[thin.ThinMember, ...]


def invent(people: int, seed: int, alike: float = ALIKE) -> Iterator[Pair]:
    """Invent people whose curves correlate `alike`; the same seed gives the same ones, however many."""
    for number in range(people):
        rng = np.random.default_rng([seed, number])
        first, second, _ = _two_lifts(rng, alike)
        records = tuple(_wide(first))
        member = _fives(second)
        yield Pair(
            records,
            -log(first.part(EIGHT)),
            tuple(replace(member, reps=reps, truth=_truth(second, member, reps)) for reps in ASKED),
        )


def _two_lifts(rng: np.random.Generator, alike: float) -> tuple[thin.Person, thin.Person, tuple[float, float]]:
    """Return two lifts of a person, and how each one's curve stands among people's, in SDs."""
    shared = rng.normal()
    first, second = (sqrt(alike) * shared + sqrt(1 - alike) * rng.normal() for _ in range(2))
    return _lift(rng, first), _lift(rng, second), (first, second)


def _lift(rng: np.random.Generator, curve: float) -> thin.Person:
    person = thin.Person(rng)
    at_80 = float(np.clip(AT_80 + AT_80_SD * curve, 5, 16))
    person.bend = -log((0.8 - person.floor) / (1 - person.floor)) / (at_80 - 1)
    return person


def _wide(person: thin.Person) -> Iterator[SetRecord]:
    """Threes to tens, and tests of 1, 5 and 10 in turn every five weeks."""
    for at, day in enumerate(thin.training_days()):
        if at % 10 == 0:
            yield from thin.test(person, day, (5, 10, 1)[at // 10 % 3])
        else:
            reps = int(person.rng.choice([3, 5, 8, 10]))
            yield from thin.session(person, day, float(person.rng.uniform(0.8, 0.93)), reps, 3, report=_told(person))


def _fives(person: thin.Person) -> thin.ThinMember:
    days, records = list(thin.training_days(13)), list[SetRecord]()
    for day in days:
        if day % 56 == 0:
            records += thin.test(person, day, 5)
        else:
            records += thin.session(person, day, float(person.rng.uniform(0.78, 0.92)), 5, 3, report=_told(person))
    truth = {thin.FIRST + timedelta(days=day): 0.0 for day in days[2:]}
    return thin.ThinMember("fives", tuple(records), 5, truth)


def _truth(person: thin.Person, member: thin.ThinMember, reps: int) -> dict[date, float]:
    return {day: person.rep_max((day - thin.FIRST).days, reps) for day in member.truth}


def _told(person: thin.Person):
    def report(left: int) -> float | None:
        told = float(max(round(person.share * left + person.rng.normal(0, 0.7)), 0))
        return told if person.rng.random() < 0.5 else None

    return report


def steepness(belief: Belief) -> tuple[float, float]:
    """Return mean and variance of the logarithm of log(1RM / 8RM) in a belief."""
    grid = belief.active.grid
    logs: Floats = np.log(grid.drop(EIGHT))[belief.active.curve_of]
    weight = np.exp(belief.log_weight)
    weight /= weight.sum()
    mean = float(weight @ logs)
    return mean, float(weight @ (logs - mean) ** 2)


def given(mean: float, var: float) -> Parameters:
    """Return parameters for another lift of a person whose first lift has such a steepness: the normal one, given the other."""
    middle, own = log(DEFAULT.curve_at_eight), DEFAULT.steepness_sd**2
    there = middle + ALIKE * (mean - middle)
    left = own - ALIKE**2 * max(0.0, own - var)
    return replace(DEFAULT, curve_per_rep=expm1(float(np.exp(there))) / (EIGHT - 1), steepness_sd=sqrt(left))


def scores(pair: Pair) -> dict[tuple[int, str], MemberScore]:
    """Score the second lift each way."""
    known = {
        "alone": DEFAULT,
        "pooled": given(*steepness(LiftModel.of(pair.first).days[-1].belief)),
        "known": given(log(pair.drop), 0.0),
    }
    return {
        (member.reps, name): score(member, parameters) for member in pair.second for name, parameters in known.items()
    }


def main(people: int = PEOPLE, seed: int = SEED, percent: int = round(100 * ALIKE)) -> None:
    """Print the table, and what the prior takes from the mean square error; `percent` is what is true, `ALIKE` what is believed."""
    found = [scores(pair) for pair in invent(people, seed, percent / 100)]
    print(
        f"{people} invented people, curves alike by {percent} %, seed {seed}; +- is one standard error between people"
    )
    for reps in ASKED:
        for name in ("alone", "pooled", "known"):
            print(f"{reps:>2}RM " + row(name, [each[reps, name] for each in found]))
        alone = np.array([each[reps, "alone"].square for each in found])
        for name in ("pooled", "known"):
            gain = (alone - np.array([each[reps, name].square for each in found])) / alone.mean()
            print(
                f"{reps}RM, {name}: {100 * gain.mean():.1f} +-{100 * gain.std(ddof=1) / len(gain) ** 0.5:.1f} % of the mean square"
            )


if __name__ == "__main__":
    main(*map(int, sys.argv[1:4]))
