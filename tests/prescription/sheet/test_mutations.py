"""Sheets with anything in them: read, or refused with problems that stand where they say; never a crash.

`TIDEMARK_SHEET_MUTATIONS=100000` runs more of them and prints the slowest beside the median in processor time (`pytest -s`).
"""

from __future__ import annotations

import os
import random
import statistics
from collections.abc import Callable
from time import process_time

import pytest

from tests.prescription.sheet.corpus import CORPUS
from tracker.prescription.sheet import SheetErrors, parse_sheet, print_sheet, said_back

COUNT = int(os.environ.get("TIDEMARK_SHEET_MUTATIONS", "2000"))
SIGNS = "0123456789 x@%+-,:;()./#\n\t×–—\u00a0\u200b\x00\x1b\u202eéß🙂RMrpekglb'\"*<>&|\\{}[]$^"
TOKENS = (
    "3 x 5 @ 80 %", "@", "% of 3RM", "rest 3:00", "tempo 3110", "find a 5RM", "superset with ", "or dumbbells", "Week 2", "Day 3: x",
    "Piece: x", "for time", "21-15-9", "every 1:30", "AMRAP 12", "999999999999999999999", "1e9", "0", "-1", "Note:", "Warm-up:", "\n\n",
    "barbell", "each side", "in turn", "Monday", "On 2026-02-30", "((((((((((", "RPE", "½", "٣", "５", "to 10 and back", "then", ", ",
)  # fmt: skip


def _spot(rng: random.Random, text: str) -> tuple[int, int]:
    first, second = rng.randint(0, len(text)), rng.randint(0, len(text))
    return min(first, second), max(first, second)


def _sign(rng: random.Random, text: str) -> str:
    at = rng.randint(0, len(text))
    return text[:at] + rng.choice(SIGNS) + text[at + rng.randint(0, 1) :]


def _token(rng: random.Random, text: str) -> str:
    at = rng.randint(0, len(text))
    return text[:at] + rng.choice(TOKENS) + text[at:]


def _cut(rng: random.Random, text: str) -> str:
    first, last = _spot(rng, text)
    return text[:first] + text[min(last, first + 30) :]


def _again(rng: random.Random, text: str) -> str:
    first, last = _spot(rng, text)
    return text[:last] + text[first : min(last, first + 60)] * rng.randint(1, 20) + text[last:]


def _lines(rng: random.Random, text: str) -> str:
    lines = text.split("\n")
    one, two = rng.randrange(len(lines)), rng.randrange(len(lines))
    lines[one], lines[two] = rng.choice(
        [(lines[two], lines[one]), ("", lines[two]), (lines[one], lines[one] + lines[two])]
    )
    return "\n".join(lines)


def _other(rng: random.Random, text: str) -> str:
    first, last = _spot(rng, text)
    other = rng.choice(CORPUS)
    begin, end = _spot(rng, other)
    return text[:first] + other[begin:end] + text[last:]


CHANGES: tuple[Callable[[random.Random, str], str], ...] = (_sign, _sign, _token, _token, _cut, _again, _lines, _other)


def damaged(rng: random.Random) -> str:
    text = rng.choice(CORPUS)
    for _ in range(rng.choice((1, 1, 2, 3, 6))):
        text = rng.choice(CHANGES)(rng, text)
    return text


def check(text: str) -> bool:
    """Whether a sheet is read; then it prints and reads back to the same. Else every problem stands in the sheet."""
    try:
        sheet = parse_sheet(text)
    except SheetErrors as err:
        lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
        for problem in err.problems:
            assert 1 <= problem.line <= len(lines)
            assert 1 <= problem.column <= len(lines[problem.line - 1]) + 1, (text, problem)
            assert problem.what
            assert problem.expected
        return False
    assert parse_sheet(print_sheet(sheet)) == sheet
    assert all(said_back(sheet))
    return True


def test_damaged_sheets_are_read_or_refused_with_problems_that_stand_in_them() -> None:
    rng = random.Random(20261125)
    times, read = [], 0
    for _ in range(COUNT):
        text = damaged(rng)
        begin = process_time()
        read += check(text)
        times.append(process_time() - begin)
    print(
        f"{COUNT:,} sheets, {read:,} read; median {statistics.median(times) * 1e3:.1f} ms, slowest {max(times) * 1e3:.1f} ms"
    )
    assert 0 < read < COUNT


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "\n" * 2999, "\ufeff", "x" * 100_000, "3 x " * 20_000, "(" * 100_000, "Press, barbell\n" + "3 x 5 @ 80 %\n" * 2900,
        "Press, barbell\n3 x 5 @ 80 %" + ", 3 x 5 @ 80 %" * 33, "a + " * 120, "1+" * 240, "Note: " + "(" * 480, "or " * 160, "\x00", "\ud800",
        "Press, barbell\n" + "9" * 400 + " x 5", "Press, barbell\n3 x " + "9" * 400, "Date: 9999-99-99", "Date: 0000-01-01", "Week 99999999999",
        "Piece: x\n" + "-".join(["21"] * 150) + " for time\nrun", "Piece: x\n1 up by 1 to 99999999999 and back, for time\nrun",
        "Piece: x\nevery 1 s for 24 h\nrun", "Piece: x\nAMRAP 99999999999 min\nrun", "Press, barbell\n3 x 5, rest 99999999999:00",
    ],
)  # fmt: skip
def test_huge_and_nested_sheets_never_crash(text: str) -> None:
    try:
        parse_sheet(text)
    except SheetErrors as err:
        assert err.problems  # noqa: PT017 - read or refused, both are right here


def test_a_sheet_that_is_too_large_is_refused_with_its_size() -> None:
    with pytest.raises(
        SheetErrors, match=r"The sheet has 100,001 letters in 1 lines\. Expected at most 100,000 letters in 3,000 lines"
    ):
        parse_sheet("x" * 100_001)


def test_a_control_character_is_named_with_its_place() -> None:
    with pytest.raises(SheetErrors, match=r"line 2, column 3: Here stands a sign that can't be shown \(U\+001B\)"):
        parse_sheet("Title: a\n3 \x1bx 5")
