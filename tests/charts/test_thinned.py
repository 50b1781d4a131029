"""A long history drawn with fewer points: no extreme and no end is lost, and a short one is left alone."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from tracker.charts.records import BandPoint
from tracker.charts.thinned import MOST, thinned

FIRST = date(2016, 1, 4)
steps = st.lists(st.tuples(st.integers(1, 40), st.floats(20, 300), st.floats(0.1, 20)), min_size=1, max_size=900)


def points(drawn: list[tuple[int, float, float]]) -> list[BandPoint]:
    made, day = [], FIRST
    for gap, load, wide in drawn:
        day += timedelta(days=gap)
        made.append(BandPoint(day, load, load - wide, load + wide))
    return made


@given(steps)
def test_ends_and_extremes_are_kept_in_order(drawn):
    every = points(drawn)
    kept = thinned(every, 100)
    assert kept[0] == every[0]
    assert kept[-1] == every[-1]
    assert [each for each in every if each in kept] == kept
    assert len(kept) <= max(102, min(len(every), 100))
    assert max(each.high for each in kept) == max(each.high for each in every)
    assert min(each.low for each in kept) == min(each.low for each in every)
    assert max(each.estimate for each in kept) == max(each.estimate for each in every)


def test_what_a_screen_can_show_is_drawn_whole():
    every = points([(3, 100 + n % 7, 2) for n in range(MOST)])
    assert thinned(every) == every
