"""Loads and discs against brute force, and the rules of rounding."""

from __future__ import annotations

import itertools
import random
from decimal import Decimal

import pytest

from tracker.errors import BadInputError
from tracker.prescription.kit import POUND_KIT, STANDARD_KIT, BarKit, DiscPairs, parse_pairs
from tracker.prescription.plates import Rounding, load_bar, loadings_near
from tracker.units import Mass, Unit, parse_mass

FINE = 10**13  # whole numbers of a tenth of a nanogram: every mass and half mass below is whole in it


def fine(mass: Mass) -> int:
    grains = mass.kg.scaleb(13)
    assert grains == int(grains)
    return int(grains)


def all_sides(kit: BarKit, most: int) -> dict[int, int]:
    """Every sum on one side up to the first past `most`, with the fewest discs for it, by trying all combinations."""
    sides = {0: 0}
    for disc in kit.discs:
        mass = fine(disc.mass)
        enough = most // mass + 1
        count = enough if disc.pairs is None else min(disc.pairs, enough)
        grown: dict[int, int] = {}
        for total, discs in sides.items():
            for used in range(count + 1):
                key = total + used * mass
                grown[key] = min(grown.get(key, discs + used), discs + used)
        sides = grown
    return sides


def brute_force(target: Mass, kit: BarKit) -> dict[Rounding, tuple[int, int]]:
    """Load of the whole bar, and how many discs on a side, as a person with endless time would find them."""
    empty = fine(kit.bar) + (fine(kit.collars) if kit.collars else 0)
    wanted = fine(target)
    if wanted <= empty:
        return {"nearest": (empty, 0), "down": (empty, 0)}
    loads = {empty + 2 * side: discs for side, discs in all_sides(kit, (wanted - empty) // 2 + 1).items()}
    nearest = min(loads, key=lambda each: (abs(each - wanted), each))
    down = max(load for load in loads if load <= wanted)
    return {"nearest": (nearest, loads[nearest]), "down": (down, loads[down])}


def random_kit(rng: random.Random) -> BarKit:
    """A kit as gyms and garages have them: common or measured masses, few pairs or as many as needed, units mixed."""
    unit: Unit = rng.choice(("kg", "kg", "lb"))
    discs = []
    for _ in range(rng.randint(0, 6)):
        disc_unit: Unit = rng.choice((unit, unit, unit, "kg", "lb"))
        common = (
            ("25", "20", "15", "10", "5", "2.5", "1.25", "0.5")
            if disc_unit == "kg"
            else ("45", "35", "25", "10", "5", "2.5")
        )
        amount = Decimal(rng.choice(common))
        if rng.random() < 0.3:
            amount += Decimal(rng.randint(-200, 200)) / 1000
        limited = disc_unit != unit or amount < 5 or rng.random() < 0.7
        discs.append(DiscPairs(Mass(amount, disc_unit), rng.randint(0, 3) if limited else None))
    bar = Mass(
        Decimal(rng.choice(("20", "15", "10", "20.13", "9.875")))
        if unit == "kg"
        else Decimal(rng.choice(("45", "35", "44.7"))),
        unit,
    )
    collars = rng.choice((None, Mass(Decimal("5"), "kg"), Mass(Decimal("0.44"), "lb")))
    return BarKit(bar, tuple(discs), collars)


@pytest.mark.parametrize("seed", range(8))
def test_same_load_and_fewest_discs_as_brute_force(seed: int) -> None:
    """4,000 random kits, three targets each, both ways of rounding."""
    rng = random.Random(seed)
    for _ in range(500):
        kit = random_kit(rng)
        for _ in range(3):
            unit: Unit = rng.choice((kit.unit, kit.unit, "kg", "lb"))
            step = rng.choice((Decimal(1), Decimal("0.25"), Decimal("0.001")))
            target = Mass(rng.randint(1, int(180 / step)) * step * (1 if unit == "kg" else 2), unit)
            for rounding, (load, discs) in brute_force(target, kit).items():
                made = load_bar(target, kit, rounding)
                assert made.kg * FINE == load, (kit, target, rounding)
                assert len(made.per_side) == discs, (kit, target, rounding)
                assert_belongs(made.per_side, kit, load)


def assert_belongs(per_side: tuple[Mass, ...], kit: BarKit, load: int) -> None:
    """The discs are at hand, heaviest first, and weigh what is said."""
    assert fine(kit.bar) + (fine(kit.collars) if kit.collars else 0) + 2 * sum(map(fine, per_side)) == load
    assert list(per_side) == sorted(per_side, key=lambda disc: disc.kg, reverse=True)
    for disc in set(per_side):
        pairs = [each.pairs for each in kit.discs if each.mass == disc]
        assert pairs
        assert None in pairs or per_side.count(disc) <= sum(each or 0 for each in pairs)


def test_next_loads_are_the_neighbours_of_all_that_can_be_made() -> None:
    rng = random.Random(77)
    for _ in range(300):
        kit = random_kit(rng)
        if any(disc.mass.unit != kit.unit for disc in kit.discs) or (kit.collars and kit.collars.unit != kit.unit):
            continue  # kilogram discs on a pound bar have a test of their own
        here = Mass(Decimal(rng.randint(1, 600)) / 4, kit.unit)
        sides = all_sides(kit, fine(Mass(Decimal(400), kit.unit)))
        loads = sorted(fine(kit.bar) + (fine(kit.collars) if kit.collars else 0) + 2 * side for side in sides)
        lower, higher = loadings_near(here, kit)
        below = [load for load in loads if load < fine(here)]
        above = [load for load in loads if load > fine(here)]
        assert (None if lower is None else fine(lower)) == (below[-1] if below else None)
        assert (None if higher is None else fine(higher)) == (above[0] if above else None)


def test_plus_and_minus_walk_through_every_load_once_with_units_mixed() -> None:
    kit = BarKit(Mass(Decimal(45), "lb"), parse_pairs("45:1 10:1 20kg:1 2.5kg:2 1.25kg:1", "lb"))
    walked = [kit.bar]
    while (higher := loadings_near(walked[-1], kit)[1]) is not None:
        walked.append(higher)
    assert len(walked) == len(all_sides(kit, fine(Mass(Decimal(500), "kg"))))
    back = [walked[-1]]
    while (lower := loadings_near(back[-1], kit)[0]) is not None:
        back.append(lower)
    assert back[::-1] == walked


@pytest.mark.parametrize(
    ("target", "pairs", "rounding", "load", "per_side"),
    [
        # Computed: 62.5 and 87.5 kg maxes at 72.5, 85 and 65 %, a 2.5 kg step.
        ("45.3125kg", "25 20 15 10 5 2.5 1.25", "nearest", "45", "10 2.5"),
        ("53.125kg", "25 20 15 10 5 2.5 1.25", "nearest", "52.5", "15 1.25"),
        ("56.875kg", "25 20 15 10 5 2.5 1.25", "nearest", "57.5", "15 2.5 1.25"),
        ("56.875kg", "25 20 15 10 5 2.5 1.25", "down", "55", "15 2.5"),
        ("74.375kg", "25 20 15 10 5 2.5 1.25", "nearest", "75", "25 2.5"),
        ("74.375kg", "25 20 15 10 5 2.5 1.25", "down", "72.5", "25 1.25"),
        ("99.6875kg", "25 20 15 10 5 2.5 1.25", "nearest", "100", "25 15"),
        ("99.6875kg", "25 20 15 10 5 2.5 1.25", "down", "97.5", "25 10 2.5 1.25"),
        # Exactly half-way goes down.
        ("61.25kg", "25 20 15 10 5 2.5 1.25", "nearest", "60", "20"),
        ("61.251kg", "25 20 15 10 5 2.5 1.25", "nearest", "62.5", "20 1.25"),
        # The fewest discs are not always the heaviest first: 30 a side is 2 x 15 where there is no 5.
        ("80kg", "25:1 15:2 2.5:2", "nearest", "80", "15 15"),
        ("80kg", "20:1 15:2 5:2", "nearest", "80", "15 15"),
    ],
)
def test_worked_loads_on_a_20_kg_bar(target: str, pairs: str, rounding: Rounding, load: str, per_side: str) -> None:
    made = load_bar(parse_mass(target), BarKit(Mass(Decimal(20), "kg"), parse_pairs(pairs, "kg")), rounding)
    assert made.load == Mass(Decimal(load), "kg")
    assert made.per_side == tuple(Mass(Decimal(disc), "kg") for disc in per_side.split())
    assert made.note is None


def test_below_the_empty_bar_is_the_empty_bar_with_a_note() -> None:
    for rounding in ("nearest", "down"):
        made = load_bar(parse_mass("12.4kg"), STANDARD_KIT, rounding)
        assert (made.load, made.per_side) == (Mass(Decimal(20), "kg"), ())
        assert made.note == "12.4 kg is below the empty bar of 20 kg."


def test_past_all_discs_it_is_all_discs_with_a_note() -> None:
    kit = BarKit(Mass(Decimal(20), "kg"), parse_pairs("20:1 10:1", "kg"))
    made = load_bar(parse_mass("81kg"), kit)
    assert made.load == Mass(Decimal(80), "kg")
    assert made.note == "Too few discs for 81 kg: the closest is 80 kg."


def test_too_few_discs_and_rounding_down_does_not_call_the_lower_load_the_closest() -> None:
    kit = BarKit(parse_mass("20kg"), parse_pairs("20:1 5:1", "kg"))  # 20, 30, 60, 70 kg
    down = load_bar(parse_mass("59kg"), kit, "down")
    assert (str(down.load), down.note) == ("30 kg", "Too few discs for 59 kg: the closest below it is 30 kg.")
    near = load_bar(parse_mass("46kg"), kit)
    assert (str(near.load), near.note) == ("60 kg", "Too few discs for 46 kg: the closest is 60 kg.")


def test_a_target_in_a_note_has_no_more_figures_than_are_of_use() -> None:
    kit = BarKit(parse_mass("20kg"), parse_pairs("2.5:1", "kg"))
    assert load_bar(parse_mass("36.905kg"), kit).note == "Too few discs for 36.9 kg: the closest is 25 kg."
    assert load_bar(parse_mass("61.25kg"), kit).note == "Too few discs for 61.25 kg: the closest is 25 kg."
    assert load_bar(parse_mass("19.98kg"), kit).note == "19.98 kg is below the empty bar of 20 kg."


def test_a_gap_between_few_discs_gets_a_note_and_ordinary_rounding_none() -> None:
    kit = BarKit(Mass(Decimal(20), "kg"), parse_pairs("20:2 1.25:1", "kg"))
    assert load_bar(parse_mass("75kg"), kit).note == "Too few discs for 75 kg: the closest is 62.5 kg."
    assert load_bar(parse_mass("61kg"), kit).note is None
    assert load_bar(parse_mass("63.7kg"), kit).note is None, "within a smallest disc: ordinary rounding"


def test_no_discs_at_all() -> None:
    made = load_bar(parse_mass("60kg"), BarKit(Mass(Decimal(20), "kg"), parse_pairs("20:0", "kg")))
    assert made.note == "No discs for 60 kg: the bar alone is 20 kg."


def test_another_unit_is_said_in_both() -> None:
    kit = BarKit(Mass(Decimal(45), "lb"), parse_pairs("45:1", "lb"))
    assert (
        load_bar(parse_mass("80kg"), kit).note == "Too few discs for 80 kg: the closest is 135 lb, which is 61.235 kg."
    )


def test_a_pound_bar_with_kilogram_discs_is_exact() -> None:
    """45 lb is 20.41165665 kg exactly (NIST SP 811); with 20 kg discs the bar is 60.41165665 kg."""
    made = load_bar(parse_mass("60kg"), BarKit(Mass(Decimal(45), "lb"), parse_pairs("20 2.5 1.25", "kg")))
    assert made.kg == Mass(Decimal("60.41165665"), "kg").kg
    assert made.load.unit == "lb"
    assert abs(made.load.kg - Decimal("60.41165665")) < Decimal("1e-6")


def test_pound_kit() -> None:
    """135 lb is 61.23496995 kg: a 45 lb bar and a pair of 45s."""
    made = load_bar(parse_mass("135lb"), POUND_KIT)
    assert made.per_side == (Mass(Decimal(45), "lb"),)
    assert made.kg == Mass(Decimal(135), "lb").kg


@pytest.mark.parametrize(
    "target", [Mass(Decimal(1001), "kg"), Mass(Decimal("NaN"), "kg"), Mass(Decimal("Infinity"), "kg")]
)
def test_a_target_that_cannot_be_is_refused(target: Mass) -> None:
    with pytest.raises(BadInputError, match=r"can't be loaded|more than anyone"):
        load_bar(target, STANDARD_KIT)


def test_an_unknown_rounding_is_refused() -> None:
    with pytest.raises(BadInputError, match="no way to round"):
        load_bar(parse_mass("60kg"), STANDARD_KIT, "up")  # type: ignore[arg-type]


def test_every_load_of_a_common_bar_can_be_made_exactly() -> None:
    for steps, rounding in itertools.product(range(120), ("nearest", "down")):
        target = Mass(20 + steps * Decimal("2.5"), "kg")
        made = load_bar(target, STANDARD_KIT, rounding)
        assert (made.load, made.note) == (target, None)


def test_loads_are_written_without_exponent() -> None:
    assert str(load_bar(parse_mass("70kg"), STANDARD_KIT).load.amount) == "70"
    assert str(load_bar(parse_mass("67.5kg"), STANDARD_KIT).load.amount) == "67.5"
