"""Damaged and spliced texts: never a crash, nothing dropped, and what was read prints and reads back.

`TIDEMARK_SHEET_MUTATIONS=100000` runs more of them and prints the slowest beside the median in processor time (`pytest -s`).
"""

from __future__ import annotations

import os
import random
import re
import statistics
import unicodedata
from collections.abc import Callable
from pathlib import Path
from time import process_time

import pytest

from tests.prescription.sheet.corpus import CORPUS
from tracker.prescription.sheet import Reading, SheetErrors, as_json, read, said_back
from tracker.prescription.sheet.model import Text

COUNT = int(os.environ.get("TIDEMARK_SHEET_MUTATIONS", "600"))
TEXTS = tuple(path.read_text(encoding="utf-8") for path in sorted(Path(__file__).with_name("texts").glob("*.txt")))
ALL = (*CORPUS, *TEXTS)
SIGNS = "0123456789 x@%+-,:;()./#\n\t×–—\u00a0\u200b\x00\x1b\u202eéß🙂RMrpekglb'\"*<>&|\\{}[]$^"
TOKENS = (
    "3 x 5 @ 80 %", "@", "% of 3RM", "rest 3:00", "tempo 3110", "find a 5RM", "superset with ", "or dumbbells", "Week 2", "Day 3: x",
    "Piece: x", "for time", "21-15-9", "every 1:30", "AMRAP 12", "999999999999999999999", "1e9", "0", "-1", "Note:", "Warm-up:", "\n\n",
    "barbell", "each side", "in turn", "Monday", "On 2026-02-30", "((((((((((", "RPE", "½", "٣", "５", "to 10 and back", "then", ", ",
    "EMOM 10", "E2MOM x 6", "tabata", "(or ring rows)", "no rig: ", "Scaled:", "TM = 90 %", "1+1+1", "70/75/80 %", "43/30 kg", "cap 12", "15.12.2026",
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
    other = rng.choice(ALL)
    begin, end = _spot(rng, other)
    return text[:first] + other[begin:end] + text[last:]


CHANGES: tuple[Callable[[random.Random, str], str], ...] = (_sign, _sign, _token, _token, _cut, _again, _lines, _other)


def damaged(rng: random.Random) -> str:
    text = rng.choice(ALL)
    for _ in range(rng.choice((1, 1, 2, 3, 6))):
        text = rng.choice(CHANGES)(rng, text)
    return text


HEADS = re.compile(
    r"[^\w]*(?:[A-Ha-h0-9]{1,2}\W+)?(?:(?:general|full|specific|dynamic)\s+)?(?:warm\W{0,2}up|warm(?=\W*$)|cool\W{0,2}down|notes?|title|date|piece|wup?|c/?d|mobility|stretch\w*)\W*",
    re.IGNORECASE,
)


def words_of(text: str) -> set[str]:
    shown = "".join(sign for sign in text if unicodedata.category(sign) != "Cf")  # signs that nobody sees
    return set(re.findall(r"[^\W_]+", shown))


def kept_words(reading: Reading) -> set[str]:
    """All words that are somewhere in what was read: in the lines of an item, a note, a title, or a line that was a heading."""
    sheet = reading.sheet
    parts = [sheet.title, *sheet.notes]
    for session in sheet.sessions:
        parts.append(session.title)
        for item in session.items:
            parts += item.lines if isinstance(item, Text) else item.text
    headings = {"day", "heading", "title", "date", "remark", "blank", "rule", "table heading"}
    parts += [line.typed for line in reading.lines if line.role in headings]
    return words_of("\n".join(parts)) | {
        word for line in reading.lines if (found := HEADS.match(line.typed)) for word in words_of(found[0])
    }


def check(text: str) -> bool:
    """Whether a text is read; then nothing of it is lost. Else there is nothing in it."""
    try:
        reading = read(text)
    except SheetErrors:
        assert not any(sign.isalnum() for sign in text)
        return False
    lines = re.split(r"\r\n|\r|\n", text.removeprefix("\ufeff"))
    assert [line.number for line in reading.lines] == list(range(1, len(lines) + 1))
    missing = words_of(text) - kept_words(reading)
    assert not missing, (text, missing)
    assert all(said_back(reading.sheet))
    assert as_json(reading.sheet, reading.asks)["sessions"]
    return True


def test_damaged_texts_are_read_and_nothing_of_them_is_lost() -> None:
    rng = random.Random(20261125)
    times, found = [], 0
    for _ in range(COUNT):
        text = damaged(rng)
        begin = process_time()
        found += check(text)
        times.append(process_time() - begin)
    print(
        f"{COUNT:,} texts, {found:,} read; median {statistics.median(times) * 1e3:.1f} ms, slowest {max(times) * 1e3:.1f} ms"
    )
    assert found > COUNT * 0.99


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "\n" * 2999, "\ufeff", "x" * 100_000, "3 x " * 20_000, "(" * 100_000, "Press, barbell\n" + "3 x 5 @ 80 %\n" * 900,
        "Press, barbell\n3 x 5 @ 80 %" + ", 3 x 5 @ 80 %" * 33, "a + " * 120, "1+" * 240, "Note: " + "(" * 480, "or " * 160, "\x00", "\ud800",
        "Press, barbell\n" + "9" * 400 + " x 5", "Press, barbell\n3 x " + "9" * 400, "Date: 9999-99-99", "Date: 0000-01-01", "Week 99999999999",
        "Piece: x\n" + "-".join(["21"] * 150) + " for time\nrun", "Piece: x\n1 up by 1 to 99999999999 and back, for time\nrun",
        "Piece: x\nevery 1 s for 24 h\nrun", "Piece: x\nAMRAP 99999999999 min\nrun", "Press, barbell\n3 x 5, rest 99999999999:00",
        "every 99999 min x 99999\n1 squat @ 70%", "E9MOM 99999\n9 burpees", "1-2-3-4-" * 300, "70/75/" * 200 + "%", "squat " * 2000, "AMRAP " * 3000,
        "10 burpees or " * 500, "no rower: " * 200, "| a | b |\n" * 500, "5 @ 70 % of " * 300, "99999999999999 kg squat", "5' 5\" " * 300, "30/30 " * 400,
    ],
)  # fmt: skip
def test_huge_and_nested_texts_never_crash(text: str) -> None:
    check(text)
