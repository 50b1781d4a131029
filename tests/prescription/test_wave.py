"""Waves and references as people type them, and the working sets that come of them."""

from __future__ import annotations

import csv
import subprocess
import sys
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.errors import BadInputError
from tracker.prescription.kit import BarKit, parse_pairs
from tracker.prescription.wave import PrescribedSets, ReferenceMax, parse_reference, parse_wave, working_sets
from tracker.units import Mass

CHART = Path(__file__).parent.parent / "references" / "training_load_chart.csv"


def test_the_worked_example() -> None:
    """By hand: 72 % of 92.5 kg is 66.6, nearest 67.5 (20 + 2.5 + 1.25 a side); 77 % 71.225, 70 (25); 82 % 75.85, 75."""
    sets = working_sets(parse_reference("3RM=92.5kg"), parse_wave("1x4@72, 1x4@77, 3x4@82"))
    assert [each.set for each in sets] == [1, 2, 3, 4, 5]
    assert [each.reps for each in sets] == [4] * 5
    assert [str(each.target.normalize()) for each in sets] == ["66.6", "71.225", "75.85", "75.85", "75.85"]
    assert [each.load for each in sets] == [Decimal("67.5"), 70, 75, 75, 75]
    first = sets[0].as_record()
    assert first["per_side"] == [20.0, 2.5, 1.25]
    assert first["actual_percent"] == pytest.approx(72.97, abs=0.005)
    assert list(first) == ["set", "reps", "percent", "target", "load", "actual_percent", "per_side", "unit"]


def test_three_week_wave_on_a_3rm_at_home_with_a_pound_bar() -> None:
    """By hand, 3RM 185 lb, 45 lb bar, pairs 45, 35, 25, 10, 10, 5, 2.5 lb.

    Week 1: 70 % = 129.5 -> 130 (35 + 5 + 2.5); 75 % = 138.75 -> 140 (45 + 2.5); 80 % = 148 -> 150 (45 + 5 + 2.5).
    Week 2: 74 % = 136.9 -> 135 (45); 80 % as above; 86 % = 159.1 -> 160 (45 + 10 + 2.5).
    Week 3: 78 % = 144.3 -> 145 (45 + 5); 85 % = 157.25 -> 155 (45 + 10); 92 % = 170.2 -> 170 (45 + 10 + 5 + 2.5, or
    35 + 25 + 2.5 with a disc less).
    """
    kit = BarKit(Mass(Decimal(45), "lb"), parse_pairs("45:1 35:1 25:1 10:2 5:1 2.5:1", "lb"))
    by_hand = {
        "1x5@70, 1x5@75, 3x5@80": [130, 140, 150, 150, 150],
        "1x4@74, 1x4@80, 3x4@86": [135, 150, 160, 160, 160],
        "1x3@78, 1x3@85, 3x3@92": [145, 155, 170, 170, 170],
    }
    for wave, loads in by_hand.items():
        sets = working_sets(parse_reference("3RM=185lb"), parse_wave(wave), kit)
        assert [each.load for each in sets] == loads
        assert all(45 + 2 * sum(disc.amount for disc in each.per_side) == each.load for each in sets)
    week3 = working_sets(parse_reference("3RM=185lb"), parse_wave("1x3@78, 1x3@85, 3x3@92"), kit)
    assert [str(disc) for disc in week3[2].per_side] == ["35 lb", "25 lb", "2.5 lb"]


@pytest.mark.parametrize(
    "row", list(csv.DictReader(x for x in CHART.read_text().splitlines() if not x.startswith("#"))), ids=str
)
def test_percentages_give_the_loads_of_the_load_chart(row: dict[str, str]) -> None:
    """Published (load chart): per cent of a 1RM times the 1RM is the printed load, before any rounding."""
    percent = {2: 95, 3: 93, 5: 87, 6: 85, 8: 80, 9: 77, 10: 75, 12: 70}[int(row["reps"])]
    sets = working_sets(ReferenceMax(1, Mass(Decimal(row["one_rm"]), "kg")), parse_wave(f"1x1@{percent}"))
    assert sets[0].target == Decimal(row["load"])


def test_a_percentage_of_a_5rm_is_of_the_5rm_itself() -> None:
    """80 % of a 100 kg 5RM is 80 kg; by way of a 1RM the textbook's 87 % would make it another load."""
    assert working_sets(parse_reference("5RM=100kg"), parse_wave("1x5@80"))[0].load == 80


def test_another_unit_on_the_bar() -> None:
    kit = BarKit(Mass(Decimal(20), "kg"), parse_pairs("20 10 5 2.5 1.25", "kg"))
    made = working_sets(parse_reference("1RM=225lb"), parse_wave("1x3@80"), kit)[0]
    assert (made.unit, made.load) == ("kg", Decimal("82.5"))
    assert made.target == Decimal("81.6466266")
    assert float(made.actual_percent) == pytest.approx(82.5 / (225 * 0.45359237) * 100, rel=1e-12)


def test_discs_of_both_units_are_named() -> None:
    kit = BarKit(Mass(Decimal(45), "lb"), parse_pairs("20kg:1 2.5", "lb"))
    record = working_sets(parse_reference("1RM=60kg"), parse_wave("1x1@100"), kit)[0].as_record()
    assert record["discs"] == ["20 kg"]
    assert record["per_side"] == [pytest.approx(44.0925, abs=1e-4)]


def test_notes_below_the_bar_and_for_more_than_3_percent() -> None:
    low = working_sets(parse_reference("1RM=20kg"), parse_wave("1x5@60"))[0]
    assert low.note == "12 kg is below the empty bar of 20 kg."
    changed = working_sets(parse_reference("1RM=40kg"), parse_wave("1x5@78"))[0]
    assert (changed.load, changed.note) == (30, "Rounding makes it 3.8 % less than the 31.2 kg asked.")
    assert working_sets(parse_reference("1RM=40kg"), parse_wave("1x5@81"))[0].note is None


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("3x4@82", [(3, 4, "82")]),
        ("3 x 4 @ 82 %", [(3, 4, "82")]),
        ("3 × 4 @ 82.5%, 1X2@90", [(3, 4, "82.5"), (1, 2, "90")]),
        ("1x4@72;\n1x4@77,", [(1, 4, "72"), (1, 4, "77")]),
    ],
)
def test_waves_as_people_type_them(text: str, expected: list[tuple[int, int, str]]) -> None:
    assert parse_wave(text) == tuple(PrescribedSets(s, r, Decimal(p)) for s, r, p in expected)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "There are no sets"),
        (" , ", "There are no sets"),
        ("1x4@72, 3x4", "wave, column 9: '3x4' is no sets x reps @ percent"),
        ("3x4@82,5", "wave, column 8: '5' is no sets"),
        ("0x4@72", "0 sets can't be"),
        ("3x0@72", "0 repetitions can't be"),
        ("3x4@0", "0 % can't be"),
        ("3x4@201", "201 % can't be"),
        ("101x4@80", "101 sets can't be"),
        ("3x4@nan", "no sets"),
        ("3x4@-80", "no sets"),
        ("3x4@8.2.1", "not a number"),
        ("٣x4@80", "no sets"),
        ("1x4@72, 3x400@82", "wave, column 9: 400 repetitions"),
    ],
)
def test_waves_that_cannot_be_say_where(text: str, says: str) -> None:
    with pytest.raises(BadInputError, match=says):
        parse_wave(text)


@pytest.mark.parametrize(
    ("text", "reps", "load"),
    [("3RM=92.5kg", 3, "92.5 kg"), (" 5 rm = 225 lbs ", 5, "225 lb"), ("1RM=92,5 kg", 1, "92.5 kg")],
)
def test_references_as_people_type_them(text: str, reps: int, load: str) -> None:
    reference = parse_reference(text)
    assert (reference.reps, str(reference.load), reference.source) == (reps, load, "given")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "92.5kg",
        "3RM",
        "3RM=",
        "3RM=92.5",
        "0RM=92.5kg",
        "31RM=50kg",
        "3RM=-5kg",
        "3RM=nan kg",
        "3RM=inf kg",
        "3RM=1001kg",
        "3RM=92.5 stone",
    ],
)
def test_references_that_cannot_be(text: str) -> None:
    with pytest.raises(BadInputError, match="reference"):
        parse_reference(text)


@given(st.integers(1, 100), st.integers(1, 100), st.decimals("0.1", "200", places=1))
def test_prescribed_sets_read_back_as_written(sets: int, reps: int, percent: Decimal) -> None:
    prescribed = PrescribedSets(sets, reps, percent)
    assert parse_wave(str(prescribed)) == (prescribed,)


@given(st.decimals("30", "300", places=1), st.decimals("50", "110", places=1))
def test_down_is_never_above_the_target_and_never_above_nearest(load: Decimal, percent: Decimal) -> None:
    reference, wave = ReferenceMax(3, Mass(load, "kg")), (PrescribedSets(1, 3, percent),)
    near, down = (working_sets(reference, wave, rounding=how)[0] for how in ("nearest", "down"))
    assert down.load <= near.load
    assert down.load <= max(down.target, Decimal(20))
    assert abs(near.load - near.target) <= Decimal("1.25") or near.load == 20


def test_nothing_heavy_is_imported() -> None:
    code = "import sys, tracker.prescription.wave; print([m for m in ('numpy','pandas','sqlalchemy','streamlit') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
