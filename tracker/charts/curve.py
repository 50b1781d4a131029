"""The repetition curve: the most load for 1 to 12 repetitions, a member's own beside a common chart."""

from __future__ import annotations

from collections.abc import Sequence

import plotly.graph_objects as go

from tracker.charts.records import CurvePoint
from tracker.charts.template import Colours, colours, estimates, figure, legend_below
from tracker.charts.words import axis_unit, estimated, typed
from tracker.units import Unit
from tracker.wording import counted


def curve_figure(points: Sequence[CurvePoint], *, unit: Unit, body: bool = False, dark: bool = False) -> go.Figure:
    """Draw a member's nRM for each n with its 80 % band, the common chart dashed, and the best load done as marks."""
    tone = colours(dark=dark)
    made = figure(dark=dark)
    ordered = sorted(points, key=lambda point: point.reps)
    _own(made, ordered, unit, body, tone)
    _population(made, ordered, unit, tone)
    _done(made, ordered, unit, body, tone)
    made.update_xaxes(title_text="repetitions", dtick=1, tickfont={"size": 13})
    made.update_yaxes(title_text=f"most load, {axis_unit(unit, body=body)}")
    return legend_below(made)


def _own(made: go.Figure, points: Sequence[CurvePoint], unit: Unit, body: bool, tone: Colours) -> None:
    told = [
        f"<b>{point.reps}RM</b> about {estimated(point.estimate, unit, body=body)}<br>"
        f"80 % sure: {estimated(point.low, unit, body=body)} to {estimated(point.high, unit, body=body)}"
        for point in points
    ]
    estimates(made, [point.reps for point in points], points, told, tone, name="own", size=7)


def _population(made: go.Figure, points: Sequence[CurvePoint], unit: Unit, tone: Colours) -> None:
    known = [(point.reps, point.population) for point in points if point.population is not None]
    if known:
        made.add_scatter(
            x=[reps for reps, _ in known],
            y=[load for _, load in known],
            mode="lines",
            line={"color": tone.hindsight, "width": 3, "dash": "dash"},
            name="common chart",
            customdata=[
                f"<b>{counted(reps, 'repetition')}</b><br>common chart: {estimated(load, unit)}" for reps, load in known
            ],
            hovertemplate="%{customdata}<extra></extra>",
        )


def _done(made: go.Figure, points: Sequence[CurvePoint], unit: Unit, body: bool, tone: Colours) -> None:
    known = [(point.reps, point.done) for point in points if point.done is not None]
    if known:
        made.add_scatter(
            x=[reps for reps, _ in known],
            y=[load for _, load in known],
            mode="markers",
            marker={"symbol": "diamond", "size": 10, "color": tone.tested},
            name="done",
            customdata=[
                f"<b>{counted(reps, 'repetition')}</b><br>done with {typed(load, unit, body=body)}"
                for reps, load in known
            ],
            hovertemplate="%{customdata}<extra></extra>",
        )
