"""The trend of a lift over time: the estimate and how sure it is, and the facts that it stands on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import pairwise
from typing import Any

import plotly.graph_objects as go

from tracker.charts.labels import Plot, placed, strip, upright
from tracker.charts.records import BandPoint, Effort, FormulaMark, MaxMark, SetDot, Span
from tracker.charts.template import Colours, colours, estimates, figure, legend_below
from tracker.charts.words import axis_unit, between, day_words, estimated, typed, typed_text
from tracker.safety import LAY_OFF_DAYS
from tracker.units import Unit

NAMES = {"tested": "test made", "missed": "test missed"}  # in the legend, which has room for 14 letters
Said = Callable[[float], str]  # a load in words
EFFORTS: dict[Effort, tuple[str, str, int]] = {  # words, mark, size in px
    "to the end": ("to the end", "x", 9),
    "hard": ("1 to 3 left", "circle", 8),
    "easy": ("over 3 left", "circle-open", 8),
    "not said": ("not said", "line-ew-open", 9),
}
LEAST_TOLD = 0.06  # of the time drawn: a narrower lay-off is shaded without a text of its own
WAVE_ROOM = 0.22  # of the time drawn: the width of ten letters on a phone
SMALL = 12.5  # px, as in the legend
TITLE_ROOM = 20  # px of a title below an axis
EDGE = 0.03  # of the time drawn: free on either side, so that no mark is cut


def trend_figure(
    points: Sequence[BandPoint],
    *,
    unit: Unit,
    body: bool = False,
    reps: int = 1,
    maxes: Sequence[MaxMark] = (),
    sets: Sequence[SetDot] = (),
    formulas: Sequence[FormulaMark] = (),
    waves: Sequence[Span] = (),
    training_days: Sequence[date] = (),
    hindsight: bool = False,
    ends: Sequence[BandPoint] = (),
    dark: bool = False,
) -> go.Figure:
    """Draw an nRM over time.

    Args:
        points: The estimate of each day with its 80 % band, oldest first.
        unit: The unit of every load.
        body: Whether loads are added to the body.
        reps: Which nRM it is.
        maxes: Tested and declared rep-maxes, as marks with their load.
        sets: Sets as they were done, by effort; empty where they are not asked for.
        formulas: Values of published formulas; empty where they are not asked for.
        waves: Waves, drawn behind everything.
        training_days: Days of training; 14 days and more without any between two of them are shaded as a lay-off.
        hindsight: Whether to draw what is known of each day now as well.
        ends: The two points between which a gain was counted, marked as rings.
        dark: Whether the page is dark.
    """
    tone, said = colours(dark=dark), partial(estimated, unit=unit, body=body)
    made = figure(dark=dark)
    plot = (
        Plot.of(points, maxes, [*(each.load for each in sets), *(each.load for each in formulas)])
        if points or maxes
        else None
    )
    _shade(made, waves, training_days, tone)
    _band(made, points, reps, said, tone)
    _ends(made, ends, reps, said, tone)
    if hindsight:
        _hindsight(made, points, reps, said, tone)
    _sets(made, sets, tone)
    _formulas(made, formulas, unit, tone)
    if plot is not None:
        kept = [
            *([strip()] if waves else []),
            *(upright(plot, each[0], each[2]) for each in _off(training_days) if each[2]),
        ]
        _maxes(
            made,
            maxes,
            placed(maxes, [typed(each.load, unit, body=body) for each in maxes], points, plot, kept),
            reps,
            partial(typed, unit=unit, body=body),
            tone,
        )
    made.update_xaxes(type="date", hoverformat="%-d %b %Y", tickformat="%-d %b\n%Y", nticks=5)
    made.update_yaxes(title_text=f"{reps}RM, {axis_unit(unit, body=body)}", tickformat="+.4~g" if body else None)
    if plot is not None:  # a wave that goes on does not push what is drawn together
        room = timedelta(days=max(1, round((plot.last - plot.first).days * EDGE)))
        made.update_xaxes(range=[plot.first - room, plot.last + room])
        made.update_yaxes(range=[plot.least, plot.most])
    legend_below(made)
    # The axis of days has no title, so its room goes.
    layout: Any = made.layout  # its fields are made when plotly runs
    return made.update_layout(height=layout.height - TITLE_ROOM, margin={"b": layout.margin.b - TITLE_ROOM})


def lay_offs(days: Sequence[date], least: int = LAY_OFF_DAYS) -> tuple[tuple[date, date], ...]:
    """Return the pairs of days of training with at least so many whole days between them."""
    ordered = sorted(set(days))
    return tuple((first, second) for first, second in pairwise(ordered) if (second - first).days > least)


def _off(days: Sequence[date]) -> list[tuple[date, date, str]]:
    """List lay-offs, each with its text; a narrow one has no room for one."""
    span = (max(days) - min(days)).days if days else 0
    found: list[tuple[date, date, str]] = []
    for first, last in lay_offs(days):
        away = (last - first).days - 1
        found.append((first, last, f"{away} days off" if away >= LEAST_TOLD * span else ""))
    return found


def _shade(made: go.Figure, waves: Sequence[Span], days: Sequence[date], tone: Colours) -> None:
    breaks = _off(days)
    for first, last, text in breaks:
        made.add_vrect(
            x0=first,
            x1=last,
            fillcolor=tone.shade,
            line_width=0,
            layer="below",
            annotation={"text": text, "font": {"size": SMALL}, "textangle": -90},
            annotation_position="bottom left",
        )
    if breaks:
        made.add_scatter(
            x=[None], y=[None], mode="markers", name="days off",
            marker={"symbol": "square", "size": 16, "color": tone.shade},
        )  # fmt: skip
    told = (max(days) - min(days)).days * WAVE_ROOM if days else 0
    free = date.min  # from which day on the next name has room
    for wave in waves:
        room = timedelta(days=round(told * len(wave.name) / 10))
        at_end = bool(days) and wave.first + room > max(days)  # a name that would be cut stands left of its line
        for edge in (wave.first, wave.last + timedelta(days=1)):
            made.add_vline(x=edge, line={"color": tone.faint, "dash": "dot", "width": 1}, layer="below")
        made.add_annotation(
            x=wave.first,
            y=1,
            yref="paper",
            text=typed_text(wave.name) if wave.first - room * at_end >= free else "",
            showarrow=False,
            xanchor="right" if at_end else "left",
            yanchor="top",
            font={"size": SMALL},
        )
        if wave.first - room * at_end >= free:
            free = wave.first if at_end else wave.first + room


def _band(made: go.Figure, points: Sequence[BandPoint], reps: int, said: Said, tone: Colours) -> None:
    if not points:
        return
    days, told = [point.day for point in points], [_explain(point, reps, said) for point in points]
    size = 5 if len(points) > 1 else 10
    estimates(made, days, points, told, tone, name=f"estimated {reps}RM", size=size)


def _ends(made: go.Figure, ends: Sequence[BandPoint], reps: int, said: Said, tone: Colours) -> None:
    if ends:
        made.add_scatter(
            x=[end.day for end in ends], y=[end.estimate for end in ends], mode="markers", name="gain counted",
            marker={"symbol": "circle-open", "size": 15, "color": tone.estimate, "line": {"width": 3}},
            customdata=[_explain(end, reps, said) for end in ends], hovertemplate="%{customdata}<extra></extra>",
            cliponaxis=False,
        )  # fmt: skip


def _explain(point: BandPoint, reps: int, said: Said) -> str:
    lines = [
        f"<b>{day_words(point.day)}</b>",
        f"{reps}RM about {said(point.estimate)}",
        f"80 % sure: {between(point.low, point.high, said)}",
        "from sets up to that day",
    ]
    return "<br>".join(lines)


def _hindsight(made: go.Figure, points: Sequence[BandPoint], reps: int, said: Said, tone: Colours) -> None:
    known = [(point.day, point.smoothed) for point in points if point.smoothed is not None]
    made.add_scatter(
        x=[day for day, _ in known],
        y=[value for _, value in known],
        mode="lines",
        line={"color": tone.hindsight, "width": 3, "dash": "dash"},
        name="in hindsight",
        customdata=[
            f"<b>{day_words(day)}</b><br>{reps}RM about {said(value)}<br>from all sets, later ones too"
            for day, value in known
        ],
        hovertemplate="%{customdata}<extra></extra>",
    )


def _maxes(
    made: go.Figure, maxes: Sequence[MaxMark], places: Sequence[str], reps: int, said: Said, tone: Colours
) -> None:
    told = {id(mark): place for mark, place in zip(maxes, places, strict=True)}
    kinds = (
        ("tested", "diamond", tone.tested), ("declared", "diamond-open", tone.declared), ("missed", "x-thin-open", tone.tested),
        ("set aside", "diamond-x-open", tone.declared),
    )  # fmt: skip
    for source, symbol, colour in kinds:
        marks = sorted((mark for mark in maxes if mark.source == source), key=lambda mark: mark.day)
        if not marks:
            continue
        texts = [said(mark.load) if told[id(mark)] else "" for mark in marks]
        made.add_scatter(
            x=[mark.day for mark in marks],
            y=[mark.load for mark in marks],
            mode="markers+text",
            marker={"symbol": symbol, "size": 13, "color": colour, "line": {"width": 2, "color": colour}},
            text=texts,
            textposition=[told[id(mark)] or "top center" for mark in marks],
            textfont={"color": colour, "size": 15},
            name=NAMES.get(source, f"{source} {reps}RM"),
            customdata=[f"<b>{day_words(mark.day)}</b><br>{_what(mark, reps)}: {said(mark.load)}" for mark in marks],
            hovertemplate="%{customdata}<extra></extra>",
            cliponaxis=False,
        )


def _what(mark: MaxMark, reps: int) -> str:
    return f"{mark.source} {reps}RM" if mark.source != "missed" else f"attempt at a {reps}RM, missed"


def _sets(made: go.Figure, sets: Sequence[SetDot], tone: Colours) -> None:
    for effort, (words, symbol, size) in EFFORTS.items():
        dots = [dot for dot in sets if dot.effort == effort]
        if dots:
            made.add_scatter(
                x=[dot.day for dot in dots],
                y=[dot.load for dot in dots],
                mode="markers",
                marker={"symbol": symbol, "size": size, "color": tone.set, "line": {"width": 2, "color": tone.set}},
                name=words,
                customdata=[f"<b>{day_words(dot.day)}</b><br>{dot.words}<br>{words}" for dot in dots],
                hovertemplate="%{customdata}<extra></extra>",
            )


def _formulas(made: go.Figure, formulas: Sequence[FormulaMark], unit: Unit, tone: Colours) -> None:
    if formulas:
        made.add_scatter(
            x=[mark.day for mark in formulas],
            y=[mark.load for mark in formulas],
            mode="markers",
            marker={"symbol": "triangle-up-open", "size": 11, "color": tone.formula, "line": {"width": 2}},
            name="formulas",
            customdata=[
                f"<b>{mark.name}</b><br>{estimated(mark.load, unit)}<br>{mark.words}, {day_words(mark.day)}"
                for mark in formulas
            ],
            hovertemplate="%{customdata}<extra></extra>",
        )


def trend_words(points: Sequence[BandPoint], *, unit: Unit, reps: int, lift: str, body: bool = False) -> str:
    """Say in one sentence what the figure shows, for those who hear it."""
    if not points:
        return f"{lift}: nothing known of the {reps}RM yet."
    first, last = points[0], points[-1]
    return (
        f"{lift}: estimated {reps}RM from {estimated(first.estimate, unit, body=body)} on {day_words(first.day)} "
        f"to {estimated(last.estimate, unit, body=body)} on {day_words(last.day)}, "
        f"now 80 % sure between {estimated(last.low, unit, body=body)} and {estimated(last.high, unit, body=body)}."
    )
