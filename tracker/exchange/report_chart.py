"""A drawing of an estimate with its band over time, as SVG that needs no script and no network.

Nothing is said by colour alone: the band is an area, the estimate a line, a tested max a full diamond with its load, a
declared one an empty diamond.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from html import escape

from tracker.units import Unit

WIDTH, HEIGHT = 720, 250
LEFT, RIGHT, TOP, BOTTOM = 58, 22, 20, 34
LETTER = 6.6  # of the type in the drawing
LINE = 14.0  # height of a line of text


@dataclass(frozen=True, slots=True)
class BandOn:
    """The estimate of one day and its central 80 % band."""

    day: date
    estimate: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class MaxOn:
    """A rep-max that was tested or declared, as a fact."""

    day: date
    load: float
    source: str


@dataclass(frozen=True, slots=True)
class _Plane:
    x: Callable[[date], float]
    y: Callable[[float], float]


def chart(
    points: Sequence[BandOn],
    maxes: Sequence[MaxOn],
    *,
    first: date,
    last: date,
    unit: Unit,
    said: str,
    breaks: Sequence[tuple[date, date]] = (),
) -> str:
    """Draw estimate, band and facts between two days, on the breaks from training.

    `said` is the same in words, for those who hear it.
    """
    values = [value for point in points for value in (point.low, point.high)] + [each.load for each in maxes]
    if not values:
        return ""
    ticks = _ticks(min(values), max(values))
    plane = _plane(first, last, ticks[0], ticks[-1])
    parts = [
        *_breaks(breaks, plane), *_grid(ticks, first, last, unit, plane), *_band(points, plane),
        *_diamonds(maxes, unit, plane),
    ]  # fmt: skip
    return (
        f'<svg role="img" aria-label="{escape(said, quote=True)}" viewBox="0 0 {WIDTH} {HEIGHT}" '
        f'xmlns="http://www.w3.org/2000/svg">{"".join(parts)}</svg>'
    )


def _plane(first: date, last: date, low: float, high: float) -> _Plane:
    days, span = max(1, (last - first).days), high - low
    return _Plane(
        lambda day: LEFT + (WIDTH - LEFT - RIGHT) * (day - first).days / days,
        lambda value: HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * (value - low) / span,
    )


def _ticks(low: float, high: float) -> list[float]:
    """Round numbers that hold all values between them, three to seven of them."""
    span = max(high - low, 4.0)
    step = next(step for step in (1, 2, 2.5, 5, 10, 20, 25, 50, 100, 200, 500, 1000) if span / step <= 5)
    start = math.floor(low / step)
    return [step * n for n in range(start, max(math.ceil(high / step), start + 2) + 1)]


def _grid(ticks: Sequence[float], first: date, last: date, unit: Unit, plane: _Plane) -> list[str]:
    lines = [
        f'<line x1="{LEFT}" x2="{WIDTH - RIGHT}" y1="{plane.y(each):.1f}" y2="{plane.y(each):.1f}" class="grid"/>'
        f'<text x="{LEFT - 6}" y="{plane.y(each) + 4:.1f}" text-anchor="end">{each:g} {unit}</text>'
        for each in ticks
    ]
    return lines + [
        f'<line x1="{plane.x(day):.1f}" x2="{plane.x(day):.1f}" y1="{HEIGHT - BOTTOM}" y2="{HEIGHT - BOTTOM + 5}" class="grid"/>'
        f'<text x="{plane.x(day):.1f}" y="{HEIGHT - BOTTOM + 19}" text-anchor="middle">{escape(words)}</text>'
        for day, words in _days(first, last)
    ]


def _days(first: date, last: date) -> list[tuple[date, str]]:
    """Days to be named on the axis: up to seven, at starts of months where the period is long."""
    if (last - first).days <= 70:
        step = max(1, math.ceil((last - first).days / 6))
        days = [first + timedelta(days=n) for n in range(0, (last - first).days + 1, step)]
        return [(day, f"{day.day} {day:%b}") for day in days]
    months = [date(first.year + (first.month + n) // 12, (first.month + n) % 12 + 1, 1) for n in range((last - first).days // 28 + 1)]  # fmt: skip
    inside = [day for day in months if first <= day <= last]
    shown = inside[:: max(1, math.ceil(len(inside) / 7))]
    return [(day, f"{day:%b %Y}" if day.month == 1 or day is shown[0] else f"{day:%b}") for day in shown]


def _band(points: Sequence[BandOn], plane: _Plane) -> list[str]:
    if not points:
        return []
    upper = [f"{plane.x(each.day):.1f},{plane.y(each.high):.1f}" for each in points]
    lower = [f"{plane.x(each.day):.1f},{plane.y(each.low):.1f}" for each in reversed(points)]
    middle = " ".join(f"{plane.x(each.day):.1f},{plane.y(each.estimate):.1f}" for each in points)
    dots = [
        f'<circle cx="{plane.x(each.day):.1f}" cy="{plane.y(each.estimate):.1f}" r="2.2" class="dot"/>'
        for each in points
    ]
    return [
        f'<polygon points="{" ".join(upper + lower)}" class="band"/>',
        f'<polyline points="{middle}" class="estimate"/>',
        *dots,
    ]


def _breaks(breaks: Sequence[tuple[date, date]], plane: _Plane) -> list[str]:
    parts: list[str] = []
    for start, end in breaks:
        left, wide, words = plane.x(start), plane.x(end) - plane.x(start), f"{(end - start).days} days off"
        parts.append(
            f'<rect x="{left:.1f}" width="{wide:.1f}" y="{TOP}" height="{HEIGHT - TOP - BOTTOM}" class="break"/>'
        )
        if wide > len(words) * LETTER:  # a narrow one stands in the words above
            parts.append(f'<text x="{left + wide / 2:.1f}" y="{TOP + 12}" text-anchor="middle">{words}</text>')
    return parts


def _diamonds(maxes: Sequence[MaxOn], unit: Unit, plane: _Plane) -> list[str]:
    """Draw every max; a text only where it is written over no other, tests and newer ones first."""
    shapes: list[str] = []
    taken: list[tuple[float, float, float]] = []  # left, right and base line of each text
    for each in sorted(maxes, key=lambda each: (each.source == "tested", each.day, each.load), reverse=True):
        x, y, words = plane.x(each.day), plane.y(each.load), f"{round(each.load, 2):g} {unit}"
        kind = "tested" if each.source == "tested" else "declared"
        shapes.append(f'<path d="M{x:.1f} {y - 7:.1f}l7 7-7 7-7-7z" class="{kind}"/>')
        anchor, share = (
            ("end", 1.0) if x > WIDTH - 90 else ("start", 0.0) if x < LEFT + 40 else ("middle", 0.5)
        )  # of its width that lies left of the mark
        wide = len(words) * LETTER
        left, right = x - share * wide, x + (1 - share) * wide
        if all(right < other[0] or left > other[1] or abs(y - other[2]) > LINE for other in taken):
            taken.append((left, right, y))
            shapes.append(f'<text x="{x:.1f}" y="{y - 11:.1f}" text-anchor="{anchor}" class="fact">{words}</text>')
    return shapes
