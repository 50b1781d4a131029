"""Other implements: own estimate, the sheet's rule, the coach's other way; never a converted barbell max."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.prescription.substitution import doubled, repetitions_to_failure, substitute
from tracker.units import Mass, parse_mass

CURVE = {n: 30 / (1 + 0.03 * (n - 1)) for n in range(1, 13)}  # an invented member's dumbbell, each hand, kg


def at(*amounts: str) -> tuple[Mass, ...]:
    return tuple(parse_mass(f"{amount}kg") for amount in amounts)


@pytest.mark.parametrize(("reps", "expected"), [(1, 2), (5, 10), (8, 16), (10, 20), (12, 20), (20, 20), (25, 25)])
def test_doubling_ends_near_20(reps: int, expected: int) -> None:
    """Common practice."""
    assert doubled(reps) == expected


@given(st.integers(1, 12))
def test_a_rep_max_allows_its_own_repetitions(n: int) -> None:
    assert repetitions_to_failure(CURVE[n], CURVE) == pytest.approx(n)


@given(st.floats(5, 40), st.floats(1.01, 2))
def test_a_lighter_load_allows_more(load: float, factor: float) -> None:
    assert repetitions_to_failure(load, CURVE) > repetitions_to_failure(load * factor, CURVE)


def test_past_the_last_rep_max_the_curve_goes_on() -> None:
    assert repetitions_to_failure(30 / (1 + 0.03 * 17), CURVE) == pytest.approx(18)


@pytest.mark.parametrize("known", [{}, {1: 30.0}, {2: 28.0, 3: 27.0}])
def test_too_little_known(known: dict[int, float]) -> None:
    with pytest.raises(BadInputError, match="one more rep-max"):
        repetitions_to_failure(20, known)


def test_two_pairs_of_dumbbells_by_hand() -> None:
    """Own 1RM 30 kg in each hand, 0.03 a repetition. Asked 5 at 25 kg: 30/25 = 1.2, so 7.67 to failure, 2.67 in reserve.

    At hand 12.5 and 17.5 kg. 17.5: 30/17.5 = 1.714, so 24.8 to failure, less 2.67 is 22: past 20, so stop at 20.
    At hand 20 kg too: 30/20 = 1.5, 17.67 to failure (past the 12RM), less 2.67 is 15 repetitions.
    """
    asked = parse_mass("25kg")
    light = substitute(5, at("12.5", "17.5"), target=asked, rep_max=CURVE)
    assert (light.load, light.reps, light.how) == (parse_mass("17.5kg"), 20, "own estimate")
    assert "stop at 20" in light.words
    fifteen = substitute(5, at("12.5", "17.5", "20"), target=asked, rep_max=CURVE)
    assert (fifteen.load, fifteen.reps) == (parse_mass("20kg"), 15)


def test_close_enough_keeps_the_repetitions() -> None:
    made = substitute(8, at("15", "20", "25"), target=Mass(Decimal("24.5"), "kg"), rep_max=CURVE)
    assert (made.load, made.reps, made.how) == (parse_mass("25kg"), 8, "own estimate")


def test_heavier_than_asked_means_fewer() -> None:
    made = substitute(8, at("25"), target=parse_mass("22kg"), rep_max=CURVE)
    assert made.load == parse_mass("25kg")
    assert made.reps is not None
    assert 1 <= made.reps < 8


def test_a_share_of_a_max_is_said_no_finer_than_maxes_are_known() -> None:
    target = Mass(Decimal("18.63"), "kg")
    found = substitute(10, [Mass(Decimal(20), "kg")], target=target, rep_max={1: 30.0, 8: 24.0}, double=False)
    assert "with 18.5 kg: about as much in reserve" in found.words


def test_all_too_heavy_gives_the_coachs_other_way() -> None:
    made = substitute(8, at("40"), target=parse_mass("20kg"), rep_max=CURVE, alternative="goblet squat, 3 sets of 12")
    assert (made.load, made.reps, made.how) == (None, None, "coach's alternative")
    assert "goblet squat" in made.words


def test_without_an_estimate_the_sheets_rule_and_no_load() -> None:
    made = substitute(5, at("15", "20"))
    assert (made.load, made.reps, made.how) == (None, 10, "sheet's rule")
    assert "common practice" in made.words
    assert substitute(5, at("15"), double=False).reps == 5


def test_no_kit_says_so() -> None:
    assert "nothing here" in substitute(5, ()).words
    assert "Ask your coach" in substitute(5, ()).words
    assert "step-up" in substitute(5, (), alternative="step-up").words
