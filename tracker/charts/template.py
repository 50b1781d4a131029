"""One look for all figures: light and dark, safe for colour-blind eyes, made for a phone held at arm's length.

Colours are from the set of Okabe & Ito (2008, "Color Universal Design"), by which people with any of the common kinds of
colour vision tell them apart. No figure speaks by colour alone: line style, mark or text says the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import plotly.graph_objects as go

CONFIG: dict[str, Any] = {"displayModeBar": False, "responsive": True, "scrollZoom": False, "doubleClick": False}
HEIGHT = 380  # px: leaves the sentence above it on the screen of a phone
ROW_HEIGHT = 24  # px for one row of the legend
FONT = "system-ui, sans-serif"


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
    text="#1f2933",
    faint="#d5dae0",
    back="#ffffff",
    estimate="#0072b2",
    band="rgba(0, 114, 178, 0.18)",
    hindsight="#8a3c78",
    tested="#b34700",
    declared="#8a5a00",
    set="#4a5560",
    formula="#00694d",
    shade="rgba(90, 100, 110, 0.12)",
)
DARK = Colours(
    text="#eef1f4",
    faint="#3b4550",
    back="#14191f",
    estimate="#56b4e9",
    band="rgba(86, 180, 233, 0.24)",
    hindsight="#e6a3cb",
    tested="#ff9a4d",
    declared="#f0c54a",
    set="#b6c0ca",
    formula="#3fd0a4",
    shade="rgba(200, 210, 220, 0.13)",
)


def colours(*, dark: bool) -> Colours:
    """Return the colours for a light or a dark page."""
    return DARK if dark else LIGHT


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
            "legend": {
                "orientation": "h",
                "yanchor": "top",
                "y": -0.22,
                "x": 0,
                "itemclick": False,
                "itemdoubleclick": False,
            },
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


def legend_below(made: go.Figure) -> go.Figure:
    """Make room below for the legend: two entries a row on a phone."""
    traces: list[Any] = list(made.select_traces())
    entries = sum(1 for trace in traces if trace.showlegend is not False)
    rows = (entries + 1) // 2
    room = 64 + ROW_HEIGHT * rows
    height = HEIGHT - 64 + room
    made.update_layout(
        height=height,
        margin={"b": room},
        showlegend=entries > 1,
        legend={"yref": "container", "yanchor": "bottom", "y": 0},
    )
    return made
