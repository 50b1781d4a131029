"""One picture of weeks: a bar a week over the range that is usual, with what is planned; a week without an entry is marked as such."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import plotly.graph_objects as go

from tracker.charts.records import WeekBar
from tracker.charts.template import Colours, colours, figure, legend_below
from tracker.charts.words import day_words

WEEK_MS = 7 * 86_400_000
WIDE = WEEK_MS * 0.74
USUAL, AT_LEAST, PLANNED, SILENT = "usual range", "not all rated", "planned", "nothing logged"
PLOT = 230  # px
LABELS = 4  # weeks named below the axis, at most: as many as fit side by side on the narrowest phone


def weeks_figure(
    weeks: Sequence[WeekBar],
    *,
    quantity: str,
    unit: str,
    usual: tuple[float, float] | None = None,
    dark: bool = False,
) -> go.Figure:
    """Draw one bar a week.

    Args:
        weeks: The weeks, oldest first, each with its Monday and its sum.
        quantity: What is summed, as the axis names it ("load", "moved").
        unit: Its unit ("t", "sets", "a.u.").
        usual: From where to where it usually is; none where that is not known.
        dark: Whether the page is dark.
    """
    tone = colours(dark=dark)
    made = figure(dark=dark)
    if usual:
        _usual(made, usual, tone)
    _bars(made, [week for week in weeks if not week.silent and not week.at_least], quantity, unit, "", tone)
    _bars(made, [week for week in weeks if not week.silent and week.at_least], AT_LEAST, unit, "/", tone)
    _planned(made, [week for week in weeks if week.planned > 0], unit, tone)
    _silent(made, [week for week in weeks if week.silent], tone)
    made.update_layout(barmode="overlay", bargap=0)
    named = list(weeks)[:: -max(1, -(-len(weeks) // LABELS))][::-1]  # the last one always
    made.update_xaxes(
        title_text="week of", type="date", tickmode="array", tickvals=[middle_of(week) for week in named],
        ticktext=[f"{week.monday.day} {week.monday:%b}" for week in named],
    )  # fmt: skip
    made.update_xaxes(ticklabeloverflow="allow")
    made.update_yaxes(
        title_text=f"{quantity}, {unit}", range=(0, _top(weeks, usual)), tickformat=",", nticks=5,
    )  # fmt: skip
    made.update_layout(margin={"r": 18})  # the last week's name is wider than its bar
    return legend_below(made, plot=PLOT)


def _top(weeks: Sequence[WeekBar], usual: tuple[float, float] | None) -> float:
    """Where the axis ends: some air above the highest bar and above what is usual."""
    return 1.12 * max([1.0, *(each.amount + each.planned for each in weeks), *(usual or ())])


def middle_of(week: WeekBar) -> date:
    """Return the day under which a week's bar stands."""
    return week.monday + timedelta(days=3)


def _told(week: WeekBar, words: str) -> str:
    return f"<b>week of {day_words(week.monday)}</b><br>{words}"


def _usual(made: go.Figure, usual: tuple[float, float], tone: Colours) -> None:
    low, high = usual
    made.add_hrect(y0=low, y1=high, fillcolor=tone.band, line_width=0, layer="below")
    made.add_scatter(  # what names it below; the area itself runs from edge to edge
        x=[None], y=[None], mode="markers", marker={"symbol": "square", "size": 16, "color": tone.band}, name=USUAL
    )  # fmt: skip


def _bars(made: go.Figure, weeks: Sequence[WeekBar], name: str, unit: str, pattern: str, tone: Colours) -> None:
    if not weeks:
        return
    made.add_bar(
        x=[middle_of(week) for week in weeks],
        y=[week.amount for week in weeks],
        width=WIDE,
        marker={
            "color": tone.estimate,
            "line": {"width": 0},
            "pattern": {"shape": pattern, "fgcolor": tone.estimate, "solidity": 0.55},
        },
        customdata=[_told(week, week.words or f"{week.amount:g} {unit}") for week in weeks],
        hovertemplate="%{customdata}<extra></extra>",
        name=name,
        showlegend=bool(pattern),
    )


def _planned(made: go.Figure, weeks: Sequence[WeekBar], unit: str, tone: Colours) -> None:
    """What may still come, an empty frame upon what is done."""
    if not weeks:
        return
    made.add_bar(
        x=[middle_of(week) for week in weeks], y=[week.planned for week in weeks], base=[week.amount for week in weeks],
        width=WIDE, marker={"color": "rgba(0,0,0,0)", "line": {"width": 2, "color": tone.estimate}}, name=PLANNED,
        customdata=[_told(week, f"planned: about {week.planned:,.0f} {unit} more") for week in weeks],
        hovertemplate="%{customdata}<extra></extra>",
    )  # fmt: skip


def _silent(made: go.Figure, weeks: Sequence[WeekBar], tone: Colours) -> None:
    if not weeks:
        return
    made.add_scatter(
        x=[middle_of(week) for week in weeks], y=[0] * len(weeks), mode="text", text=["?"] * len(weeks), textposition="top center",
        textfont={"size": 18, "color": tone.set}, customdata=[_told(week, SILENT) for week in weeks],
        hovertemplate="%{customdata}<extra></extra>", name=f"? {SILENT}", showlegend=False,
    )  # fmt: skip
