"""Load by week: one bar a week, weeks without training left as gaps that can be seen."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta

import plotly.graph_objects as go

from tracker.charts.records import WeekBar
from tracker.charts.template import colours, figure, legend_below
from tracker.charts.words import day_words

WEEK_MS = 7 * 86_400_000


def weeks_figure(weeks: Sequence[WeekBar], *, quantity: str, unit: str, dark: bool = False) -> go.Figure:
    """Draw one bar a week.

    Args:
        weeks: The weeks, each with its Monday and its sum.
        quantity: What is summed, as the axis names it ("moved in a week").
        unit: Its unit ("t", "sets", "min x rating").
        dark: Whether the page is dark.
    """
    tone = colours(dark=dark)
    made = figure(dark=dark)
    made.add_bar(
        x=[week.monday + timedelta(days=3) for week in weeks],
        y=[week.amount for week in weeks],
        width=WEEK_MS * 0.8,
        marker={
            "color": tone.estimate,
            "line": {"width": 0},
            "pattern": {
                "shape": ["/" if week.at_least else "" for week in weeks],
                "fgcolor": tone.estimate,
                "solidity": 0.55,
            },
        },
        customdata=[
            f"<b>week of {day_words(week.monday)}</b><br>{week.words or f'{week.amount:g} {unit}'}" for week in weeks
        ],
        hovertemplate="%{customdata}<extra></extra>",
        name=quantity,
        showlegend=False,
    )
    made.update_xaxes(title_text="week", type="date", tickformat="%-d %b\n%Y", nticks=5)
    made.update_yaxes(title_text=f"{quantity}, {unit}", rangemode="tozero", tickformat=",")
    return legend_below(made, plot=240)
