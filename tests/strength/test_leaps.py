"""A made test far above what was expected is believed, unless it looks like a slip of the pen."""

import csv
from datetime import date, timedelta
from itertools import groupby
from pathlib import Path

import pytest

from tracker.strength.estimator import LiftModel
from tracker.strength.records import SetRecord

FIRST = date(2026, 1, 5)
DATA = Path(__file__).parent.parent / "references" / "machine_1rm_12wk.csv"  # names its source at its top
WEEKS = {"pre": 0, "session1": 1, "week2": 2, "week5": 5, "week9": 9, "post": 12}


def made(*loads: float) -> LiftModel:
    return LiftModel.of(
        [SetRecord(FIRST + timedelta(days=28 * n), load, 1, kind="test") for n, load in enumerate(loads)]
    )


@pytest.mark.parametrize("last", [130.0, 140.0, 150.0])
def test_a_made_test_up_to_a_third_above_is_believed_with_a_wider_band(last):
    model = made(100, 105, 110, last)
    now = model.estimate(model.last_day).one_rm
    assert last * 0.97 < now.estimate < last * 1.04
    before = model.trend()[-2].filtered.one_rm
    assert now.high80 / now.low80 > before.high80 / before.low80
    assert model.flags == ()


@pytest.mark.parametrize("last", [110 * 2.20462, 1100.0, 110 / 2.20462])
def test_the_other_unit_or_a_digit_too_many_is_doubted_and_pointed_at(last):
    model = made(100, 105, 110, last)
    assert model.estimate(model.last_day).one_rm.estimate == pytest.approx(110, rel=0.02)
    (flag,) = model.flags
    assert "hardly counted" in flag.words
    assert "Perhaps 110" in flag.words


def test_hindsight_does_not_carry_a_leap_back():
    points = made(100, 105, 110, 145).trend()
    assert points[-2].smoothed.one_rm.estimate < 118
    assert points[-1].smoothed.one_rm.estimate > 140


def test_made_tests_of_novices_are_followed_on_open_data():
    with DATA.open(encoding="utf-8") as file:
        rows = sorted(
            csv.DictReader(line for line in file if not line.startswith("#")),
            key=lambda row: (row["participant"], row["exercise"], row["leg"], WEEKS[row["time"]]),
        )
    close = []
    for _, group in groupby(rows, key=lambda row: (row["participant"], row["exercise"], row["leg"])):
        series = [(WEEKS[row["time"]], float(row["load_kg"])) for row in group]
        model = LiftModel.of([SetRecord(FIRST + timedelta(weeks=w), load, 1, kind="test") for w, load in series])
        close.append(abs(model.estimate(model.last_day).one_rm.estimate / series[-1][1] - 1) < 0.03)
    assert len(close) > 20
    assert sum(close) / len(close) >= 0.85
