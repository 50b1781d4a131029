"""Invented members of whom little is known: no test, no report, a habit that drifts, a lift that rests, a slip.

Written from a description of such members, without sight of how the estimate is built: repetitions follow a curve that
levels off, from how many a person makes at 80 % of the 1RM (mean 9.5 and SD 2.5 between people, about the published
spread); a set takes its share of capability from the next; form is skewed downwards. Nothing of it is fitted.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from math import exp, log

import numpy as np

from tracker.strength.records import SetRecord

FIRST = date(2024, 1, 1)
WEEKS = 26


@dataclass(frozen=True, slots=True)
class ThinMember:
    """One lift of one member: what was logged, which repetition max is asked and what it truly is on the days scored.

    `elsewhere` are days on which only another lift was trained. `ahead`: the answer is asked the day before, as for a
    meet to come, and the truth is what was lifted there.
    """

    kind: str
    records: tuple[SetRecord, ...]
    reps: int
    truth: Mapping[date, float]
    elsewhere: tuple[date, ...] = ()
    ahead: bool = False


class Person:
    """What is true of one person and lift: level by week, curve, fatigue, form, habit of reporting."""

    def __init__(self, rng: np.random.Generator, weeks: int = WEEKS) -> None:
        self.rng = rng
        self.one_rm = float(exp(rng.normal(log(100), 0.35)))
        at_80 = float(np.clip(rng.normal(9.5, 2.5), 5, 16))
        self.floor = float(np.clip(rng.normal(0.45, 0.05), 0.3, 0.6))
        self.bend = -log((0.8 - self.floor) / (1 - self.floor)) / (at_80 - 1)
        steps = rng.normal(float(np.clip(rng.normal(0.0025, 0.0025), -0.002, 0.008)), 0.005, weeks + 1)
        self.path = np.concatenate([[0.0], np.cumsum(steps)])
        self.cost = float(rng.uniform(0.003, 0.015))  # of capability, for each set before
        self.share = float(np.clip(rng.normal(0.85, 0.25), 0.3, 1.5))  # of what was left that is reported

    def level(self, day: int) -> float:
        """1RM on a day of ordinary form, in kg."""
        return self.one_rm * exp(float(np.interp(day / 7, np.arange(len(self.path)), self.path)))

    def part(self, reps: float) -> float:
        """What part of the 1RM can be lifted for so many repetitions."""
        return self.floor + (1 - self.floor) * exp(-self.bend * (reps - 1))

    def rep_max(self, day: int, reps: int) -> float:
        """Return the true rep-max on a day, in kg."""
        return self.level(day) * self.part(reps)

    def form(self) -> float:
        """Form of a day, in logarithms: mostly a little up or down, now and then clearly down."""
        bad = self.rng.exponential(0.03) if self.rng.random() < 0.12 else 0.0
        return float(self.rng.normal(0, 0.015)) - bad

    def most(self, load: float, capability: float) -> int:
        """Whole repetitions that a load allows, 0 if none."""
        share = load / capability
        if share <= self.floor + 0.02:
            return 40
        reps = 1 - log((share - self.floor) / (1 - self.floor)) / self.bend
        return max(int(np.floor(reps + self.rng.normal(0, 0.4))), 0)


def rounded(load: float) -> float:
    """Return a load that can be put on a bar: a multiple of 2.5 kg."""
    return max(round(load / 2.5) * 2.5, 2.5)


def session(
    person: Person,
    day: int,
    share: float,
    reps: int,
    sets: int,
    *,
    report: Callable[[int], float | None] = lambda _: None,
    last_to_failure: bool = False,
    slip: float = 0.0,
) -> Iterator[SetRecord]:
    """Give sets at a share of the true rep-max; `report` turns what was left into what is told."""
    when, form = FIRST + timedelta(days=day), person.form()
    load = rounded(share * person.rep_max(day, reps))
    for order in range(sets):
        most = person.most(load, person.level(day) * exp(form - person.cost * order))
        if last_to_failure and order == sets - 1:
            sure = person.rng.random() < 0.5  # the next one is tried and fails, or is known to be out of reach
            outcome, rir = ("missed", None) if sure else ("done", 0.0)
            yield SetRecord(when, load, most, rir, outcome, "work", order)
        elif most < reps:
            yield SetRecord(when, load, most, None, "missed", "work", order)
            return
        elif order and person.rng.random() < slip:
            yield SetRecord(when, load, reps - 1, None, "missed", "work", order)
            return
        else:
            yield SetRecord(when, load, reps, report(most - reps), "done", "work", order)


def test(person: Person, day: int, reps: int) -> Iterator[SetRecord]:
    """Give a test: attempts go up by some 2.5 % until one is missed, and now and then stop short of that."""
    when, form = FIRST + timedelta(days=day), person.form()
    load = rounded(0.92 * person.rep_max(day, reps))
    for order in range(8):
        most = person.most(load, person.level(day) * exp(form - person.cost * order / 2))
        if most < reps:
            yield SetRecord(when, load, most, None, "missed", "test", order)
            return
        yield SetRecord(when, load, reps, None, "done", "test", order)
        if most == reps and person.rng.random() < 0.5:
            return
        load = max(rounded(load * 1.025), load + 2.5)


def training_days(weeks: int = WEEKS) -> Iterator[int]:
    """Two days a week."""
    for week in range(weeks):
        yield from (7 * week, 7 * week + 3)


def _truth(person: Person, days: list[int], reps: int) -> dict[date, float]:
    return {FIRST + timedelta(days=day): person.rep_max(day, reps) for day in days}


def easy(rng: np.random.Generator, weeks: int = WEEKS) -> ThinMember:
    """Sets at 62 to 68 % of the 5RM, nothing reported, no test."""
    person, share, sets = Person(rng, weeks), float(rng.uniform(0.62, 0.68)), int(rng.integers(3, 6))
    days = list(training_days(weeks))
    records = [one for day in days for one in session(person, day, share, 5, sets)]
    return ThinMember("easy", tuple(records), 5, _truth(person, days[8:], 5))


def tiring(rng: np.random.Generator, weeks: int = WEEKS) -> ThinMember:
    """Each set costs 1.2 to 3 %, the last goes to failure; half of the members test every ten weeks."""
    person = Person(rng, weeks)
    person.cost = float(rng.uniform(0.012, 0.03))
    tests, days = rng.random() < 0.5, list(training_days(weeks))
    records: list[SetRecord] = []
    for day in days:
        if tests and day % 70 == 0:
            records += test(person, day, 5)
        else:
            records += session(person, day, float(rng.uniform(0.8, 0.88)), 5, 4, last_to_failure=True)
    return ThinMember("tiring", tuple(records), 5, _truth(person, days[8:], 5))


def drifting(rng: np.random.Generator, weeks: int = WEEKS) -> ThinMember:
    """The share of the reserve that is reported drifts over half a year; tested at the start, half of them later too."""
    person, tests, days = Person(rng, weeks), rng.random() < 0.5, list(training_days(weeks))
    records: list[SetRecord] = []
    first, last = person.share, float(np.clip(rng.normal(0.85, 0.25), 0.3, 1.5))
    for day in days:
        share = first + (last - first) * min(1.0, day / (7 * WEEKS - 4))  # the last day of half a year

        def report(left: int, share: float = share) -> float:
            return float(max(round(share * left + rng.normal(0, 0.7)), 0))

        if day == 0 or (tests and day % 70 == 0):
            records += test(person, day, 5)
        else:
            records += session(person, day, float(rng.uniform(0.75, 0.9)), 5, 3, report=report)
    return ThinMember("drifting", tuple(records), 5, _truth(person, days[8:], 5))


def rested(rng: np.random.Generator, weeks: int = WEEKS) -> ThinMember:
    """The lift rests 8 to 14 weeks while the member trains another; scored in the first month back, or up to `weeks`."""
    person, gap = Person(rng, weeks), int(rng.integers(8, 15))
    begin, change = 12, float(rng.normal(-0.01, 0.02))  # the rest itself costs little, here and there nothing
    person.path[begin + gap :] += change
    days: list[int] = []
    records: list[SetRecord] = []
    elsewhere: list[date] = []
    for day in training_days(begin + gap + 4 if weeks == WEEKS else weeks):
        if 7 * begin <= day < 7 * (begin + gap):
            elsewhere.append(FIRST + timedelta(days=day))
            continue
        days.append(day)
        if day in (0, 42):
            records += test(person, day, 5)
        else:
            told = _told(person)
            records += session(person, day, float(rng.uniform(0.75, 0.9)), 5, 3, report=told)
    back = [day for day in days if day >= 7 * (begin + gap)]
    return ThinMember("rested", tuple(records), 5, _truth(person, back, 5), tuple(elsewhere))


def _told(person: Person) -> Callable[[int], float | None]:
    """Half of the sets are reported, by a habit that stays."""

    def report(left: int) -> float | None:
        if person.rng.random() < 0.5:
            return None
        return float(max(round(person.share * left + person.rng.normal(0, 0.7)), 0))

    return report


def _fives(person: Person, on: Callable[[int], Iterable[SetRecord]], weeks: int) -> tuple[SetRecord, ...]:
    """A test of the 5RM every eight weeks, and on each other day of training what `on` makes of it."""
    days = training_days(weeks)
    return tuple(each for day in days for each in (test(person, day, 5) if day % 56 == 0 else on(day)))


def tens(rng: np.random.Generator, weeks: int = WEEKS) -> ThinMember:
    """The 10RM is asked of somebody who trains and tests fives."""
    person = Person(rng, weeks)
    records = _fives(
        person, lambda day: session(person, day, float(rng.uniform(0.78, 0.92)), 5, 3, report=_told(person)), weeks
    )
    return ThinMember("tens", records, 10, _truth(person, list(training_days(weeks))[8:], 10))


def meets(rng: np.random.Generator) -> ThinMember:
    """Meets alone, the next one after 30 to 60 weeks; the answer is asked the day before."""
    weeks = 330
    person = Person(rng, weeks)
    steps = rng.normal(float(rng.normal(0.0004, 0.0005)), 0.008, weeks + 1)  # they train; nobody logs it
    person.path = np.concatenate([[0.0], np.cumsum(steps)])
    day = 0
    days: list[tuple[int, float]] = []
    records: list[SetRecord] = []
    for _ in range(5):
        best = rounded(person.level(day) * exp(person.form()))
        records += [
            SetRecord(FIRST + timedelta(days=day), rounded(best * 0.95), 1, None, "done", "test", 0),
            SetRecord(FIRST + timedelta(days=day), best, 1, None, "done", "test", 1),
        ]
        days.append((day, best))
        day += 7 * int(rng.integers(30, 61))
    truth = {FIRST + timedelta(days=day): best for day, best in days[1:]}
    return ThinMember("meets", tuple(records), 1, truth, ahead=True)


def slips(rng: np.random.Generator, weeks: int = WEEKS) -> ThinMember:
    """Fives without reports, a test every eight weeks; now and then a repetition late in the day slips."""
    person = Person(rng, weeks)
    records = _fives(person, lambda day: session(person, day, float(rng.uniform(0.8, 0.88)), 5, 4, slip=0.06), weeks)
    return ThinMember("slips", records, 5, _truth(person, list(training_days(weeks))[8:], 5))


KINDS: tuple[Callable[[np.random.Generator], ThinMember], ...] = (easy, tiring, drifting, rested, tens, meets, slips)


def invent(kind: Callable[[np.random.Generator], ThinMember], count: int, seed: int) -> Iterator[ThinMember]:
    """Invent members of a kind; the same seed gives the same members, however many."""
    return numbered(kind, range(count), seed)


def numbered(
    kind: Callable[[np.random.Generator], ThinMember], numbers: Iterable[int], seed: int
) -> Iterator[ThinMember]:
    """Invent the members of a kind and seed that have these numbers, from 0 on."""
    for number in numbers:
        yield kind(np.random.default_rng([seed, KINDS.index(kind), number]))
