"""Real competitors: meets foretold from meets, and lifts that move together. Only odd numbers: the even half is kept back."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from tracker.strength.backtest.competitors import LIFTS, Competitor, competitors, scores, surprise

FILE = Path(__file__).parents[1] / "references" / "competition_lifters.csv"


def test_a_half_has_every_second_person_with_three_meets_or_more():
    odd, even, everybody = (list(competitors(FILE, half)) for half in ("odd", "even", "all"))
    assert len(odd) + len(even) == len(everybody)
    assert all(person.number % 2 for person in odd)
    assert min(len(person.best) for person in everybody) >= 3


def test_the_next_meet_is_asked_before_it_and_from_meets_alone():
    member = Competitor(1, {0: (100.0, 60.0, 140.0), 300: (105.0, 60.0, 150.0)}).member(0)
    assert [record.load_kg for record in member.records] == [100, 105]
    assert all(record.kind == "test" and record.reps == 1 for record in member.records)
    assert list(member.truth.values()) == [105]
    assert member.ahead


def test_the_next_meet_is_foretold_no_worse_than_by_the_last_one_and_the_band_holds():
    people = [person for person in competitors(FILE, "odd") if person.number < 80]
    found = [each for lift in range(len(LIFTS)) for each in scores(people, lift)]
    error, carried = (np.mean([getattr(each, name) for each in found]) for name in ("square", "carried_square"))
    assert error < 1.02 * carried
    assert 0.72 < np.mean([each.held for each in found]) < 0.9


def test_what_the_other_lifts_tell_is_measured_on_other_people():
    dice = np.random.default_rng(4)

    def person(number: int, together: float) -> Competitor:
        steps = 0.05 * dice.normal(size=(4, 1)) * together + 0.05 * dice.normal(size=(4, 3)) * (1 - together)
        best = 100 * np.exp(np.cumsum(steps, axis=0))
        return Competitor(number, {300 * meet: tuple(row) for meet, row in enumerate(best.tolist())})

    for together, low, high in ((0.0, 0.95, 1.05), (0.9, 0.0, 0.3)):
        fit_on, told = ([person(number, together) for number in range(60)] for _ in range(2))
        alone, given, error = surprise(fit_on, told, 0)
        assert low < given / alone < high
        assert error > 0


def test_changes_go_from_meet_to_meet_in_the_order_of_days():
    person = Competitor(1, {300: (110.0, 60.0, 140.0), 0: (100.0, 60.0, 140.0)})
    assert person.changes() == pytest.approx(np.array([[np.log(1.1), 0, 0]]))
