"""The results of a conditioning piece over time: like ones filled, unlike ones open, a lost count as the range that it is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, floor
from typing import Any

import plotly.graph_objects as go

from tracker.charts.template import Colours, colours, figure, legend_below
from tracker.charts.words import day_words

STEPS_S = (5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600)  # between two marks of a time axis
MOST_MARKS = 6  # of a time axis


@dataclass(frozen=True, slots=True)
class ResultMark:
    """One result, from `low` to `high` where the count was lost; `beyond`: the cap came first, so it is more than that."""

    day: date
    low: float
    high: float
    like: bool
    words: str
    beyond: bool = False
    best: str = ""

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Usual:
    """What results vary by from test to test, around the one of `day`: drawn from there to `until`."""

    day: date
    until: date
    low: float
    high: float


def piece_figure(
    marks: Sequence[ResultMark],
    *,
    quantity: str,
    unit: str,
    less_is_better: bool = False,
    usual: Usual | None = None,
    dark: bool = False,
) -> go.Figure:
    """Draw the results of one piece; no line joins them, for there is no trend to be seen in so few.

    Args:
        marks: The results.
        quantity: What they are, as the axis names it ("repetitions", "time").
        unit: Its unit; `s` is written as minutes and seconds.
        less_is_better: Whether the axis runs downwards, so that better is higher.
        usual: The variation to be expected around the like result before the newest.
        dark: Whether the page is dark.
    """
    tone = colours(dark=dark)
    made = figure(dark=dark)
    if usual:
        _usual(made, usual, tone)
    kinds = (
        ("like with like", "circle", tone.estimate, [mark for mark in marks if mark.like and not mark.beyond]),
        ("unlike: not compared", "diamond-open", tone.set, [mark for mark in marks if not mark.like and not mark.beyond]),
        ("ran into the cap", "triangle-down" if less_is_better else "triangle-up", tone.tested, [mark for mark in marks if mark.beyond]),
    )  # fmt: skip
    for name, symbol, colour, these in kinds:
        if these:
            _results(made, these, name, symbol, colour)
    _axes(made, marks, quantity, unit, less_is_better)
    return legend_below(made)


def _results(made: go.Figure, marks: Sequence[ResultMark], name: str, symbol: str, colour: str) -> None:
    lost = any(mark.low != mark.high for mark in marks)
    made.add_scatter(
        x=[mark.day for mark in marks],
        y=[mark.middle for mark in marks],
        mode="markers+text",
        marker={"symbol": symbol, "size": 12, "color": colour, "line": {"width": 2, "color": colour}},
        error_y={
            "type": "data",
            "array": [mark.high - mark.middle if mark.low < mark.high else None for mark in marks],
            "arrayminus": [mark.middle - mark.low if mark.low < mark.high else None for mark in marks],
            "color": colour,
            "thickness": 4,
            "width": 8,
            "visible": lost,
        },
        text=[mark.best for mark in marks],
        textposition="top center",
        textfont={"color": colour, "size": 14},
        name=name,
        customdata=[f"<b>{day_words(mark.day)}</b><br>{mark.words}" for mark in marks],
        hovertemplate="%{customdata}<extra></extra>",
        cliponaxis=False,
    )


def _usual(made: go.Figure, usual: Usual, tone: Colours) -> None:
    edge = timedelta(days=max(3, (usual.until - usual.day).days // 20))
    days = [usual.day, usual.until + edge]
    made.add_scatter(
        x=[*days, *reversed(days)],
        y=[usual.high, usual.high, usual.low, usual.low],
        fill="toself",
        fillcolor=tone.band,
        line={"width": 0},
        mode="lines",
        hoverinfo="skip",
        name="varies by as much by itself",
    )


def _axes(made: go.Figure, marks: Sequence[ResultMark], quantity: str, unit: str, less_is_better: bool) -> None:
    named = f"{quantity}, {'min:s' if unit == 's' else unit}" if unit and unit != quantity else quantity
    axis: dict[str, Any] = {"title_text": f"{named}; faster is higher" if less_is_better else named}
    if unit == "s" and marks:
        values = _seconds(min(mark.low for mark in marks), max(mark.high for mark in marks))
        axis |= {"tickmode": "array", "tickvals": values, "ticktext": [_clock(each) for each in values]}
    if less_is_better:
        axis["autorange"] = "reversed"
    made.update_yaxes(**axis)
    days = sorted(mark.day for mark in marks)
    if days and (days[-1] - days[0]).days < 14:  # few days: each is named, none gets hours
        made.update_xaxes(tickmode="array", tickvals=days, tickformat="%-d %b %Y")
    made.update_xaxes(title_text="day", hoverformat="%-d %b %Y")


def _seconds(low: float, high: float) -> list[int]:
    """Round marks for a time axis, a few, around all results."""
    span = max(high - low, 1)
    step = next((each for each in STEPS_S if span / each <= MOST_MARKS - 2), STEPS_S[-1])
    return [each * step for each in range(floor(low / step), ceil(high / step) + 1)]


def _clock(seconds: int) -> str:
    return f"{seconds // 60}:{seconds % 60:02d}"


def piece_words(marks: Sequence[ResultMark], *, title: str) -> str:
    """Say in one sentence what the figure shows, for those who hear it."""
    if not marks:
        return f"{title}: no result yet."
    newest = max(marks, key=lambda mark: mark.day)
    like = sum(mark.like for mark in marks)
    return (
        f"{title}: {like} like result{'' if like == 1 else 's'} and {len(marks) - like} unlike; "
        f"the newest, {day_words(newest.day)}: {newest.words}."
    )
