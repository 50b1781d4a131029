"""The repetition curve and the load by week."""

from __future__ import annotations

from datetime import date

from tracker.charts.curve import curve_figure
from tracker.charts.records import CurvePoint, WeekBar
from tracker.charts.weeks import weeks_figure

CURVE = (
    CurvePoint(1, 120, 112, 128, population=120, done=115),
    CurvePoint(3, 111.3, 107, 116, population=112.0),
    CurvePoint(2, 115, 109, 121, population=116.0, done=112.5),
)


def test_the_curve_runs_from_few_repetitions_to_many_whatever_order_it_came_in():
    own = curve_figure(CURVE, unit="kg").data[1]
    assert list(own.x) == [1, 2, 3]
    assert list(own.y) == [120, 115, 111.3]


def test_own_curve_and_population_differ_by_dash_and_the_facts_are_marks():
    band, own, population, done = curve_figure(CURVE, unit="kg").data
    assert (own.line.dash, population.line.dash) == (None, "dash")
    assert list(done.x) == [1, 2]
    assert done.mode == "markers"
    assert band.hoverinfo == "skip"


def test_a_touch_on_the_curve_says_load_band_and_unit():
    said = curve_figure(CURVE, unit="kg").data[1].customdata[2]
    assert said == "<b>3RM</b> about 111.5 kg<br>80 % sure: 107 kg to 116 kg"


def test_without_population_or_facts_only_the_own_curve_is_drawn():
    figure = curve_figure([CurvePoint(5, 100, 95, 105)], unit="lb")
    assert [trace.name for trace in figure.data] == ["80 % band", "own"]
    assert figure.layout.yaxis.title.text == "most load, lb"


def test_a_week_is_a_bar_in_its_middle_with_its_words():
    weeks = (WeekBar(date(2026, 3, 2), 4.2, "4.2 t in 3 sessions"), WeekBar(date(2026, 3, 16), 1))
    figure = weeks_figure(weeks, quantity="moved in a week", unit="t")
    bar = figure.data[0]
    assert list(bar.x) == [date(2026, 3, 5), date(2026, 3, 19)]
    assert bar.customdata[0] == "<b>week of 2 Mar 2026</b><br>4.2 t in 3 sessions"
    assert bar.customdata[1].endswith("1 t")
    assert figure.layout.yaxis.title.text == "moved in a week, t"
    assert figure.layout.yaxis.range[0] == 0
