"""Headings of a part of the session with a slip in them: they are read, and the coach's own words stay."""

from __future__ import annotations

import pytest

from tests.prescription.sheet.test_mutations import check
from tracker.prescription.sheet import parse_sheet, read
from tracker.prescription.sheet.model import LiftBlock, Text


@pytest.mark.parametrize(
    ("text", "kind", "lines"),
    [
        ("Warup: 500 m easy row, then\n2 rounds: arm swings\nBack squat 5x5 75%", "warm-up", ("Warup: 500 m easy row, then", "2 rounds: arm swings")),
        ("Warmpu\nrow 500 m easy\n\nBack squat 5x5 75%", "warm-up", ("Warmpu", "row 500 m easy")),
        ("Warmup: easy row\nBack squat 5x5 75%", "warm-up", ("easy row",)),  # no slip: the heading says no more than its kind
    ],
)  # fmt: skip
def test_a_heading_with_a_slip_is_read_and_stays_as_typed(text: str, kind: str, lines: tuple[str, ...]) -> None:
    session = parse_sheet(text).sessions[0]
    first = session.items[0]
    assert isinstance(first, Text)
    assert (first.kind, first.lines) == (kind, lines)
    assert [type(item) for item in session.items] == [Text, LiftBlock]


@pytest.mark.parametrize(
    "text",
    [
        "Week 1, day 1: Front squat\nWarup: 500 m easy row, then\n2 rouer: testing",
        "A) Warup: 500 m row\nB) Front squat 5x5 75%",
        "Monday\nWARUP - 5 min bike\nFront squat 5x5 75%",
        "Front squat 5x5 75%\n\nWrmup for tomorrow: 500 m row",
    ],
)
def test_no_word_of_a_damaged_heading_is_lost(text: str) -> None:
    assert check(text)


@pytest.mark.parametrize(
    "line", ["Di. Warm up: 3 x 6５0 %", "1. Wa1. Wa1. Warm up, 500 m row", "Row. Warm up: 5 barbel rows", "Hello. Warm up: ½ mile, 5 roun"]
)  # fmt: skip
def test_a_warm_up_within_a_line_keeps_every_word_of_it_as_typed(line: str) -> None:
    (session,) = read(f"{line}\n\nBack squat 3 x 5 @ 60 kg").sheet.sessions
    assert [(item.kind, item.lines) for item in session.items if isinstance(item, Text)] == [("warm-up", (line,))]


def test_a_warm_up_within_a_line_that_was_read_as_typed_is_the_warm_up_alone() -> None:
    (session,) = read("Morning all. Warm up: 5 easy rows\n\nBack squat 3 x 5 @ 60 kg").sheet.sessions
    kinds = {item.kind: item.lines for item in session.items if isinstance(item, Text)}
    assert kinds["warm-up"] == ("Warm up: 5 easy rows",)
