"""Real people: seven lifters of B. Mitter's open bench press data. Seven is few: a lifter more or less moves a figure.

From one protocol's sets to failure the tested 1RM is foretold, with the population's curve and with the personal one
learnt in the other protocol, where the 1RM was known. Every published formula is applied to the same sets.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tracker.errors import BadInputError
from tracker.strength.formulas import FORMULAS
from tracker.strength.personal import foretell, learn, population
from tracker.study import lifters

FILE = Path(__file__).parents[1] / "references" / "bench_reps_to_failure.csv"


def rmse(errors: list[float]) -> float:
    return 100 * float(np.sqrt(np.mean(np.square(errors))))


@pytest.fixture(scope="module")
def errors() -> dict[tuple[str, int], list[float]]:
    """Logarithmic errors of the foretold 1RM by method and number of sets."""
    found: dict[tuple[str, int], list[float]] = {}
    for person in lifters.errors(FILE):
        for key, some in person.by.items():
            found.setdefault(key, []).extend(some)
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
    many = [row for row in lifters.rows(FILE) if int(row["mv_reps80"]) >= 12]
    few = [row for row in lifters.rows(FILE) if int(row["mv_reps80"]) <= 9]
    assert many
    assert few
    middle = population().at_80_percent
    for row in many:
        own = learn(lifters.sets(row, "mv"), float(row["one_rm_kg"])).at_80_percent
        assert middle < own < int(row["mv_reps80"]) + 1
    for row in few:
        own = learn(lifters.sets(row, "mv"), float(row["one_rm_kg"])).at_80_percent
        assert int(row["mv_reps80"]) < own < middle + 1


def test_a_1rm_of_nothing_is_refused():
    with pytest.raises(BadInputError, match="1RM of 0"):
        learn(lifters.sets(lifters.rows(FILE)[0], "mv"), 0)
    with pytest.raises(BadInputError, match="no set"):
        foretell([], population())
