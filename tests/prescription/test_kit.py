"""Kits: ready ones against their rule books, and discs as people type them."""

from __future__ import annotations

import csv
from decimal import Decimal
from pathlib import Path

import pytest

from tracker.errors import BadInputError
from tracker.prescription.kit import READY_KITS, BarKit, DiscPairs, parse_pairs
from tracker.prescription.plates import load_bar
from tracker.units import KG_PER_LB, Mass, Unit

TABLE = Path(__file__).parent.parent / "references" / "discs_and_pound.csv"
ROWS = {
    row["what"]: row
    for row in csv.DictReader(line for line in TABLE.read_text().splitlines() if not line.startswith("#"))
}
READY = {ready.name: ready for ready in READY_KITS}


def masses(what: str) -> tuple[Decimal, ...]:
    return tuple(Decimal(each) for each in ROWS[what]["masses"].split())


def test_the_pound_is_exact() -> None:
    """NIST SP 811: 1 lb = 0.45359237 kg exactly; 135 lb = 61.23496995 kg (computed)."""
    assert masses("pound in kg") == (KG_PER_LB,)
    assert Mass(Decimal(135), "lb").kg == Decimal("61.23496995")


@pytest.mark.parametrize(
    ("name", "bar", "collars", "discs"),
    [
        ("weightlifting, men's bar with collars", "IWF men's bar", "IWF collars (the pair)", "IWF discs"),
        ("weightlifting, women's bar with collars", "IWF women's bar", "IWF collars (the pair)", "IWF discs"),
    ],
)
def test_weightlifting_kits_are_the_rule_books(name: str, bar: str, collars: str, discs: str) -> None:
    """IWF masses, read in texts that cite the rule book: with collars the bar is 25 kg for men and 20 kg for women."""
    ready = READY[name]
    assert ready.status == "read in a text that cites it"
    assert (ready.kit.bar.amount,) == masses(bar)
    assert ready.kit.collars is not None
    assert (ready.kit.collars.amount,) == masses(collars)
    assert tuple(disc.mass.amount for disc in ready.kit.discs) == masses(discs)
    assert ready.kit.empty_kg == masses(bar)[0] + 5


def test_the_powerlifting_kit_is_the_rule_books() -> None:
    """IPF masses, read in texts that cite the rules: bar and collars 25 kg; attempts in 2.5 kg steps can all be loaded."""
    kit = READY["powerlifting, bar with collars"].kit
    assert kit.empty_kg == masses("IPF bar with collars")[0]
    assert tuple(disc.mass.amount for disc in kit.discs) == masses("IPF discs")
    for steps in range(150):
        target = Mass(25 + steps * Decimal("2.5"), "kg")
        assert load_bar(target, kit).load == target


def test_every_whole_kilogram_can_be_loaded_by_weightlifting_rules() -> None:
    """The bar rises by 1 kg (IWF, read in a text that cites it)."""
    kit = READY["weightlifting, men's bar with collars"].kit
    for kg in range(25, 300):
        assert load_bar(Mass(Decimal(kg), "kg"), kit).load.amount == kg


def test_common_pound_kits() -> None:
    """Common practice: 45 and 35 lb bars, discs of 45 to 2.5 lb."""
    bars = [ready.kit.bar.amount for ready in READY_KITS if ready.kit.unit == "lb"]
    assert tuple(bars) == masses("common pound bars")
    for ready in READY_KITS:
        if ready.kit.unit == "lb":
            assert tuple(disc.mass.amount for disc in ready.kit.discs) == masses("common pound discs")
            assert ready.status == "common practice"


def test_no_ready_kit_is_called_published() -> None:
    assert all(ready.status != "published" for ready in READY_KITS)
    assert all(bool(ready.source) == (ready.status != "common practice") for ready in READY_KITS)


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("25:1 20:2 1.25", "kg", [("25", "kg", 1), ("20", "kg", 2), ("1.25", "kg", None)]),
        ("25:1, 20:2, 1,25", "kg", [("25", "kg", 1), ("20", "kg", 2), ("1.25", "kg", None)]),
        ("45lb:2 20kg:1 2.5", "lb", [("45", "lb", 2), ("20", "kg", 1), ("2.5", "lb", None)]),
        ("24.93:1 25.08:1", "kg", [("24.93", "kg", 1), ("25.08", "kg", 1)]),
        ("", "kg", []),
        ("20:0", "kg", [("20", "kg", 0)]),
    ],
)
def test_pairs_as_people_type_them(text: str, unit: Unit, expected: list[tuple[str, Unit, int | None]]) -> None:
    assert parse_pairs(text, unit) == tuple(DiscPairs(Mass(Decimal(mass), of), pairs) for mass, of, pairs in expected)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("25:one", "'one' is not a number of pairs"),
        ("25:-1", "'-1' is not a number of pairs"),
        ("25:1.5", "'1.5' is not a number of pairs"),
        ("25:5000", "5000 pairs can't be"),
        ("25:", "'' is not a number of pairs"),
        ("-5:1", "A load of -5 kg can't be"),
        ("0", "A load of 0 kg can't be"),
        ("nan:1", "no disc"),
        ("1e3:1", "no disc"),
        ("2000:1", "more than anyone lifts"),
        ("20st:1", "not a unit"),
        ("1.23456:1", "finer than it can be weighed"),
    ],
)
def test_pairs_that_cannot_be_say_which(text: str, says: str) -> None:
    with pytest.raises(BadInputError, match=says):
        parse_pairs(f"20:1 {text} 10:1", "kg")


def test_bars_and_collars_that_cannot_be() -> None:
    with pytest.raises(BadInputError, match="can't be"):
        BarKit(Mass(Decimal(0), "kg"), ())
    with pytest.raises(BadInputError, match="Collars of -1 kg can't be"):
        BarKit(Mass(Decimal(20), "kg"), (), Mass(Decimal(-1), "kg"))
