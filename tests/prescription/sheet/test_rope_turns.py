"""Turns of a rope are jumped, whoever writes them; a rope that is climbed stays one (common practice)."""

from __future__ import annotations

import pytest

from tests.prescription.sheet.test_other_kit import moves


@pytest.mark.parametrize(
    "line", ["30 rope turns", "30 skipping rope turns", "30 jump rope turns", "30 turns of the rope"]
)
def test_turns_of_a_rope_are_jumped(line: str) -> None:
    first, _ = moves(f"3 rounds for time\n{line}\n10 burpees")
    assert (first["name"], first["first"], first.get("standard")) == ("jump rope", 30, None)


@pytest.mark.parametrize("line", ["3 rope climbs", "3 rope ascents"])
def test_a_rope_that_is_climbed_stays_one(line: str) -> None:
    first, _ = moves(f"3 rounds for time\n{line}\n10 burpees")
    assert first["name"] == "rope climb"
