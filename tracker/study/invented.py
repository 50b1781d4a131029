"""Invented members: error and coverage by kind, and the same records given to every published formula."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import TypeVar

import numpy as np

from tracker.strength.backtest import athletes, report, thin
from tracker.strength.backtest.thin_table import MemberScore, score_of
from tracker.strength.estimator import LiftModel
from tracker.strength.formulas import FORMULAS, best_values

KIND_WORDS = {
    "easy": "easy sets (62 to 68 % of the 5RM), nothing reported, no test",
    "tiring": "each set tires by 1.2 to 3 %, the last one to failure",
    "drifting": "what is reported as left in reserve drifts over half a year",
    "rested": "the lift rests 8 to 14 weeks while another is trained; the first month back",
    "tens": "trains and tests fives, the 10RM is asked",
    "meets": "meets alone, the next one after 30 to 60 weeks",
    "slips": "now and then a late repetition slips; tests every eight weeks",
}


@dataclass(frozen=True, slots=True)
class Foretold:
    """A set that was planned: the chance given the day before, and whether its repetitions were all made."""

    chance: float
    made: bool


@dataclass(frozen=True, slots=True)
class MemberResult:
    """What was found of one invented member."""

    kind: str
    score: MemberScore
    sets: tuple[Foretold, ...]
    formulas: dict[str, float]  # mean square error (logarithms) over the days with a value; nan where there is none


def result(member: thin.ThinMember) -> MemberResult:
    """Score one member: the estimate, each formula, and the chances of the sets that were planned."""
    model = LiftModel.of(member.records, elsewhere=member.elsewhere)
    return MemberResult(member.kind, score_of(model, member), tuple(_foretold(model, member)), _by_formula(member))


PLANNED_REPS = 5  # of every work set of the kinds below
PLANNED_KINDS = ("drifting", "rested", "tens", "slips")  # no set of theirs is open at its end


def _foretold(model: LiftModel, member: thin.ThinMember) -> Iterator[Foretold]:
    """Give the chance of each work set on the day before, in the days that are scored."""
    if member.kind not in PLANNED_KINDS:
        return
    for record in member.records:
        if record.day in member.truth and record.kind == "work":
            before = record.day - timedelta(days=1)
            chance = model.chance(record.load_kg, PLANNED_REPS, day=before, sets_before=record.order)
            yield Foretold(chance, record.outcome == "done")


def _by_formula(member: thin.ThinMember) -> dict[str, float]:
    """Return each formula's mean square error: its best value of six weeks, as a load for the repetitions asked."""
    found: dict[str, list[float]] = {key: [] for key in FORMULAS}
    for day, truth in member.truth.items():
        asked = day - timedelta(days=1) if member.ahead else day
        for key, value in best_values([each for each in member.records if each.day <= asked], asked).items():
            load = FORMULAS[key].rep_max(value.one_rm_kg, member.reps).kg if value.one_rm_kg else None
            if load:
                found[key].append(float(np.log(load / truth) ** 2))
    return {key: float(np.mean(some)) if some else float("nan") for key, some in found.items()}


@dataclass(frozen=True, slots=True)
class LiftResult:
    """What was found of one lift of an invented athlete who tests: mean squares by yardstick, and share of days held."""

    member: int
    kind: str
    squares: dict[str, float]
    bias: float
    held: float
    width: float


def former(numbers: Iterable[int], seed: int) -> list[LiftResult]:
    """Invent athletes of the kinds that test every 6 to 12 weeks, those with these numbers, and score them beside the yardsticks."""
    scores = map(report.score, athletes.numbered(numbers, seed))
    return [_of(each) for each in scores if each.held]


def _of(score: report.Score) -> LiftResult:
    squares = {key: float(np.mean(np.square(errors))) for key, errors in score.errors.items() if errors}
    return LiftResult(
        score.lift.member, score.lift.kind.name, squares, float(np.mean(score.errors["estimate"])),
        float(np.mean(score.held)), float(np.mean(score.width)),
    )  # fmt: skip


Each = TypeVar("Each", MemberResult, LiftResult)


def by_kind(some: Sequence[Each]) -> dict[str, list[Each]]:
    """Sort results by kind, in the order in which the kinds came."""
    found: dict[str, list[Each]] = {}
    for each in some:
        found.setdefault(each.kind, []).append(each)
    return found
