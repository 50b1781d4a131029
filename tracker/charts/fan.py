"""The weeks to come in a figure of a trend: a fan beyond today, dashed, so that nobody takes it for what was."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from functools import partial
from typing import Any

import plotly.graph_objects as go

from tracker.charts.labels import FREE
from tracker.charts.records import BandPoint
from tracker.charts.template import colours
from tracker.charts.words import between, day_words, estimated
from tracker.units import Unit

EDGE = 0.03  # of the time drawn: free on the right, so that the last point is not cut


def with_fan(
    made: go.Figure, fan: Sequence[BandPoint], *, unit: Unit, body: bool = False, reps: int = 1, dark: bool = False
) -> go.Figure:
    """Add what is believed today of the weeks to come to a trend's figure, whose axes grow as they must.

    Args:
        made: The figure of the trend.
        fan: Today and the weeks to come, oldest first; empty where nothing is foretold.
        unit: The unit of every load.
        body: Whether loads are added to the body.
        reps: Which nRM it is.
        dark: Whether the page is dark.
    """
    if not fan:
        return made
    tone, said = colours(dark=dark), partial(estimated, unit=unit, body=body)
    days = [point.day for point in fan]
    edge = {"dash": "dot", "color": tone.estimate}
    made.add_traces(
        [
            {
                "type": "scatter", "x": [*days, *reversed(days)],
                "y": [*(point.high for point in fan), *(point.low for point in reversed(fan))], "fill": "toself",
                "fillcolor": tone.band, "line": {**edge, "width": 1}, "mode": "lines", "hoverinfo": "skip",
                "name": "weeks ahead, 80 %", "showlegend": False,
            },
            {
                "type": "scatter", "x": days, "y": [point.estimate for point in fan], "mode": "lines+markers",
                "name": "weeks ahead", "showlegend": False, "line": {**edge, "width": 2},
                "marker": {"size": 4, "symbol": "circle-open"},
                "customdata": [_told(point, fan[0], reps, said) for point in fan],
                "hovertemplate": "%{customdata}<extra></extra>",
            },
        ]
    )  # fmt: skip
    _grow(made, fan)
    return made


def _told(point: BandPoint, first: BandPoint, reps: int, said: partial[str]) -> str:
    when = "today" if point is first else f"{day_words(point.day)}, foretold"
    return (
        f"<b>{when}</b><br>{reps}RM about {said(point.estimate)}<br>80 % sure: {between(point.low, point.high, said)}"
    )


def _grow(made: go.Figure, fan: Sequence[BandPoint]) -> None:
    layout: Any = made.layout
    first = layout.xaxis.range[0] if layout.xaxis.range else fan[0].day
    room = timedelta(days=max(1, round((fan[-1].day - first).days * EDGE)))
    layout.xaxis.range = [first, fan[-1].day + room]
    least, most = layout.yaxis.range or (fan[0].low, fan[0].high)
    low, high = min(point.low for point in fan), max(point.high for point in fan)
    free = (max(high, most) - min(low, least)) * FREE / 2
    layout.yaxis.range = [min(least, low - free), max(most, high + free)]


def fan_words(fan: Sequence[BandPoint], *, unit: Unit, body: bool = False) -> str:
    """Say in one sentence what the fan shows, for those who hear the figure; empty where there is none."""
    if not fan:
        return ""
    said, last = partial(estimated, unit=unit, body=body), fan[-1]
    return (
        f" Foretold for {day_words(last.day)}: about {said(last.estimate)}, "
        f"80 % sure between {between(last.low, last.high, said, 'and')}."
    )
