"""The drawing that stands where the figure will be: the same band and line, and the loads and days at its edges."""

from __future__ import annotations

import re
from datetime import date, timedelta

import pytest

from tracker.charts.records import BandPoint
from tracker.charts.sketch import THICK, sketch

FIRST = date(2026, 1, 5)


def corners(drawn: str) -> list[list[tuple[float, float]]]:
    areas = re.findall(r"polygon\(([^)]*)\)", drawn)
    return [[(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+)% (-?[\d.]+)%", area)] for area in areas]


def test_band_and_line_lie_where_their_loads_and_days_are():
    points = [
        BandPoint(FIRST, 100.0, 90.0, 110.0),
        BandPoint(FIRST + timedelta(days=25), 105.0, 100.0, 110.0),
        BandPoint(FIRST + timedelta(days=100), 120.0, 110.0, 130.0),
    ]
    band, line = corners(sketch(points, "kg"))
    assert band == [(0, 50), (25, 50), (100, 0), (100, 50), (25, 75), (0, 100)]  # 130 kg on top, 90 kg at the bottom
    assert [x for x, _ in line] == [0, 25, 100, 100, 25, 0]
    middles = [(upper + lower) / 2 for (_, upper), (_, lower) in zip(line[:3], reversed(line[3:]), strict=True)]
    assert middles == pytest.approx([75, 62.5, 25], abs=0.1)
    assert line[3][1] - line[2][1] == pytest.approx(2 * THICK, abs=0.11)


def test_its_edges_are_said_with_unit_and_day_and_not_to_who_hears_the_figure():
    points = [BandPoint(FIRST, 200.0, 190.4, 210.0), BandPoint(FIRST + timedelta(days=1), 200.0, 195.0, 211.6)]
    drawn = sketch(points, "lb")
    assert re.findall(r"<p>([^<]*)</p>", drawn) == ["212 lb", "190 lb", "5 Jan 2026", "6 Jan 2026"]
    assert 'aria-hidden="true"' in drawn


def test_a_level_known_to_the_gram_is_still_drawn():
    same = [BandPoint(FIRST, 50.0, 50.0, 50.0), BandPoint(FIRST + timedelta(days=3), 50.0, 50.0, 50.0)]
    assert all(abs(y) <= 100 for area in corners(sketch(same, "kg")) for _, y in area)
