"""Figures of the study: errors by kind and method, how often bands hold, and whether what is said to be likely happens."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import plotly.graph_objects as go

from tracker.charts.template import colours, figure, legend_below

ROW = 34  # px for one name on the upright axis
LEAST = 150  # px of a plot with few rows
MARKS = ("circle", "diamond-open", "square-open", "x-thin-open")  # told apart without colour


@dataclass(frozen=True, slots=True)
class Dot:
    """One figure in per cent with its standard error; `error` 0 where there is none."""

    name: str  # of the row
    value: float
    error: float
    said: str  # in words, for whoever points at it


@dataclass(frozen=True, slots=True)
class Series:
    """Dots of one method, in the order of the rows."""

    name: str
    dots: tuple[Dot, ...]


def errors_figure(series: Sequence[Series], *, title: str, dark: bool = False) -> go.Figure:
    """Draw errors, a row a kind or method, a mark a series; the bar is one standard error to each side."""
    tone, made = colours(dark=dark), figure(dark=dark)
    inks = (tone.estimate, tone.tested, tone.formula, tone.hindsight)
    for one, ink, mark in zip(series, inks, MARKS, strict=False):
        made.add_scatter(**_dots(one, ink, mark))
    made.update_xaxes(title_text=title, rangemode="tozero")
    return _rows(made, series)


def held_figure(series: Series, *, wanted: tuple[float, float], dark: bool = False) -> go.Figure:
    """Draw how often the 80 % band held, a row a kind, over the range that is wanted."""
    tone, made = colours(dark=dark), figure(dark=dark)
    made.add_vrect(x0=wanted[0], x1=wanted[1], fillcolor=tone.shade, line_width=0, layer="below")
    made.add_vline(x=80, line={"color": tone.set, "width": 2, "dash": "dash"})
    made.add_scatter(**_dots(series, tone.estimate, MARKS[0]))
    made.update_xaxes(title_text="truths within the 80 % band, %", range=[45, 101])
    return _rows(made, [series])


def calibration_figure(dots: Sequence[tuple[float, Dot]], *, across: str, up: str, dark: bool = False) -> go.Figure:
    """Draw what happened over what was said, both in per cent; on the dashed line both are the same."""
    tone, made = colours(dark=dark), figure(dark=dark)
    made.add_scatter(
        x=[0, 100], y=[0, 100], mode="lines", name="as said", hoverinfo="skip",
        line={"color": tone.set, "width": 2, "dash": "dash"},
    )  # fmt: skip
    made.add_scatter(
        x=[said for said, _ in dots], y=[dot.value for _, dot in dots], mode="lines+markers", name="as found",
        line={"color": tone.estimate, "width": 3}, marker={"size": 9}, **_bars("y", [dot for _, dot in dots], tone.estimate),
    )  # fmt: skip
    made.update_xaxes(title_text=across, range=[0, 102])
    made.update_yaxes(title_text=up, range=[0, 102])
    return legend_below(made)


def _dots(series: Series, ink: str, mark: str) -> dict[str, Any]:
    return {
        "x": [dot.value for dot in series.dots],
        "y": [dot.name for dot in series.dots],
        "mode": "markers",
        "name": series.name,
        "marker": {"color": ink, "symbol": mark, "size": 11, "line": {"color": ink, "width": 2}},
        **_bars("x", series.dots, ink),
    }


def _bars(axis: str, dots: Sequence[Dot], ink: str) -> dict[str, Any]:
    return {
        f"error_{axis}": {
            "type": "data",
            "array": [dot.error for dot in dots],
            "color": ink,
            "thickness": 2,
            "width": 5,
        },
        "customdata": [dot.said for dot in dots],
        "hovertemplate": "%{customdata}<extra></extra>",
    }


def _rows(made: go.Figure, series: Sequence[Series]) -> go.Figure:
    names = list(dict.fromkeys(dot.name for one in series for dot in one.dots))
    made.update_yaxes(categoryorder="array", categoryarray=names[::-1], tickfont={"size": 13})
    return legend_below(made, plot=max(LEAST, ROW * len(names)))
