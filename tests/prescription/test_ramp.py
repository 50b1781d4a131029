"""Ramp sets: loadable, rising, never above the work, left out where pointless; and the way to a first max."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.prescription.changes import disc_changes
from tracker.prescription.first_max import MOST_SETS, RisingSet, next_rising_set
from tracker.prescription.floor import is_from_floor
from tracker.prescription.kit import POUND_KIT, READY_KITS, STANDARD_KIT, BarKit, parse_pairs
from tracker.prescription.plates import load_bar
from tracker.prescription.ramp import MANY, RampStep, ramp_of_body, ramp_of_fixed, ramp_sets
from tracker.units import Mass, parse_mass


@pytest.mark.parametrize(
    ("first", "expected"),
    [
        # By hand, common discs: near 50, 70 and 85 % of the first working load, with discs that are at hand and stay on.
        ("100kg", [(8, "20"), (5, "50"), (3, "70"), (2, "80")]),  # 15 a side, 25, 25 + 5
        ("75kg", [(8, "20"), (5, "40"), (3, "50"), (2, "60")]),  # 10 a side, 15, 20
        ("140kg", [(8, "20"), (5, "70"), (3, "100"), (2, "120")]),  # 25 a side, 25 + 15, 25 + 25
        ("40kg", [(8, "20"), (3, "30"), (2, "35")]),  # 50 % is the bar again
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
        assert each.load.kg <= work.kg * Decimal("0.90")
        assert each.percent == each.load.kg / work.kg * 100


def test_discs_stay_on_on_the_way_up() -> None:
    """To 80 kg: 25 + 5 a side; 70 kg before it is the 25 alone, not 20 + 5 or 15 + 10."""
    made = ramp_sets(parse_mass("100kg"), STANDARD_KIT)
    assert [[str(disc.amount) for disc in each.per_side] for each in made] == [[], ["15"], ["25"], ["25", "5"]]


# The largest discs have 450 mm, and a bar with them lies as high as a pull from the floor begins; rubber ones have it from
# 10 kg (25 lb) up: common practice. The masses below are by hand.
@pytest.mark.parametrize(
    ("first", "kit", "expected"),
    [
        ("140kg", STANDARD_KIT, ["40", "70", "100", "120"]),  # 10 a side; then near 50, 70 and 85 %
        ("100kg", STANDARD_KIT, ["40", "50", "70", "80"]),
        ("60kg", STANDARD_KIT, ["40", "50"]),  # what lies near 70 % is within 10 % of 60 of the first
        ("225lb", POUND_KIT, ["95", "135", "185"]),  # 45 lb with 25 a side, then 45, then 45 + 25
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


KITS = st.builds(
    lambda bar, discs: BarKit(Mass(Decimal(bar), "kg"), parse_pairs(" ".join(discs), "kg")),
    st.sampled_from([15, 20]),
    st.lists(
        st.sampled_from(["25:1", "25", "20:2", "20", "15:1", "15", "10:1", "10:3", "10", "5:1", "5", "2.5:1", "2.5", "1.25:1", "0.5", "0.25"]),
        min_size=1, max_size=7, unique=True,
    ),
)  # fmt: skip


@given(st.integers(15, 260), KITS, st.booleans())
def test_ramps_of_any_kit(load: int, kit: BarKit, floor: bool) -> None:
    """Loadable with the pairs that are there, rising, no fractional disc, no more than four sets, and none for nothing."""
    work = load_bar(Mass(Decimal(load), "kg"), kit).load
    made = ramp_sets(Mass(Decimal(load), "kg"), kit, from_floor=floor)
    assert len(made) <= 4  # a working set is one jump from the bar at least, so no more than three above what is needed
    at_hand = {disc.mass: sum(MANY if each.pairs is None else each.pairs for each in kit.discs if each.mass == disc.mass) for disc in kit.discs}  # fmt: skip
    for each in made:
        assert each.load.kg == kit.empty_kg + 2 * sum(disc.kg for disc in each.per_side)
        assert all(each.per_side.count(disc) <= at_hand[disc] for disc in each.per_side)
        assert all(disc.amount >= Decimal("1.25") for disc in each.per_side)
        assert list(each.per_side) == sorted(each.per_side, key=lambda disc: disc.kg, reverse=True)
        assert work.kg - each.load.kg >= work.kg * Decimal("0.10")
    for one, two in pairwise(made):
        assert two.load.kg - one.load.kg >= work.kg * Decimal("0.10")
        assert one.reps > two.reps
    if made and not floor:
        assert made[0].per_side == ()


@given(st.integers(60, 250), st.sampled_from([STANDARD_KIT, POUND_KIT, READY_KITS[4].kit]))
def test_little_is_carried_on_the_way_up(load: int, kit: BarKit) -> None:
    """Not more discs on and off than by the nearest load for each step, which is what a table would say."""
    made = ramp_sets(Mass(Decimal(load), "kg"), kit)
    table = [load_bar(Mass(Decimal(load) * share / 100, "kg"), kit, "down").per_side for share in (0, 50, 70, 85)]
    ours = [each.per_side for each in made]
    assert sum(disc_changes(one, two) for one, two in pairwise(ours)) <= sum(
        disc_changes(one, two) for one, two in pairwise(table)
    )


def test_a_kit_that_says_which_discs_are_full_is_believed() -> None:
    said = tuple(replace(disc, full=disc.mass.amount >= 5) for disc in STANDARD_KIT.discs)  # light ones of rubber
    made = ramp_sets(parse_mass("60kg"), replace(STANDARD_KIT, discs=said), from_floor=True)
    assert (str(made[0].load), [str(disc.amount) for disc in made[0].per_side]) == ("30 kg", ["5"])
    iron = tuple(replace(disc, full=disc.mass.amount >= 25) for disc in STANDARD_KIT.discs)
    made = ramp_sets(parse_mass("60kg"), replace(STANDARD_KIT, discs=iron), from_floor=True)
    assert all("blocks or plates" in each.note for each in made)


def test_the_ramp_of_a_pull_up_with_a_load_is_the_body_then_half_of_it() -> None:
    made = ramp_of_body(parse_mass("20kg"), parse_mass("80kg"), Decimal("2.5"))
    assert [(each.reps, str(each.load), float(each.percent)) for each in made] == [
        (5, "0 kg", 80.0),
        (3, "10 kg", 90.0),
    ]
    assert [str(each.load) for each in ramp_of_body(parse_mass("2.5kg"), None, Decimal("2.5"))] == ["0 kg"]
    assert ramp_of_body(parse_mass("0kg"), None, Decimal("2.5")) == ()
    assert ramp_of_body(Mass(Decimal(-10), "kg"), None, Decimal("2.5")) == ()


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
