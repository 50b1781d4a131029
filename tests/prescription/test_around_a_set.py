"""How far down after a miss, how much lower after weeks away, and which lifts are technique lifts."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.prescription.attempts import Ladder, after_made, after_missed, first_attempt
from tracker.prescription.comeback import comeback
from tracker.prescription.kit import STANDARD_KIT, BarKit, parse_pairs
from tracker.prescription.lighter import next_lighter
from tracker.prescription.plates import loadings_near
from tracker.prescription.technique import most_reps_shown, technique
from tracker.units import Mass

FINE = BarKit(Mass(Decimal(20), "kg"), parse_pairs("20 10 5 2.5 1.25 0.5 0.25", "kg"))


def less(load, kit, chance=lambda _: None):
    found = next_lighter(
        Mass(Decimal(load), "kg"),
        lambda each: loadings_near(each, kit)[0],
        moved_kg=lambda each: float(each.kg),
        chance=chance,
    )
    return None if found is None else str(found)


def test_less_is_the_next_step_that_makes_a_difference() -> None:
    # By hand: 2.5 % of 100 kg are 2.5 kg; of 120 kg 3 kg, which common discs make 5 of.
    assert less(100, STANDARD_KIT) == "97.5 kg"
    assert less(120, STANDARD_KIT) == "115 kg"
    assert less(100, FINE) == "97.5 kg"  # half a kilogram less would be the same set
    assert less(20, STANDARD_KIT) is None  # nothing is lighter than the bar


def test_less_goes_on_to_a_likely_load_but_no_further_than_a_tenth() -> None:
    assert less(100, STANDARD_KIT, lambda load: 0.7 if load.kg <= 95 else 0.4) == "95 kg"
    assert less(100, STANDARD_KIT, lambda load: 0.3) == "97.5 kg"


@given(st.integers(20, 300), st.sampled_from([STANDARD_KIT, FINE]), st.floats(0, 1))
def test_less_is_always_less(load: int, kit: BarKit, chance: float) -> None:
    found = less(load, kit, lambda _: chance)
    assert found is None or float(found.split()[0]) < load


@pytest.mark.parametrize(
    ("days", "sessions", "days_back", "percent"),
    [
        (20, 0, 0, None), (21, 0, 0, 10), (21, 1, 3, 10), (21, 2, 3, None), (41, 0, 0, 10),
        # Six weeks: two steps of two sessions, at least a quarter of the days away each.
        (42, 0, 0, 20), (42, 2, 9, 20), (42, 2, 10, 10), (42, 4, 12, 10), (42, 4, 20, None),
        # Twelve weeks: three steps of two weeks; nine months: four of three weeks, whatever was made in the first days.
        (84, 2, 14, 20), (271, 0, 0, 40), (271, 2, 4, 40), (271, 9, 20, 40), (271, 9, 21, 30), (271, 4, 60, 20),
        (271, 8, 83, 10), (271, 8, 84, None),
    ],
)  # fmt: skip
def test_how_much_lower_loads_start(days: int, sessions: int, days_back: int, percent: int | None) -> None:
    found = comeback(days, sessions, days_back)
    assert (found and found.percent) == percent
    if found:
        assert f"{days} days without an entry" in found.words
        assert "common practice" in found.words


def test_each_step_of_the_way_back_is_said() -> None:
    found = comeback(271, 3, 25)
    assert found is not None
    assert found.steps == (40, 30, 20, 10)
    assert "40, 30, 20, 10 % lower" in found.words
    assert "step 2 of 4" in found.words
    assert "two sessions and 21 days" in found.words


def test_whoever_trained_lighter_meanwhile_starts_as_after_three_weeks() -> None:
    found = comeback(271, 0, 0, lighter=True)
    assert found is not None
    assert (found.percent, found.steps) == (10, (10,))
    assert comeback(271, 2, 3, lighter=True) is None


# From knowledge of the trade: what competitors and their coaches call the quick lifts and their kin.
@pytest.mark.parametrize(
    ("name", "is_one"),
    [
        ("snatch", True), ("Power snatch", True), ("hang power clean", True), ("clean and jerk", True), ("split jerk", True),
        ("push jerk", True), ("cleans", True), ("muscle snatch", True), ("snatch balance", True), ("clean pull + clean", True),
        ("clean pull", False), ("snatch-grip deadlift", False), ("snatch high pull", False), ("deadlift", False),
        ("push press", False), ("front squat", False), ("dumbbell snatch", False), ("kettlebell clean", False), ("thruster", False),
        ("jerky row", False), ("clean grip row", False),
    ],
)  # fmt: skip
def test_technique_lifts(name: str, is_one: bool) -> None:
    assert technique(name) == is_one


def test_a_technique_lift_is_shown_to_its_3rm_unless_more_is_known() -> None:
    assert most_reps_shown("power clean", 1, most=12) == 3
    assert most_reps_shown("power clean", 5, most=12) == 5
    assert most_reps_shown("front squat", 1, most=12) == 12


def ladder(chance, kit=STANDARD_KIT):
    return Ladder(
        lambda load: loadings_near(load, kit)[0], lambda load: loadings_near(load, kit)[1], lambda load: float(load.kg), chance
    )  # fmt: skip


def kg(load):
    return Mass(Decimal(load), "kg")


def test_attempts_by_hand() -> None:
    sure_to_90 = ladder(lambda load: 0.95 if load.kg <= 90 else 0.6 if load.kg <= 100 else 0.3)
    assert str(first_attempt(kg(100), sure_to_90)) == "90 kg"
    assert str(after_made(kg(90), sure_to_90)) == "97.5 kg"  # by no more than a tenth: 99
    assert str(after_made(kg("97.5"), sure_to_90)) == "100 kg"
    assert str(after_made(kg(100), sure_to_90)) == "102.5 kg"  # nothing is likely: the smallest clear step
    assert str(after_missed(kg("102.5"), kg("97.5"), sure_to_90)) == "100 kg"
    assert str(after_missed(kg("102.5"), kg(100), sure_to_90)) == "102.5 kg"
    assert str(after_missed(kg(120), None, sure_to_90)) == "100 kg"


@given(st.integers(20, 300), st.sampled_from([STANDARD_KIT, FINE]), st.floats(0, 1), st.integers(0, 40))
def test_after_a_miss_no_attempt_is_heavier(load: int, kit: BarKit, chance: float, back: int) -> None:
    at = ladder(lambda _: chance, kit)
    best = kg(load - back) if back else None
    assert after_missed(kg(load), best, at).kg <= load
    assert after_made(kg(load), at).kg >= load
    assert first_attempt(kg(load), at).kg <= load
