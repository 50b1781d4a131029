"""All figures have one look, and none of them tells two things apart by colour alone: a print in grey loses nothing."""

from __future__ import annotations

import re
from datetime import date, timedelta
from pathlib import Path

import pytest

import tracker
from tracker.charts.curve import curve_figure
from tracker.charts.piece import ResultMark, piece_figure
from tracker.charts.records import BandPoint, CurvePoint, FormulaMark, MaxMark, SetDot
from tracker.charts.template import template
from tracker.charts.trend import trend_figure

ROOT = Path(tracker.__file__).parent
DAY = date(2026, 3, 2)
DRAWS = re.compile(r"go\.Figure\(\s*\)|plotly_chart\(|\bst\.(line|bar|area|scatter)_chart|altair|vega_lite|pyplot")


def trend(dark):
    points = [BandPoint(DAY + timedelta(days=7 * week), 100 + week, 95, 106, 100) for week in range(4)]
    dots = tuple(SetDot(DAY, 80, effort, "5 x 80 kg") for effort in ("hard", "not said"))
    maxes = (MaxMark(DAY, 102.5, "tested"), MaxMark(DAY, 100, "declared"))
    formulas = (FormulaMark(DAY, 99.3, "Epley", "5 x 85 kg"),)
    return trend_figure(points, unit="kg", maxes=maxes, hindsight=True, sets=dots, formulas=formulas, dark=dark)


def curve(dark):
    return curve_figure(
        [CurvePoint(n, 120 - n, 110 - n, 130 - n, 121 - n, 115 - n) for n in (1, 2, 3)], unit="kg", dark=dark
    )


def piece(dark):
    days = [DAY + timedelta(days=7 * week) for week in range(4)]
    marks = [
        ResultMark(days[0], 160, 160, True, "160"),
        ResultMark(days[1], 170, 170, False, "170"),
        ResultMark(days[2], 150, 170, True, "150 to 170"),
        ResultMark(days[3], 300, 300, True, "300", beyond=True),
    ]
    return piece_figure(marks, quantity="repetitions", unit="reps", dark=dark)


def shape(trace) -> tuple[object, ...]:
    """What is seen of a trace without its colour."""
    line, marker = trace.line, trace.marker
    fill = trace.fill if trace.fill not in (None, "none") else None
    size = marker.size if "markers" in trace.mode else None
    return (trace.mode, line.dash or "solid", str(marker.symbol), fill, size, line.width)


def test_figures_are_begun_by_the_template_and_drawn_in_one_place():
    found = {
        path.relative_to(ROOT).as_posix()
        for path in ROOT.rglob("*.py")
        if DRAWS.search(path.read_text(encoding="utf-8"))
    }
    assert found == {"charts/template.py", "components/frame/plot.py"}
    assert not [path for path in (ROOT.parent / "pages").glob("*.py") if DRAWS.search(path.read_text(encoding="utf-8"))]


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("make", [trend, curve, piece])
def test_what_a_figure_shows_differs_by_more_than_colour(make, dark):
    made = make(dark)
    assert made.layout.template == template(dark=dark)
    named = {each.name: shape(each) for each in made.data if each.name and each.showlegend is not False}
    assert len(named) > 2
    assert len(set(named.values())) == len(named), named
