"""How each formula, and the estimate, would have foretold each later tested max of one member.

Only what was known on the day before a test counts. A test is taken at what was made, or half way to what was then
missed with more.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import sqrt

from tracker.strength.estimator import LiftModel
from tracker.strength.formulas import FORMULAS, WINDOW_DAYS, best_values
from tracker.strength.records import REP_MAXES, SetRecord

ENOUGH = 4  # with fewer tests a ranking says nothing; design
OURS = "estimate"


@dataclass(frozen=True, slots=True)
class ProvenMax:
    """A tested nRM in kilograms."""

    day: date
    reps: int
    kg: float


@dataclass(frozen=True, slots=True)
class Score:
    """One method's errors in per cent of the tested max: above zero it promised too much."""

    key: str
    name: str
    tests: int
    bias_percent: float | None
    error_percent: float | None  # root mean square
    too_few: bool
    each: tuple[tuple[ProvenMax, float], ...] = ()  # the error before each test that it could foretell, oldest first


@dataclass(frozen=True, slots=True)
class Hindcast:
    """All methods, the best first among those with enough tests, and the tests that they were judged on."""

    tests: tuple[ProvenMax, ...]
    scores: tuple[Score, ...]
    words: str


def proven_maxes(records: Sequence[SetRecord]) -> tuple[ProvenMax, ...]:
    """Find each day's tested nRM: the heaviest test that was made, moved half way to a miss of more on that day."""
    found: list[ProvenMax] = []
    for day in sorted({record.day for record in records if record.kind == "test"}):
        tests = [record for record in records if record.day == day and record.kind == "test"]
        made = [each for each in tests if each.outcome == "done" and each.reps in REP_MAXES]
        if made:
            best = max(made, key=lambda each: (each.load_kg, each.reps))
            more = [each.load_kg for each in tests if each.outcome == "missed" and each.load_kg > best.load_kg]
            found.append(ProvenMax(day, best.reps, (best.load_kg + min(more)) / 2 if more else best.load_kg))
    return tuple(found)


def hindcast(model: LiftModel) -> Hindcast:
    """Score every formula and the estimate on the tests after the first day."""
    records = [record for day in model.days for record in day.records]
    tests = tuple(test for test in proven_maxes(records) if test.day > model.days[0].day)
    errors: dict[str, list[tuple[ProvenMax, float]]] = {key: [] for key in (OURS, *FORMULAS)}
    for test in tests:
        before = test.day - timedelta(days=1)
        errors[OURS].append((test, _percent(model.estimate(before).rep_max[test.reps].estimate, test)))
        for key, value in best_values(_recent(records, before), before).items():
            told = FORMULAS[key].rep_max(value.one_rm_kg, test.reps).kg if value.one_rm_kg else None
            if told:
                errors[key].append((test, _percent(told, test)))
    scores = [_score(key, found) for key, found in errors.items()]
    scores.sort(key=lambda score: (score.too_few, score.error_percent if score.error_percent is not None else 1e9))
    return Hindcast(tests, tuple(scores), _words(len(tests)))


def _recent(records: Sequence[SetRecord], day: date) -> Sequence[SetRecord]:
    """The records, oldest first, that a formula may look at: so that ten years cost each test no more than one does."""
    first = day - timedelta(days=WINDOW_DAYS)
    return records[bisect_left(records, first, key=_day) : bisect_right(records, day, key=_day)]


def _day(record: SetRecord) -> date:
    return record.day


def _percent(told_kg: float, test: ProvenMax) -> float:
    return 100 * (told_kg / test.kg - 1)


def _score(key: str, each: list[tuple[ProvenMax, float]]) -> Score:
    name = "this estimate" if key == OURS else FORMULAS[key].name
    errors = [error for _, error in each]
    if not errors:
        return Score(key, name, 0, None, None, True)
    bias = sum(errors) / len(errors)
    error = sqrt(sum(one**2 for one in errors) / len(errors))
    return Score(key, name, len(errors), bias, error, len(errors) < ENOUGH, tuple(each))


def _words(tests: int) -> str:
    if tests == 0:
        return "There is no tested max yet after the first day, so nothing could be foretold."
    if tests < ENOUGH:
        number = "One tested max is" if tests == 1 else f"{tests} tested maxes are"
        return f"{number} too few to tell formulas apart; it takes {ENOUGH}."
    return f"Judged on {tests} tested maxes, each foretold from what was known the day before."
