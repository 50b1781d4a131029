"""Which way loads are rounded, when a change is said, and what a lay-off does."""

from __future__ import annotations

from typing import Any

import pytest

from tracker.prescription.rounding import RoundingChoice, change_note, choose_rounding, lay_off
from tracker.units import parse_mass


@pytest.mark.parametrize(
    ("facts", "rounding", "reasons"),
    [
        ({"source": "tested", "age_days": 84}, "nearest", ()),
        ({"source": "given", "age_days": 0}, "nearest", ()),
        ({"source": "tested", "age_days": 85}, "down", ("the max is 12 weeks old",)),
        ({"source": "estimated", "age_days": 1}, "down", ("the max is estimated, not tested",)),
        ({"source": "declared", "age_days": 1}, "down", ("the max is declared, not tested",)),
        ({"source": "tested", "age_days": 20, "days_off": 13}, "nearest", ()),
        ({"source": "tested", "age_days": 20, "days_off": 14}, "down", ("14 days without training",)),
        ({"source": "tested", "age_days": 20, "alone": True}, "down", ("training alone",)),
        ({"source": "estimated", "age_days": 100, "days_off": 30, "alone": True}, "down", None),
    ],
)
def test_down_where_care_is_due(facts: dict[str, Any], rounding: str, reasons: tuple[str, ...] | None) -> None:
    """Common practice, and this log's own 14 days."""
    choice = choose_rounding(**facts)
    assert choice.rounding == rounding
    assert len(choice.reasons) == 4 if reasons is None else choice.reasons == reasons


@pytest.mark.parametrize(
    ("target", "load", "note"),
    [
        ("100kg", "103kg", None),
        ("100kg", "103.1kg", "Rounding makes it 3.1 % more than the 100 kg asked."),
        ("31.25kg", "30kg", "Rounding makes it 4 % less than the 31.25 kg asked."),
        ("100kg", "100kg", None),
    ],
)
def test_a_change_over_3_percent_is_said(target: str, load: str, note: str | None) -> None:
    assert change_note(parse_mass(target), parse_mass(load)) == note


@pytest.mark.parametrize(
    ("reasons", "note"),
    [
        (("training alone",), "Rounded down (training alone): 35 kg is 5.2 % less than the 36.9 kg asked."),
        ((), "Rounded down: 35 kg is 5.2 % less than the 36.9 kg asked."),
    ],
)
def test_a_load_that_was_rounded_down_says_so_and_why(reasons: tuple[str, ...], note: str) -> None:
    """37.5 kg would be nearer to 36.905 kg, and a target is shown to no more than a tenth."""
    choice = RoundingChoice("down", reasons)
    assert change_note(parse_mass("36.905kg"), parse_mass("35kg"), choice) == note


@pytest.mark.parametrize(
    ("days", "lower", "no_test", "stale"),
    [
        (None, False, False, False),
        (0, False, False, False),
        (13, False, False, False),
        (14, True, True, False),
        (27, True, True, False),
        (28, True, True, True),
        (400, True, True, True),
    ],
)
def test_lay_off(days: int | None, lower: bool, no_test: bool, stale: bool) -> None:
    break_ = lay_off(days)
    assert (break_.lower_start, break_.no_test, break_.stale) == (lower, no_test, stale)
    assert bool(break_.words) == lower
    if lower:
        assert "coach" in break_.words
        assert str(days) in break_.words
