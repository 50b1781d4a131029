"""Planned and done, foretold and found, week by week in one picture: frames, bars, and two marks that tell by their shape."""

from __future__ import annotations

from collections.abc import Sequence

import plotly.graph_objects as go

from tracker.charts.records import WeekBar
from tracker.charts.template import colours, legend_below
from tracker.charts.weeks import PLOT, middle_of, weeks_figure

FORETOLD, FOUND = "foretold made", "found made"


def plan_done_figure(
    weeks: Sequence[WeekBar], foretold: Sequence[float | None], made: Sequence[int | None], *, dark: bool = False
) -> go.Figure:
    """Draw sets done in the frame of sets planned; over them how many were foretold to be made, and were made.

    Args:
        weeks: The weeks, oldest first; `amount` is done, `planned` what was left.
        foretold: For each week how many of the done sets were to be made; None where nothing was foretold.
        made: For each week how many of those were.
        dark: Whether the page is dark.
    """
    tone = colours(dark=dark)
    figure = weeks_figure(weeks, quantity="sets", unit="a week", dark=dark)
    days = [middle_of(week) for week in weeks]
    for name, values, symbol, colour in (
        (FORETOLD, foretold, "diamond-open", tone.hindsight),
        (FOUND, made, "circle", tone.tested),
    ):
        figure.add_scatter(
            x=days, y=list(values), mode="markers", name=name, marker={"symbol": symbol, "size": 11, "color": colour, "line": {"width": 2}},
            hovertemplate=f"%{{y:.1f}} {name}<extra></extra>",
        )  # fmt: skip
    return legend_below(figure, plot=PLOT)
