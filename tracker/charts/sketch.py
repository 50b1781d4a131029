"""The line and band of a trend in two plain areas, to stand there at once while a phone still makes the figure ready.

It says nothing that the figure does not say, so those who hear the page get the figure's words only.
"""

from __future__ import annotations

from collections.abc import Sequence
from html import escape

from tracker.charts.records import BandPoint
from tracker.charts.words import day_words, estimated
from tracker.units import Unit

THICK = 0.6  # per cent of the height: half of the line's own thickness


def sketch(points: Sequence[BandPoint], unit: Unit, *, body: bool = False) -> str:
    """Draw the estimate with its 80 % band, oldest first, with the least and most load and the first and last day.

    Areas cut out of plain boxes: a page takes no SVG without the weight of one more script.

    Args:
        points: At least two days.
        unit: The unit of every load.
        body: Whether loads are added to the body.
    """
    first, last = points[0].day, points[-1].day
    least, most = min(each.low for each in points), max(each.high for each in points)
    span, room = max((last - first).days, 1), max(most - least, 1e-9)

    across = [(each.day - first).days / span * 100 for each in points]

    def height(load: float) -> float:
        return (most - load) / room * 100

    middle = [height(each.estimate) for each in points]
    band = outline(across, [height(each.high) for each in points], [height(each.low) for each in points])
    return (
        '<div class="sketch" aria-hidden="true">'
        f"<p>{escape(estimated(most, unit, body=body))}</p>"
        f'<div><i style="clip-path: {band}"></i><b style="clip-path: {outline(across, middle, middle, THICK)}"></b></div>'
        f"<p>{escape(estimated(least, unit, body=body))}</p><p>{escape(day_words(first))}</p><p>{escape(day_words(last))}</p></div>"
    )


def outline(across: Sequence[float], upper: Sequence[float], lower: Sequence[float], more: float = 0.0) -> str:
    """Return the area between two lines as CSS cuts it out of a box: all in per cent of it, `more` added above and below."""
    edge = [(x, y - more) for x, y in zip(across, upper, strict=True)]
    edge += [(x, y + more) for x, y in reversed(list(zip(across, lower, strict=True)))]
    return "polygon(" + ",".join(f"{x:.1f}% {y:.1f}%" for x, y in edge) + ")"
