"""Ramp sets: loadable, rising, never above the work, left out where pointless; and the way to a first max."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.prescription.first_max import MOST_SETS, RisingSet, next_rising_set
from tracker.prescription.kit import POUND_KIT, STANDARD_KIT, BarKit, parse_pairs
from tracker.prescription.plates import load_bar
from tracker.prescription.ramp import RampStep, ramp_of_fixed, ramp_sets
from tracker.units import Mass, parse_mass


@pytest.mark.parametrize(
    ("first", "expected"),
    [
        # By hand, 20 kg bar, steps of 2.5 kg: the bar, 50, 70 and 85 % of the first working load, rounded down.
        ("100kg", [(8, "20"), (5, "50"), (3, "70"), (2, "85")]),
        ("75kg", [(8, "20"), (5, "37.5"), (3, "52.5"), (2, "62.5")]),
        ("40kg", [(8, "20"), (3, "27.5"), (2, "32.5")]),  # 50 % is the bar again
        ("22.5kg", [(8, "20")]),
        ("20kg", []),
        ("15kg", []),
    ],
)
def test_ramps_by_hand(first: str, expected: list[tuple[int, str]]) -> None:
    made = ramp_sets(parse_mass(first), STANDARD_KIT)
    assert [(each.reps, str(each.load.amount)) for each in made] == expected


@given(
    st.integers(20, 300),
    st.sampled_from([STANDARD_KIT, POUND_KIT, BarKit(Mass(Decimal(15), "kg"), parse_pairs("20:2 5:1", "kg"))]),
)
def test_ramps_rise_can_be_loaded_and_stay_below_the_work(load: int, kit: BarKit) -> None:
    first = Mass(Decimal(load), "kg")
    work = load_bar(first, kit).load
    made = ramp_sets(first, kit)
    assert all(one.load.kg < two.load.kg and one.reps > two.reps for one, two in pairwise(made))
    for each in made:
        assert load_bar(each.load, kit).load == each.load
        assert each.load.kg <= work.kg * Decimal("0.92")
        assert each.percent == each.load.kg / work.kg * 100


def test_discs_stay_on_on_the_way_up() -> None:
    """To 85 kg: 25 + 5 + 2.5 a side; 70 kg before it is the 25 alone, not 20 + 5 or 15 + 10."""
    assert [str(disc.amount) for disc in ramp_sets(parse_mass("100kg"), STANDARD_KIT)[2].per_side] == ["25"]


def test_own_steps() -> None:
    steps = (RampStep(Decimal(40), 6), RampStep(Decimal(60), 4))
    assert [(each.reps, str(each.load)) for each in ramp_sets(parse_mass("100kg"), STANDARD_KIT, steps)] == [
        (6, "40 kg"),
        (4, "60 kg"),
    ]
    for percent, reps in ((100, 3), (-1, 3), (50, 0)):
        with pytest.raises(BadInputError, match="ramp"):
            RampStep(Decimal(percent), reps)


def test_a_ramp_of_fixed_dumbbells() -> None:
    masses = [parse_mass(f"{kg}kg") for kg in (10, 15, 20)]
    assert [(each.reps, str(each.load)) for each in ramp_of_fixed(masses[2], masses)] == [(5, "10 kg"), (2, "15 kg")]
    assert ramp_of_fixed(masses[0], masses[:1]) == ()


def test_a_first_max_by_hand() -> None:
    """Squat: bar; six or more left, 20 % up: 24 -> 22.5 kg; ... ; with three left it ends."""
    done: list[RisingSet] = []
    loads = []
    for rir in (6, 6, 6, 5, 4, 3):
        advice = next_rising_set(done, STANDARD_KIT, lower_body=True)
        assert advice.loading is not None
        loads.append(str(advice.loading.load.amount))
        done.append(RisingSet(advice.loading.load, 5, rir))
    assert loads == ["20", "22.5", "25", "30", "32.5", "35"]
    end = next_rising_set(done, STANDARD_KIT, lower_body=True)
    assert end.stop
    assert "enough" in end.words


def test_a_first_max_ends_with_a_miss_too_many_sets_or_no_more_discs() -> None:
    bar = Mass(Decimal(20), "kg")
    assert next_rising_set([RisingSet(bar, 3, 0, missed=True)], STANDARD_KIT, lower_body=False).stop
    assert next_rising_set([RisingSet(bar, 5, 6)] * MOST_SETS, STANDARD_KIT, lower_body=False).stop
    assert "no heavier" in next_rising_set([RisingSet(bar, 5, 6)], BarKit(bar, ()), lower_body=False).words
