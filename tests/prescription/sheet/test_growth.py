"""The work grows with the text, not faster: twice the lines take about twice the steps, and one long line no more than its share."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tracker.prescription.sheet import read

WEEK = Path(__file__).with_name("texts").joinpath("24-week-lifting.txt").read_text(encoding="utf-8")


def steps_of(call: Callable[[], object]) -> int:
    """Count the calls of functions of the sheet's room: a measure of work that no other process changes."""
    count = 0

    def hook(frame: object, event: str, _argument: object) -> None:
        nonlocal count
        if event == "call" and "/sheet/" in frame.f_code.co_filename:  # type: ignore[attr-defined]
            count += 1

    before = sys.getprofile()
    sys.setprofile(hook)
    try:
        call()
    finally:
        sys.setprofile(before)
    return count


@pytest.mark.parametrize(
    "text",
    [
        WEEK,
        "Back squat 5x5 @ 75 %\n",
        "AMRAP 12\n10 burpees\n",
        "10 burpees\n",
        "stay tall and breathe, it is fine\n",
        "12 burpees or 5 dips\n",
        "Monday\nrun 5 km\n",
    ],
)
def test_twice_the_lines_take_about_twice_the_work(text: str) -> None:
    few = text * max(1, 60 // text.count("\n"))
    once, twice = steps_of(lambda: read(few)), steps_of(lambda: read(few * 2))
    assert twice < 2.4 * once


@pytest.mark.parametrize(
    "part", ["10 burpees, ", "3 x 5 @ 80 %, ", "(", "a b ", "21-15-", "squat + ", "or ", "9", "and then run "]
)
def test_twice_the_line_takes_about_twice_the_work(part: str) -> None:
    line = part * (300 // len(part))
    once, twice = steps_of(lambda: read("x\n" + line)), steps_of(lambda: read("x\n" + line * 2))
    assert twice < 2.6 * once + 500
