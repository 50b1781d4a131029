"""One look for all figures: the colours of the theme, light and dark, made for a phone held at arm's length.

No figure speaks by colour alone: line style, mark or text says the same, so that it can be read with any kind of colour
vision and in grey. The main hues (teal, orange, violet) also differ in lightness.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import plotly.graph_objects as go

from tracker.charts.records import BandPoint, CurvePoint

CONFIG: dict[str, Any] = {"displayModeBar": False, "responsive": True, "scrollZoom": False, "doubleClick": False}
HEIGHT = 380  # px: leaves the sentence above it on the screen of a phone
ROW_HEIGHT = 22  # px for one row of the legend
AXIS_ROOM = 66  # px for the ticks of the day axis and its title
LEGEND: dict[str, Any] = {  # two columns, on the narrowest phone too; nothing happens by touching it
    "orientation": "h",
    "entrywidth": 98,  # px: two columns of at most 14 letters on a phone of 320 px
    "xref": "container",
    "itemwidth": 30,
    "font": {"size": 12.5},
    "x": 0,
    "itemclick": False,
    "itemdoubleclick": False,
}
FONT = "system-ui, -apple-system, 'Segoe UI', Roboto, 'Noto Sans', sans-serif"


@dataclass(frozen=True, slots=True)
class Colours:
    """The colours of one look, named after what they mean."""

    text: str
    faint: str  # grid and axes
    back: str  # behind the text of a hover
    estimate: str
    band: str
    hindsight: str
    tested: str
    declared: str
    set: str
    formula: str
    shade: str  # lay-offs


LIGHT = Colours(
    text="#1a2226",
    faint="#cfc9bb",
    back="#fbfaf6",
    estimate="#0b6472",
    band="rgba(11, 100, 114, 0.18)",
    hindsight="#6d4c8f",
    tested="#a84e08",
    declared="#7a5b00",
    set="#5d666b",
    formula="#3a6b1f",
    shade="rgba(93, 102, 107, 0.13)",
)
DARK = Colours(
    text="#eeebe3",
    faint="#3c474c",
    back="#12171a",
    estimate="#5fbccb",
    band="rgba(95, 188, 203, 0.24)",
    hindsight="#b9a0da",
    tested="#f0a45b",
    declared="#e6cb6a",
    set="#a9b2b6",
    formula="#9ccf7a",
    shade="rgba(169, 178, 182, 0.14)",
)


def colours(*, dark: bool) -> Colours:
    """Return the colours for a light or a dark page."""
    return DARK if dark else LIGHT


@cache
def template(*, dark: bool) -> go.layout.Template:
    """Return the plotly template: no paper of its own, large type, quiet grid, legend below, no dragging on a phone."""
    tone = colours(dark=dark)
    axis = {
        "gridcolor": tone.faint,
        "linecolor": tone.faint,
        "zeroline": False,
        "automargin": True,
        "fixedrange": True,
        "ticks": "outside",
        "tickcolor": tone.faint,
        "title": {"font": {"size": 15}, "standoff": 8},
    }
    return go.layout.Template(
        layout={
            "font": {"family": FONT, "size": 15, "color": tone.text},
            "paper_bgcolor": "rgba(0,0,0,0)",
            "plot_bgcolor": "rgba(0,0,0,0)",
            "colorway": [tone.estimate, tone.tested, tone.formula, tone.hindsight, tone.declared, tone.set],
            "xaxis": axis,
            "yaxis": axis,
            "margin": {"l": 8, "r": 8, "t": 12, "b": 8},
            "legend": LEGEND,
            "hoverlabel": {
                "font": {"size": 15, "family": FONT, "color": tone.text},
                "align": "left",
                "bgcolor": tone.back,
                "bordercolor": tone.faint,
            },
            "hovermode": "closest",
            "hoverdistance": 40,
            "dragmode": False,
        }
    )


def figure(*, dark: bool, height: int = HEIGHT) -> go.Figure:
    """Return an empty figure in the look of the project."""
    made = go.Figure()
    made.update_layout(template=template(dark=dark), height=height)
    return made


def legend_below(made: go.Figure, *, plot: int = HEIGHT - AXIS_ROOM) -> go.Figure:
    """Make room below for the legend, two entries a row; the plot itself keeps its height."""
    traces: list[Any] = list(made.select_traces())
    entries = sum(1 for trace in traces if trace.showlegend is not False)
    rows = (entries + 1) // 2 if entries > 1 else 0
    room = AXIS_ROOM + ROW_HEIGHT * rows
    made.update_layout(
        height=plot + room,
        margin={"b": room},
        showlegend=rows > 0,
        legend={"yref": "container", "yanchor": "bottom", "y": 0},
    )
    made.update_xaxes(tickangle=0)
    return made


def band_area(
    made: go.Figure, across: Sequence[object], points: Sequence[BandPoint | CurvePoint], tone: Colours
) -> None:
    """Fill the 80 % band over `across`."""
    made.add_scatter(
        x=[*across, *reversed(across)],
        y=[*(point.high for point in points), *(point.low for point in reversed(points))],
        fill="toself", fillcolor=tone.band, line={"width": 0}, mode="lines", hoverinfo="skip", name="80 % band",
    )  # fmt: skip


def estimates(
    made: go.Figure, across: Sequence[object], points: Sequence[BandPoint | CurvePoint], told: Sequence[str],
    tone: Colours, *, name: str, size: int,
) -> None:  # fmt: skip
    """Draw estimates over `across` with their 80 % band; `told` is what each says where it is pointed at."""
    band_area(made, across, points, tone)
    made.add_scatter(
        x=across, y=[point.estimate for point in points], mode="lines+markers", name=name,
        line={"color": tone.estimate, "width": 3}, marker={"size": size}, customdata=told,
        hovertemplate="%{customdata}<extra></extra>",
    )  # fmt: skip
