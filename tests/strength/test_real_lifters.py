"""Real people: seven lifters of B. Mitter's open bench press data. Seven is few: a lifter more or less moves a figure.

From one protocol's sets to failure the tested 1RM is foretold, with the population's curve and with the personal one
learnt in the other protocol, where the 1RM was known. Every published formula is applied to the same sets.
"""

from __future__ import annotations

import csv
from datetime import date, timedelta
from pathlib import Path

import numpy as np
import pytest

from tracker.errors import BadInputError
from tracker.strength.formulas import FORMULAS
from tracker.strength.personal import foretell, learn, population
from tracker.strength.records import SetRecord

FILE = Path(__file__).parents[1] / "references" / "bench_reps_to_failure.csv"
ALL = ("90", "80", "70")


def rows() -> list[dict[str, str]]:
    return list(csv.DictReader(line for line in FILE.read_text().splitlines() if not line.startswith("#")))


def sets(row: dict[str, str], protocol: str, percents: tuple[str, ...] = ALL) -> list[SetRecord]:
    apart = 0 if protocol == "sv" else 3  # days between visits are not in the data
    return [
        SetRecord(
            date(2024, 1, 1) + timedelta(days=apart * i),
            float(row[f"load{percent}_kg"]),
            int(row[f"{protocol}_reps{percent}"]),
            outcome="missed",
            order=i,
        )
        for i, percent in enumerate(percents)
    ]


def rmse(errors: list[float]) -> float:
    return 100 * float(np.sqrt(np.mean(np.square(errors))))


@pytest.fixture(scope="module")
def errors() -> dict[tuple[str, int], list[float]]:
    """Logarithmic errors of the foretold 1RM by method and number of sets."""
    found: dict[tuple[str, int], list[float]] = {}
    for row in rows():
        one_rm = float(row["one_rm_kg"])
        for here, other in (("sv", "mv"), ("mv", "sv")):
            curves = {"population": population(), "personal": learn(sets(row, other), one_rm)}
            for percents in (ALL, *((each,) for each in ALL)):
                some = sets(row, here, percents)
                for name, curve in curves.items():
                    told = foretell(some, curve).one_rm.estimate
                    found.setdefault((name, len(some)), []).append(np.log(told / one_rm))
                for key, formula in FORMULAS.items():  # out of its range too, as people do
                    told = np.mean([each.load_kg * formula.multiple(each.reps) for each in some])
                    found.setdefault((key, len(some)), []).append(np.log(told / one_rm))
    return found


def test_three_sets_with_the_personal_curve_foretell_the_1rm_within_three_per_cent(errors):
    assert rmse(errors["personal", 3]) <= 3.0


def test_one_set_with_the_personal_curve_is_no_worse_than_any_formula(errors):
    best = min(rmse(errors[key, 1]) for key in FORMULAS)
    assert rmse(errors["personal", 1]) <= best


def test_the_population_curve_is_worse_than_the_personal_one(errors):
    for number in (1, 3):
        assert rmse(errors["personal", number]) < rmse(errors["population", number]) < 5.5


def test_a_learnt_curve_lies_between_the_data_and_the_population():
    many = [row for row in rows() if int(row["mv_reps80"]) >= 12]
    few = [row for row in rows() if int(row["mv_reps80"]) <= 9]
    assert many
    assert few
    middle = population().at_80_percent
    for row in many:
        own = learn(sets(row, "mv"), float(row["one_rm_kg"])).at_80_percent
        assert middle < own < int(row["mv_reps80"]) + 1
    for row in few:
        own = learn(sets(row, "mv"), float(row["one_rm_kg"])).at_80_percent
        assert int(row["mv_reps80"]) < own < middle + 1


def test_a_1rm_of_nothing_is_refused():
    with pytest.raises(BadInputError, match="1RM of 0"):
        learn(sets(rows()[0], "mv"), 0)
    with pytest.raises(BadInputError, match="no set"):
        foretell([], population())
