"""What stands on pages, in files and on the command line is plain English: no "1 sets", no month in small letters."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest

import tracker
from tracker.components.frame.words import day_words, first_up
from tracker.wording import counted

ROOT = Path(tracker.__file__).parent
PLURALS = (
    "sets|repetitions|discs|reps|days|sessions|members|rounds|weeks|copies|rows|minutes|results|records|months|letters|"
    "intervals|scores|changes|devices|tests|entries|pairs|movements|columns|files|times|partners|lines|bytes"
)
COUNT = re.compile(rf"\{{([^{{}}]*)\}} ({PLURALS})\b")
CONSTANT = re.compile(r"[A-Z_]+(\[[^\]]*\])?( // 7)?(:,)?")
MORE_THAN_ONE = (  # by what stands around them
    "days_off", "self.days_off", "plan.back.days_off", "age_days // 7", "days // 7", "days", "days // 365", "months", "weeks", "away", "(end - start).days",
    "(other - one).days", "self.most_reps:g", "reps.high", "low:.1f", "high:.1f", "float(ratio):.1f",
    "exp(abs(high)):.1f", "seconds:g", "REP_MAXES[-1]", "len(sets)", "piece.work_s", "len(rounds)", "history.title",
)  # fmt: skip
SAID_OF_ONE = (
    "can't be",
    "can't start",
    "> 1 else",
    "== 1 else",
    "!= 1 else",
    '== "1" else',
    "times)",
    "has {",
    "belong together",
)
# A coach's sheet is written by a grammar of its own, invented athletes are for us, and a result's line is a format.
ELSEWHERE = ("prescription/sheet", "strength/backtest", "exchange/result_line.py")


def test_things_are_counted_in_english() -> None:
    assert [counted(n, "set") for n in (0, 1, 2, 1200)] == ["0 sets", "1 set", "2 sets", "1,200 sets"]
    assert (counted(1, "copy"), counted(2, "copy"), counted(2, "day")) == ("1 copy", "2 copies", "2 days")


def test_no_count_stands_before_a_plural_that_one_thing_would_not_have() -> None:
    wrong = [
        f"{path.relative_to(ROOT)}:{number}: {found[0]}"
        for path in sorted(ROOT.rglob("*.py"))
        if not any(each in str(path) for each in ELSEWHERE)
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        for found in COUNT.finditer(line)
        if not CONSTANT.fullmatch(found[1])
        and found[1] not in MORE_THAN_ONE
        and not any(each in line for each in SAID_OF_ONE)
    ]
    assert wrong == []


@pytest.mark.parametrize("name", ["components/frame/where.py", "desk/sheet/sheet_changes.py"])
def test_days_are_not_begun_with_what_makes_all_other_letters_small(name: str) -> None:
    """`Fri 20 nov`, `Week 1, monday`: str.capitalize does that."""
    assert "capitalize()" not in (ROOT / name).read_text(encoding="utf-8")
    assert first_up(day_words(date(2026, 11, 20), date(2026, 12, 1))) == "Fri 20 Nov"
