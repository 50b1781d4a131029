"""The trend of a lift over time: the estimate and how sure it is, and the facts that it stands on."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import pairwise

import plotly.graph_objects as go

from tracker.charts.records import BandPoint, Effort, FormulaMark, MaxMark, SetDot, Span
from tracker.charts.template import Colours, band_area, colours, figure, legend_below
from tracker.charts.words import axis_unit, between, day_words, estimated, typed, typed_text
from tracker.safety import LAY_OFF_DAYS
from tracker.units import Unit

Said = Callable[[float], str]  # a load in words
EFFORTS: dict[Effort, tuple[str, str, int]] = {  # words, mark, size in px
    "to the end": ("to the end", "x", 9),
    "hard": ("1 to 3 left", "circle", 8),
    "easy": ("over 3 left", "circle-open", 8),
    "not said": ("not said", "line-ew-open", 9),
}
LEAST_TOLD = 0.06  # of the time drawn: a narrower lay-off is shaded without a text of its own
WAVE_ROOM = 0.22  # of the time drawn: the width of ten letters on a phone
MOST_TEXTS = 6  # tested maxes that carry their load as text; of more only the newest do
TEXT_ROOM = 0.2  # of the time drawn, between two texts: the width of "102.5 kg" on a phone


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
        dark: Whether the page is dark.
    """
    tone, said = colours(dark=dark), partial(estimated, unit=unit, body=body)
    made = figure(dark=dark)
    _shade(made, waves, training_days, tone)
    _band(made, points, reps, said, tone)
    if hindsight:
        _hindsight(made, points, reps, said, tone)
    _sets(made, sets, tone)
    _formulas(made, formulas, unit, tone)
    _maxes(made, maxes, points, reps, partial(typed, unit=unit, body=body), tone)
    made.update_xaxes(title_text="day", type="date", hoverformat="%-d %b %Y", tickformat="%-d %b\n%Y", nticks=5)
    made.update_yaxes(title_text=f"{reps}RM, {axis_unit(unit, body=body)}")
    return legend_below(made)


def lay_offs(days: Sequence[date], least: int = LAY_OFF_DAYS) -> tuple[tuple[date, date], ...]:
    """Return the pairs of days of training with at least so many whole days between them."""
    ordered = sorted(set(days))
    return tuple((first, second) for first, second in pairwise(ordered) if (second - first).days > least)


def _shade(made: go.Figure, waves: Sequence[Span], days: Sequence[date], tone: Colours) -> None:
    breaks = lay_offs(days)
    span = (max(days) - min(days)).days if days else 0
    for first, last in breaks:
        away = (last - first).days - 1
        text = f"{away} days off" if away >= LEAST_TOLD * span else ""  # a narrow one has no room for its text
        made.add_vrect(
            x0=first,
            x1=last,
            fillcolor=tone.shade,
            line_width=0,
            layer="below",
            annotation={"text": text, "font": {"size": 13}, "textangle": -90},
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
        for edge in (wave.first, wave.last + timedelta(days=1)):
            made.add_vline(x=edge, line={"color": tone.faint, "dash": "dot", "width": 1}, layer="below")
        made.add_annotation(
            x=wave.first,
            y=1,
            yref="paper",
            text=typed_text(wave.name) if wave.first >= free else "",
            showarrow=False,
            xanchor="left",
            yanchor="top",
            font={"size": 12},
        )
        if wave.first >= free:
            free = wave.first + timedelta(days=round(told * len(wave.name) / 10))


def _band(made: go.Figure, points: Sequence[BandPoint], reps: int, said: Said, tone: Colours) -> None:
    if not points:
        return
    days = [point.day for point in points]
    band_area(made, days, points, tone)
    made.add_scatter(
        x=days,
        y=[point.estimate for point in points],
        mode="lines+markers",
        line={"color": tone.estimate, "width": 3},
        marker={"size": 5 if len(points) > 1 else 10},
        name=f"estimated {reps}RM",
        customdata=[_explain(point, reps, said) for point in points],
        hovertemplate="%{customdata}<extra></extra>",
    )


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
    made: go.Figure, maxes: Sequence[MaxMark], points: Sequence[BandPoint], reps: int, said: Said, tone: Colours
) -> None:
    told = _told(maxes, points)
    kinds = (
        ("tested", "diamond", tone.tested), ("declared", "diamond-open", tone.declared), ("missed", "x-thin-open", tone.tested),
        ("set aside", "diamond-x-open", tone.declared),
    )  # fmt: skip
    for source, symbol, colour in kinds:
        marks = sorted((mark for mark in maxes if mark.source == source), key=lambda mark: mark.day)
        if not marks:
            continue
        texts = [said(mark.load) if any(mark is each for each in told) else "" for mark in marks]
        made.add_scatter(
            x=[mark.day for mark in marks],
            y=[mark.load for mark in marks],
            mode="markers+text",
            marker={"symbol": symbol, "size": 13, "color": colour, "line": {"width": 2, "color": colour}},
            text=texts,
            textposition=[_beside(mark, points) for mark in marks],
            textfont={"color": colour, "size": 14},
            name="missed in a test" if source == "missed" else f"{source} {reps}RM",
            customdata=[f"<b>{day_words(mark.day)}</b><br>{_what(mark, reps)}: {said(mark.load)}" for mark in marks],
            hovertemplate="%{customdata}<extra></extra>",
            cliponaxis=False,
        )


def _what(mark: MaxMark, reps: int) -> str:
    return f"{mark.source} {reps}RM" if mark.source != "missed" else f"attempt at a {reps}RM, missed"


def _told(marks: Sequence[MaxMark], points: Sequence[BandPoint]) -> list[MaxMark]:
    """Choose the marks that carry a text: tests first, the newest ones, with room between any two."""
    days = [*(mark.day for mark in marks), *(point.day for point in points)]
    room = (max(days) - min(days)).days * TEXT_ROOM if days else 0
    told: list[MaxMark] = []
    for mark in sorted(
        (mark for mark in marks if mark.source not in ("missed", "set aside")),
        key=lambda mark: (mark.source == "tested", mark.day, mark.load),
        reverse=True,
    ):
        apart = min((abs((mark.day - each.day).days) for each in told), default=None)
        if len(told) < MOST_TEXTS and (apart is None or (apart > 0 and apart >= room)):
            told.append(mark)
    return told


def _beside(mark: MaxMark, points: Sequence[BandPoint]) -> str:
    """Put a text on the side of its mark that is away from the line, and inside the figure at either end."""
    if not points:
        return "top center"
    first, last = points[0].day, points[-1].day
    span = max(1, (last - first).days)
    share = (mark.day - first).days / span
    side = "right" if share < 0.2 else "left" if share > 0.8 else "center"
    begins, ends = {"right": (0.0, 1.0), "left": (-1.0, 0.0)}.get(side, (-0.5, 0.5))
    reach = TEXT_ROOM * span
    passing = [point.estimate for point in points if begins * reach <= (point.day - mark.day).days <= ends * reach]
    if not passing:
        passing = [min(points, key=lambda point: abs((point.day - mark.day).days)).estimate]
    above = max(passing) - mark.load > mark.load - min(passing)  # where the line passes the text, it is mostly above it
    return f"{'bottom' if above else 'top'} {side}"


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
