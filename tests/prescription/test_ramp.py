"""Ramp sets: loadable, rising, never above the work, left out where pointless; and the way to a first max."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.prescription.first_max import MOST_SETS, RisingSet, next_rising_set
from tracker.prescription.floor import is_from_floor
from tracker.prescription.kit import POUND_KIT, READY_KITS, STANDARD_KIT, BarKit, parse_pairs
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


# The largest discs have 450 mm, and a bar with them lies as high as a pull from the floor begins; rubber ones have it from
# 10 kg (25 lb) up: common practice. The masses below are by hand.
@pytest.mark.parametrize(
    ("first", "kit", "expected"),
    [
        ("140kg", STANDARD_KIT, ["40", "70", "97.5", "117.5"]),  # 10 a side; then 50, 70 and 85 %, rounded down
        ("100kg", STANDARD_KIT, ["40", "50", "70", "85"]),
        ("60kg", STANDARD_KIT, ["40", "50"]),  # 50 % and 70 % (42.5, within 8 % of 60 of the first) are left out
        ("225lb", POUND_KIT, ["95", "155", "190"]),  # 45 lb with 25 a side; 110 is within 8 % of 225 of it
    ],
)
def test_a_pull_from_the_floor_begins_with_discs_of_full_diameter(first: str, kit: BarKit, expected: list[str]) -> None:
    made = ramp_sets(parse_mass(first), kit, from_floor=True)
    assert [str(each.load.amount) for each in made] == expected
    least = Decimal(10) if kit.unit == "kg" else Decimal(25)
    assert all(each.per_side[0].amount >= least for each in made)
    assert not any(each.note for each in made)


@pytest.mark.parametrize(
    ("first", "kit"),
    [("42.5kg", STANDARD_KIT), ("60kg", BarKit(Mass(Decimal(20), "kg"), parse_pairs("5:4 2.5:2 1.25:2", "kg")))],
    ids=["too light for them", "none at hand"],
)
def test_where_no_full_disc_fits_the_bar_is_raised(first: str, kit: BarKit) -> None:
    made = ramp_sets(parse_mass(first), kit, from_floor=True)
    assert made
    assert all("blocks or plates" in each.note for each in made if not any(disc.amount >= 10 for disc in each.per_side))
    assert made[0].note


@pytest.mark.parametrize(
    ("name", "floor"),
    [("deadlift", True), ("sumo deadlift", True), ("power clean", True), ("snatch", True), ("clean and jerk", True),
     ("snatch-grip deadlift", True), ("romanian deadlift", False), ("hang power clean", False), ("snatch balance", False),
     ("block pull", False), ("front squat", False), ("Deadlift", True), ("stiff-leg deadlift", False)],
)  # fmt: skip
def test_which_lifts_are_pulled_from_the_floor(name: str, floor: bool) -> None:
    assert is_from_floor(name) == floor


@pytest.mark.parametrize(
    ("kit", "least"), [(READY_KITS[4].kit, Decimal("1.25")), (BarKit(POUND_KIT.bar, parse_pairs("45 25 10 5 2.5 1 0.5", "lb")), Decimal("2.5"))]
)  # fmt: skip
def test_no_ramp_wants_fractional_discs(kit: BarKit, least: Decimal) -> None:
    for load in range(40, 200, 3):
        for made in ramp_sets(Mass(Decimal(load), "kg"), kit):
            assert all(disc.amount >= least for disc in made.per_side), (load, made)


def test_rising_sets_of_a_pull_from_the_floor_begin_with_full_discs_too() -> None:
    first = next_rising_set([], STANDARD_KIT, lower_body=True, from_floor=True)
    assert first.loading is not None
    assert (str(first.loading.load), [str(disc) for disc in first.loading.per_side]) == ("40 kg", ["10 kg"])
    assert "empty bar" not in first.words
    bare = next_rising_set([], BarKit(STANDARD_KIT.bar, ()), lower_body=True, from_floor=True)
    assert bare.loading is not None
    assert "blocks or plates" in (bare.loading.note or "")
    few = BarKit(STANDARD_KIT.bar, parse_pairs("5:2 2.5:2", "kg"))
    second = next_rising_set([RisingSet(STANDARD_KIT.bar, 5, 6)], few, lower_body=True, from_floor=True)
    assert second.loading is not None
    assert "blocks or plates" in (second.loading.note or "")


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
