"""A goal in a figure of a trend: a line at its load, and a mark on its day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial
from typing import Any

import plotly.graph_objects as go

from tracker.charts.template import colours
from tracker.charts.words import day_words, estimated
from tracker.units import Unit

ROOM = 0.06  # of what is drawn: free above a goal and beyond its day


@dataclass(frozen=True, slots=True)
class GoalMark:
    """A goal: its load, and the day by which, or on which it was reached; none where no day was set."""

    load: float
    day: date | None
    reached: bool = False

    @property
    def words(self) -> str:
        """Name it, with its day."""
        if self.reached:
            return f"goal, reached {day_words(self.day)}" if self.day else "goal, reached"
        return f"goal, by {day_words(self.day)}" if self.day else "goal, some day"


def with_goals(
    made: go.Figure, goals: Sequence[GoalMark], *, unit: Unit, body: bool = False, dark: bool = False
) -> go.Figure:
    """Add goals to a trend's figure, whose axes grow as they must.

    Args:
        made: The figure of the trend, with its fan.
        goals: Goals of the nRM that it shows, in its unit.
        unit: The unit of every load.
        body: Whether loads are added to the body.
        dark: Whether the page is dark.
    """
    layout: Any = made.layout
    if not goals or not layout.xaxis.range or not layout.yaxis.range:
        return made
    tone, said = colours(dark=dark), partial(estimated, unit=unit, body=body)
    first, last = layout.xaxis.range
    days = [each.day for each in goals if each.day]
    end = max([last, *(day + timedelta(days=max(1, round((day - first).days * ROOM))) for day in days)])
    least, most = layout.yaxis.range
    loads = [each.load for each in goals]
    room = ROOM * (max(most, *loads) - min(least, *loads))
    made.update_xaxes(range=[first, end])
    made.update_yaxes(range=[min(least, min(loads) - room), max(most, max(loads) + room)])
    for each in goals:
        at = each.day or end
        made.add_trace(
            {
                "type": "scatter", "x": [first, at], "y": [each.load, each.load], "mode": "lines+markers", "name": "goal",
                "showlegend": each is goals[0], "line": {"dash": "longdashdot", "width": 2, "color": tone.declared},
                "marker": {
                    "symbol": ["line-ew", "star" if each.reached else "star-open"], "size": [1, 15],
                    "color": tone.declared, "line": {"width": 2, "color": tone.declared},
                },
                "customdata": [f"<b>{each.words}</b><br>{said(each.load)}"] * 2,
                "hovertemplate": "%{customdata}<extra></extra>", "cliponaxis": False,
            }
        )  # fmt: skip
    return made


def goal_sentence(goals: Sequence[GoalMark], *, unit: Unit, body: bool = False) -> str:
    """Say the goals of a figure, for those who hear it."""
    return "".join(
        f" {each.words[:1].upper()}{each.words[1:]}: {estimated(each.load, unit, body=body)}." for each in goals
    )
