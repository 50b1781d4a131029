"""What must not change an estimate, as properties over generated histories."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tracker.strength.estimator import LiftModel
from tracker.strength.records import Estimate, SetRecord

START = date(2025, 9, 1)
LB = 0.45359237


@st.composite
def histories(draw: st.DrawFn) -> list[SetRecord]:
    """Draw up to five days with up to four sets each, any effort, outcome and kind."""
    found, day = [], START
    for _ in range(draw(st.integers(1, 5))):
        for order in range(draw(st.integers(1, 4))):
            outcome = draw(st.sampled_from(["done", "done", "done", "missed", "cut"]))
            reps = draw(st.integers(0 if outcome == "missed" else 1, 12))
            rir = draw(st.sampled_from([None, 0.0, 1.0, 2.0, 2.5, 4.0, 6.0]))
            kind = draw(st.sampled_from(["work", "work", "work", "test", "ramp"]))
            load = draw(st.integers(24, 48)) * 2.5
            found.append(SetRecord(day, load, reps, rir, outcome, kind, order))
        day += timedelta(days=draw(st.integers(1, 40)))
    return found


def close(one: Estimate, other: Estimate, factor: float = 1.0) -> None:
    for reps, band in one.rep_max.items():
        for name in ("estimate", "low80", "high80"):
            assert getattr(other.rep_max[reps], name) == pytest.approx(factor * getattr(band, name), rel=1e-6)


def last(records: list[SetRecord]) -> Estimate:
    return LiftModel.of(records).estimate(max(record.day for record in records))


few = settings(max_examples=8)


@few
@given(histories())
def test_pounds_and_doubled_loads_change_nothing_but_the_scale(records: list[SetRecord]):
    one = last(records)
    for factor in (2.0, LB, 1 / LB):
        close(one, last([replace(each, load_kg=each.load_kg * factor) for each in records]), factor)


@few
@given(histories(), st.randoms())
def test_the_order_of_dates_in_a_file_changes_nothing(records: list[SetRecord], dice):
    days: dict[date, list[SetRecord]] = {}
    for record in records:
        days.setdefault(record.day, []).append(record)
    shuffled = list(days.values())
    dice.shuffle(shuffled)
    assert last([record for day in shuffled for record in day]) == last(records)


@few
@given(histories())
@example([SetRecord(START, 60.0, 1, kind="ramp")])  # a lighter set of work was taken for what was meant that day
def test_a_set_that_says_nothing_new_changes_nothing(records: list[SetRecord]):
    light = min(record.load_kg for record in records) * 0.3
    for extra in (
        SetRecord(records[-1].day, light, 1, kind="ramp", order=9),
        SetRecord(records[-1].day, light, 1, order=9),
        SetRecord(records[0].day, light, 1, outcome="cut", order=9),
    ):
        one, other = last(records), last([*records, extra])
        close(one, other)


@few
@given(histories(), st.integers(0, 19))
def test_a_set_taken_out_and_put_back_leaves_no_trace(records: list[SetRecord], which: int):
    which %= len(records)
    without = records[:which] + records[which + 1 :]
    if without:
        LiftModel.of(without).trend()
    assert LiftModel.of([*without, records[which]]).trend() == LiftModel.of(records).trend()


@few
@given(histories())
def test_later_sets_never_move_the_filtered_past(records: list[SetRecord]):
    whole = [point.filtered for point in LiftModel.of(records).trend()]
    for until in range(1, len(whole)):
        part = LiftModel.of([record for record in records if record.day <= whole[until - 1].day])
        assert [point.filtered for point in part.trend()] == whole[:until]


@few
@given(histories())
def test_growing_set_by_set_is_the_same_as_all_at_once_to_the_last_digit(records: list[SetRecord]):
    model = LiftModel.of(records[:1])
    for count in range(2, len(records) + 1):
        model = model.renewed(records[:count])
    assert model.trend() == LiftModel.of(records).trend()


@few
@given(histories())
def test_hindsight_on_the_last_day_is_what_is_known_then(records: list[SetRecord]):
    point = LiftModel.of(records).trend()[-1]
    assert point.smoothed == point.filtered
