"""A lift in a small picture: its line and band in plain areas, tests made as diamonds and missed ones as crosses.

It stands beside words that say the same, so those who hear the page miss nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from tracker.charts.records import BandPoint, MaxMark
from tracker.charts.sketch import outline

THICK = 3.5  # per cent of the height: half of the line's own thickness
EDGE = 8.0  # per cent of the height that stay free above and below


def spark(points: Sequence[BandPoint], tests: Sequence[MaxMark], first: date, last: date) -> str:
    """Draw the estimate from `first` to `last`, with tests in their place; a line needs two days, a mark one."""
    loads = [load for each in points for load in (each.low, each.high)] + [each.load for each in tests]
    if not loads:
        return '<div class="spark" aria-hidden="true"></div>'
    span, room = max((last - first).days, 1), max(max(loads) - min(loads), 1e-9)

    def x(day: date) -> float:
        return (day - first).days / span * 100

    def y(load: float) -> float:
        return EDGE + (max(loads) - load) / room * (100 - 2 * EDGE)

    parts: list[str] = []
    if len(points) > 1:
        across, middle = [x(each.day) for each in points], [y(each.estimate) for each in points]
        band = outline(across, [y(each.high) for each in points], [y(each.low) for each in points])
        parts.append(
            f'<i style="clip-path: {band}"></i><b style="clip-path: {outline(across, middle, middle, THICK)}"></b>'
        )
    parts += [
        f'<u class="{"missed" if each.source == "missed" else "made"}" style="left:{x(each.day):.1f}%;top:{y(each.load):.1f}%"></u>'
        for each in tests
    ]
    return f'<div class="spark" aria-hidden="true">{"".join(parts)}</div>'
