"""The weeks to come in the trend's figure: dashed, from today on, within the axes, and said in words."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tracker.charts.fan import fan_words, with_fan
from tracker.charts.records import BandPoint
from tracker.charts.trend import trend_figure

START = date(2026, 1, 5)
PAST = [BandPoint(START + timedelta(weeks=week), 100.0, 97.0, 103.0) for week in range(6)]
FAN = [BandPoint(START + timedelta(weeks=5 + week), 100.0 + week, 97.0 - week, 103.0 + 3 * week) for week in range(5)]


@pytest.mark.parametrize("dark", [False, True])
def test_a_fan_begins_today_is_dashed_and_lies_within_the_axes(dark):
    plain = trend_figure(PAST, unit="kg", reps=3, dark=dark)
    height, traces = plain.layout.height, len(plain.data)
    made = with_fan(plain, FAN, unit="kg", reps=3, dark=dark)
    band, line = made.data[traces:]
    assert list(line.x) == [point.day for point in FAN]
    assert line.line.dash == band.line.dash == "dot"  # not told by colour alone
    assert list(band.y) == [point.high for point in FAN] + [point.low for point in reversed(FAN)]
    first, last = made.layout.xaxis.range
    assert first < PAST[0].day < FAN[-1].day < last
    least, most = made.layout.yaxis.range
    assert least < 93 < 115 < most
    assert made.layout.height == height
    assert line.customdata[0].startswith("<b>today</b><br>3RM about 100 kg")
    assert "9 Mar 2026, foretold" in line.customdata[-1]


def test_without_a_fan_the_figure_stays_as_it_is():
    plain = trend_figure(PAST, unit="kg")
    assert with_fan(trend_figure(PAST, unit="kg"), (), unit="kg") == plain


def test_those_who_hear_the_figure_hear_the_last_week():
    assert fan_words(FAN, unit="kg") == " Foretold for 9 Mar 2026: about 104 kg, 80 % sure between 93 and 115 kg."
    assert fan_words((), unit="kg") == ""
