"""Invented members of whom little is known, and the table made of them."""

from __future__ import annotations

from math import log

import numpy as np
import pytest

from tracker.strength.backtest import thin
from tracker.strength.backtest.thin_table import mean, rooted, row, score


@pytest.mark.parametrize("kind", thin.KINDS)
def test_members_are_the_same_from_the_same_seed_and_are_what_they_are_called(kind):
    (one,), (again,) = list(thin.invent(kind, 1, 5)), list(thin.invent(kind, 1, 5))
    assert one == again
    assert one.kind == kind.__name__
    assert min(one.truth) >= min(record.day for record in one.records)
    assert not set(one.elsewhere) & {record.day for record in one.records}


def test_easy_sets_are_light_and_tell_nothing_but_repetitions():
    member = next(thin.invent(thin.easy, 1, 5))
    assert all(record.rir is None and record.kind == "work" and record.reps == 5 for record in member.records)
    day = next(iter(member.truth))
    loads = [record.load_kg / member.truth[day] for record in member.records if record.day == day]
    assert 0.58 < loads[0] < 0.72


def test_a_rep_max_is_where_its_repetitions_just_succeed():
    person = thin.Person(np.random.default_rng(1))
    assert person.part(1) == pytest.approx(1)
    made = [person.most(person.rep_max(0, 5) * 0.999, person.level(0)) for _ in range(400)]
    assert np.mean([most >= 5 for most in made]) == pytest.approx(0.5, abs=0.1)


def test_a_member_is_scored_against_the_truth_of_the_days_asked():
    found = score(next(thin.invent(thin.meets, 1, 5)))
    assert 0 < found.square < log(1.5) ** 2
    assert 0 <= found.held <= 1
    assert found.width > 0


def test_a_figure_has_its_error_between_members():
    assert mean([0.01, 0.03]).value == pytest.approx(2)
    assert mean([0.01, 0.03]).error == pytest.approx(1)  # SD 1.414 over the root of 2, worked by hand
    assert rooted([0.0004, 0.0004]).value == pytest.approx(2)
    assert rooted([0.0004, 0.0004]).error == pytest.approx(0)


def test_a_row_names_its_kind_and_its_members():
    scores = [score(each) for each in thin.invent(thin.meets, 2, 5)]
    assert row("meets", scores).split()[:2] == ["meets", "2"]
