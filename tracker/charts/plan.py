"""The weeks of a plan in one picture: above what is asked, below how many hard sets; the week of a test is marked."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import plotly.graph_objects as go

from tracker.charts.template import Colours, colours, figure, legend_below
from tracker.wording import counted

PLOT = 280  # px
ABOVE, BELOW = (0.42, 1.0), (0.0, 0.3)  # of the height: percentages, sets
NAMED = 8  # weeks named below the axis, at most: as many as fit on the narrowest phone
TEST, HARD, ASKED = "test", "hard sets", "asked, %"


@dataclass(frozen=True, slots=True)
class PlanBar:
    """One week: the lowest and the highest percentage asked, its hard sets, and whether a test is in it.

    `words` say how likely the week is.
    """

    number: int
    low: float | None
    high: float | None
    hard: int
    test: bool = False
    words: str = ""


def plan_figure(weeks: Sequence[PlanBar], *, dark: bool = False) -> go.Figure:
    """Draw the weeks of a plan, oldest first."""
    tone, made = colours(dark=dark), figure(dark=dark)
    _asked(made, [week for week in weeks if week.high is not None], tone)
    made.add_bar(
        x=[week.number for week in weeks], y=[week.hard for week in weeks], yaxis="y2", name=HARD, width=0.7,
        marker={"color": tone.estimate, "line": {"width": 0}}, customdata=[_told(week) for week in weeks],
        hovertemplate="%{customdata}<extra></extra>",
    )  # fmt: skip
    tests = [week for week in weeks if week.test]
    if tests:
        top = max((week.high or 0 for week in weeks), default=0) or 100
        made.add_scatter(
            x=[week.number for week in tests], y=[top] * len(tests), mode="markers+text", text=[TEST] * len(tests), name=TEST,
            textposition="bottom center", marker={"symbol": "diamond", "size": 11, "color": tone.tested}, showlegend=False,
            customdata=[_told(week) for week in tests], hovertemplate="%{customdata}<extra></extra>", cliponaxis=False,
        )  # fmt: skip
    each = max(1, -(-len(weeks) // NAMED))
    made.update_layout(
        yaxis={"domain": ABOVE, "title": {"text": "% of the max"}, "nticks": 5},
        yaxis2={"domain": BELOW, "title": {"text": HARD}, "nticks": 3, "rangemode": "tozero", "anchor": "x", "fixedrange": True},
    )  # fmt: skip
    made.update_xaxes(
        title_text="week", tickmode="array", tickvals=[week.number for week in weeks][::-each][::-1], anchor="y2",
        range=[0.4, (weeks[-1].number if weeks else 1) + 0.6],
    )  # fmt: skip
    return legend_below(made, plot=PLOT)


def _asked(made: go.Figure, weeks: Sequence[PlanBar], tone: Colours) -> None:
    """Draw what is asked: a line through the highest, and down to the lowest where a week has several."""
    made.add_scatter(
        x=[week.number for week in weeks], y=[week.high for week in weeks], mode="lines+markers", name=ASKED,
        line={"color": tone.hindsight, "width": 3}, marker={"size": 8}, customdata=[_told(week) for week in weeks],
        error_y={
            "type": "data", "symmetric": False, "array": [0] * len(weeks), "width": 0, "thickness": 2, "color": tone.hindsight,
            "arrayminus": [(week.high or 0) - (week.low or 0) for week in weeks],
        },
        hovertemplate="%{customdata}<extra></extra>",
    )  # fmt: skip


def _told(week: PlanBar) -> str:
    asked = "" if week.high is None else f"<br>{_span(week)} % asked"
    return f"<b>week {week.number}</b>{asked}<br>{counted(week.hard, 'hard set')}{f'<br>{week.words}' if week.words else ''}"


def _span(week: PlanBar) -> str:
    return f"{week.high:g}" if week.low == week.high else f"{week.low:g} to {week.high:g}"


def plan_words(weeks: Sequence[PlanBar]) -> str:
    """Say in one sentence what the picture shows, for those who hear it."""
    asked = [week for week in weeks if week.high is not None]
    if not asked:
        return f"{counted(len(weeks), 'week')}."
    hard = max(weeks, key=lambda week: week.hard)
    test = " The last has a test." if weeks[-1].test else ""
    return f"{counted(len(weeks), 'week')} from {_span(asked[0])} to {_span(asked[-1])} %; most hard sets in week {hard.number}: {hard.hard}.{test}"
