"""The best set for each formula: which sets count, and the reason where none does."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tracker.strength.formulas import FORMULAS, best_values, reps_to_failure
from tracker.strength.records import Kind, Outcome, SetRecord

TODAY = date(2026, 11, 20)


def done(
    load: float, reps: int, rir: float | None = None, *, ago: int = 0, outcome: Outcome = "done", kind: Kind = "work"
) -> SetRecord:
    return SetRecord(TODAY - timedelta(days=ago), load, reps, rir, outcome, kind)


@pytest.mark.parametrize(
    ("record", "expected"),
    [
        (done(80, 5, 0), 5),
        (done(80, 5, 2.5), 7.5),
        (done(80, 5, 4), 9),
        (done(80, 5, 4.5), None),
        (done(80, 5, 6), None),
        (done(80, 5), None),
        (done(80, 4, outcome="missed"), 4),
        (done(80, 4, 3, outcome="missed"), 4),
        (done(80, 0, outcome="missed"), 0),
        (done(80, 5, kind="test"), 5),
        (done(80, 5, 1, kind="test"), 5),
        (done(80, 5, kind="test", outcome="cut"), None),
        (done(80, 5, 1, outcome="cut"), None),
        (done(80, 5, 2, kind="ramp"), None),
    ],
)
def test_repetitions_to_failure(record: SetRecord, expected: float | None) -> None:
    assert reps_to_failure(record) == expected


def test_each_formula_takes_the_best_set_in_its_own_range() -> None:
    sets = [
        done(91, 4, 0),
        done(80, 5, 1),
        done(100, 2, 0, ago=3),
        done(78, 14, 0, ago=5),
        done(60, 18, kind="test", ago=9),
    ]
    best = best_values(sets, TODAY)
    assert list(best) == list(FORMULAS)
    for key, value in best.items():
        by_hand = [
            each.load_kg * formula.multiple(reps)
            for formula in (FORMULAS[key],)
            for each in sets
            if formula.least_reps <= (reps := reps_to_failure(each) or 0) <= formula.most_reps
        ]
        assert value.in_range
        assert value.one_rm_kg == pytest.approx(max(by_hand), rel=1e-12)
        assert value.load_kg is not None
        assert value.reps is not None
        assert value.formula.one_rm(value.load_kg, value.reps).kg == value.one_rm_kg
    assert (best["epley"].load_kg, best["epley"].reps, best["epley"].day) == (100, 2, TODAY - timedelta(days=3))
    assert (best["kemmler"].load_kg, best["kemmler"].reps) == (78, 14)


def test_a_value_says_which_set_it_is_of_as_it_was_done() -> None:
    """Seven repetitions in it were three done with four left, and nobody did seven."""
    three = done(75, 3, 4)
    value = best_values([three, done(50, 3, 4)], TODAY)["epley"]
    assert (value.reps, value.of) == (7, three)


def test_a_set_of_42_days_ago_counts_an_older_or_later_one_does_not() -> None:
    assert best_values([done(90, 3, 0, ago=42)], TODAY)["epley"].one_rm_kg == pytest.approx(99)
    for ago in (43, -1):
        value = best_values([done(90, 3, 0, ago=ago)], TODAY)["epley"]
        assert (value.one_rm_kg, value.in_range, value.reason) == (None, False, "There is no set in the last 42 days.")


def test_a_single_is_its_own_max_for_every_formula() -> None:
    best = best_values([done(105, 1, kind="test"), done(80, 12, 0)], TODAY)
    assert best["brzycki"].one_rm_kg == 105
    assert best["brzycki"].reps == 1


def test_equal_values_take_the_newest_set() -> None:
    best = best_values([done(90, 3, 0, ago=7), done(90, 3, 0, ago=2), done(90, 2, 1, ago=4)], TODAY)
    assert best["epley"].day == TODAY - timedelta(days=2)


def test_without_known_effort_the_reason_says_what_it_takes() -> None:
    value = best_values([done(90, 3), done(90, 3, 5), done(90, 3, 0, outcome="cut")], TODAY)["wathen"]
    assert value.one_rm_kg is None
    assert "near failure" in value.reason


def test_out_of_range_the_reason_says_both_ranges() -> None:
    sets = [done(60, 12, 0), done(55, 15, kind="test")]
    assert (
        best_values(sets, TODAY)["brzycki"].reason
        == "Brzycki holds for 1 to 10 repetitions; recent sets had 12 to 15 in them."
    )
    assert best_values(sets, TODAY)["mayhew"].in_range
    assert (
        best_values([done(90, 2, 0)], TODAY)["kemmler"].reason
        == "Kemmler et al. holds for 3 to 20 repetitions; recent sets had 2 in them."
    )


def test_assisted_and_failed_sets_are_no_load_to_reckon_with() -> None:
    value = best_values([done(-20, 5, 0), done(0, 5, 0), done(120, 0, outcome="missed", kind="test")], TODAY)["epley"]
    assert value.one_rm_kg is None
