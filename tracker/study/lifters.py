"""Real lifters whose 1RM is known: foretold from their sets to failure by curves and by every published formula.

The file has columns subject, one_rm_kg, load90_kg, load80_kg, load70_kg, sv_reps90 … mv_reps70: loads at 90, 80 and 70 %
and the repetitions to failure in one visit (sv) and in several (mv). Lines that begin with # say where it comes from.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import log
from pathlib import Path

import numpy as np

from tracker.strength.formulas import FORMULAS
from tracker.strength.personal import OwnCurve, foretell, learn, population
from tracker.strength.records import SetRecord
from tracker.study.figures import Figure, root

PERCENTS = ("90", "80", "70")
OWN, COMMON = "personal", "population"  # curves: learnt from the lifter's other visits; of somebody not known
FIRST = date(2024, 1, 1)

Row = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Errors:
    """Logarithmic errors of one lifter's foretold 1RM, by method and number of sets used."""

    subject: str
    by: dict[tuple[str, int], list[float]]


def rows(path: Path) -> list[Row]:
    """Read the file."""
    return list(
        csv.DictReader(line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("#"))
    )


def sets(row: Row, protocol: str, percents: Sequence[str] = PERCENTS) -> list[SetRecord]:
    """Return the sets to failure of one protocol; days between visits are not in the data, three are taken."""
    apart = 0 if protocol == "sv" else 3
    return [
        SetRecord(
            FIRST + timedelta(days=apart * i), float(row[f"load{percent}_kg"]), int(row[f"{protocol}_reps{percent}"]),
            outcome="missed", order=i,
        )
        for i, percent in enumerate(percents)
    ]  # fmt: skip


def errors(path: Path) -> list[Errors]:
    """Foretell each lifter's 1RM from three sets and from each one, by every method."""
    return [Errors(row["subject"], _errors(row)) for row in rows(path)]


def _errors(row: Row) -> dict[tuple[str, int], list[float]]:
    one_rm = float(row["one_rm_kg"])
    found: dict[tuple[str, int], list[float]] = {}
    for here, other in (("sv", "mv"), ("mv", "sv")):
        curves = {COMMON: population(), OWN: learn(sets(row, other), one_rm)}
        for percents in (PERCENTS, *((each,) for each in PERCENTS)):
            some = sets(row, here, percents)
            for name, told in _told(some, curves):
                found.setdefault((name, len(some)), []).append(log(told / one_rm))
    return found


def _told(some: Sequence[SetRecord], curves: Mapping[str, OwnCurve]) -> Iterator[tuple[str, float]]:
    for name, curve in curves.items():
        yield name, foretell(some, curve).one_rm.estimate
    for key, formula in FORMULAS.items():  # out of its range too, as people do
        yield key, float(np.mean([each.load_kg * formula.multiple(each.reps) for each in some]))


def squares(found: Sequence[Errors], method: str, number: int) -> list[float]:
    """Return each lifter's mean square error of a method from so many sets."""
    return [float(np.mean(np.square(each.by[method, number]))) for each in found]


def figure(found: Sequence[Errors], method: str, number: int) -> Figure:
    """Return the error of a method over all lifters, in per cent."""
    return root(squares(found, method, number))


def told_apart(found: Sequence[Errors], number: int) -> tuple[str, bool]:
    """Return the formula with the least error from so many sets, and whether it and the own curve can be told apart.

    They can where the mean difference of squares is more than twice its standard error between lifters.
    """
    best = min(FORMULAS, key=lambda key: float(np.mean(squares(found, key, number))))
    apart = np.array(squares(found, best, number)) - np.array(squares(found, OWN, number))
    error = float(np.std(apart, ddof=1) / np.sqrt(len(apart)))
    return best, abs(float(apart.mean())) > 2 * error
