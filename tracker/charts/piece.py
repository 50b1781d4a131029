"""The results of a conditioning piece over time: the same version joined, others apart and open, a lost count as its range."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil, floor
from typing import Any

import plotly.graph_objects as go

from tracker.charts.template import Colours, colours, figure, legend_below
from tracker.charts.words import day_words
from tracker.wording import counted

STEPS_S = (5, 10, 15, 30, 60, 120, 300, 600, 1800, 3600)  # between two marks of a time axis
MOST_MARKS = 6  # of a time axis
PLOT = 260  # px
LIKE, UNLIKE, CAPPED, USUAL = "same version", "another version", "ran into the cap", "usual variation"
JOINED = "the same version, joined"
LOST, LOST_UNLIKE = "count lost", "count lost, another version"


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
    """Draw the results of one piece; a line joins those of the same version, from day to day.

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
    known = [mark for mark in marks if mark.low == mark.high and not mark.beyond]
    lost = [mark for mark in marks if mark.low < mark.high]
    down = "triangle-down" if less_is_better else "triangle-up"
    _joined(made, [mark for mark in marks if mark.like], tone.estimate)
    _results(made, [mark for mark in known if mark.like], LIKE, "circle", tone.estimate)
    _results(made, [mark for mark in known if not mark.like], UNLIKE, "diamond-open", tone.set)
    _results(made, [mark for mark in marks if mark.beyond], CAPPED, down, tone.tested)
    _ranges(made, [mark for mark in lost if mark.like], LOST, tone.estimate)
    _ranges(made, [mark for mark in lost if not mark.like], LOST_UNLIKE, tone.set)
    _axes(made, marks, quantity, unit, less_is_better)
    return legend_below(made, plot=PLOT)


def _joined(made: go.Figure, marks: Sequence[ResultMark], colour: str) -> None:
    """A line through what can be compared, behind its marks: a lost count in its middle, a cap where it cut off."""
    if len(marks) < 2:
        return
    order = sorted(marks, key=lambda mark: mark.day)
    made.add_scatter(
        x=[mark.day for mark in order], y=[(mark.low + mark.high) / 2 for mark in order], mode="lines", hoverinfo="skip",
        line={"color": colour, "width": 2}, showlegend=False, name=JOINED, cliponaxis=False,
    )  # fmt: skip


def _results(made: go.Figure, marks: Sequence[ResultMark], name: str, symbol: str, colour: str) -> None:
    if not marks:
        return
    made.add_scatter(
        x=[mark.day for mark in marks],
        y=[mark.low for mark in marks],
        mode="markers+text",
        marker={"symbol": symbol, "size": 12, "color": colour, "line": {"width": 2, "color": colour}},
        text=[mark.best for mark in marks],
        textposition="top center",
        textfont={"color": colour, "size": 14},
        name=name,
        customdata=[_hover(mark) for mark in marks],
        hovertemplate="%{customdata}<extra></extra>",
        cliponaxis=False,
    )


def _ranges(made: go.Figure, marks: Sequence[ResultMark], name: str, colour: str) -> None:
    """A lost count is drawn from end to end, with no point in it that would be a guess."""
    if not marks:
        return
    three = [(mark, end) for mark in marks for end in (mark.low, mark.high, None)]
    made.add_scatter(
        x=[mark.day for mark, _ in three],
        y=[end for _, end in three],
        mode="lines+markers+text",
        connectgaps=False,
        line={"color": colour, "width": 4},
        marker={"symbol": "line-ew", "size": 12, "line": {"width": 4, "color": colour}},
        text=[mark.best if end == mark.high else "" for mark, end in three],
        textposition="top center",
        textfont={"color": colour, "size": 14},
        name=name,
        customdata=[_hover(mark) for mark, _ in three],
        hovertemplate="%{customdata}<extra></extra>",
        cliponaxis=False,
    )


def _hover(mark: ResultMark) -> str:
    return f"<b>{day_words(mark.day)}</b><br>{mark.words}"


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
        name=USUAL,
    )


def _axes(made: go.Figure, marks: Sequence[ResultMark], quantity: str, unit: str, less_is_better: bool) -> None:
    told = unit and unit not in (quantity, "reps" if quantity == "repetitions" else "")  # not twice the same word
    named = f"{quantity}, {'min:s' if unit == 's' else unit}" if told else quantity
    axis: dict[str, Any] = {"title_text": f"{named}; faster is higher" if less_is_better else named}
    if unit == "s" and marks:
        values = _seconds(min(mark.low for mark in marks), max(mark.high for mark in marks))
        axis |= {"tickmode": "array", "tickvals": values, "ticktext": [_clock(each) for each in values]}
    if less_is_better:
        axis["autorange"] = "reversed"
    made.update_yaxes(**axis)
    days = sorted(mark.day for mark in marks)
    if days and (days[-1] - days[0]).days < 14:  # few days: each is named, none gets hours
        made.update_xaxes(tickmode="array", tickvals=days)
    made.update_xaxes(title_text="", type="date", hoverformat="%-d %b %Y", tickformat="%-d %b\n%Y", nticks=5)


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
        f"{title}: {counted(like, 'result')} of the same version and {len(marks) - like} of another; "
        f"the newest, {day_words(newest.day)}: {newest.words}."
    )
