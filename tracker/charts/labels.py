"""Where the texts of marks stand in a figure, so that none lies over another, over a mark or outside.

All is reckoned for the narrowest phone: where a text has room there, it has room anywhere.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from tracker.charts.records import BandPoint, MaxMark

WIDE, HIGH = 210.0, 290.0  # px of the plot itself on a phone of 320 px
LETTER, LINE = 8.6, 18.0  # px of a letter and of a line at 15 px
MARK = 12.0  # px of a mark
FREE = 0.13  # of the loads, above and below them all
GAP = 3.0  # px between a mark and its text
MOST = 6  # texts; of more only the newest are there
SILENT = ("missed", "set aside")  # these carry no text: what they are stands in the legend, how much where one points


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle in px, from the left and from the bottom of the plot."""

    left: float
    bottom: float
    wide: float
    high: float

    def meets(self, other: Box) -> bool:
        return (
            self.left < other.left + other.wide
            and other.left < self.left + self.wide
            and self.bottom < other.bottom + other.high
            and other.bottom < self.bottom + self.high
        )


@dataclass(frozen=True, slots=True)
class Plot:
    """The days and loads that a figure spans."""

    first: date
    last: date
    least: float
    most: float

    @classmethod
    def of(cls, points: Sequence[BandPoint], marks: Sequence[MaxMark], also: Sequence[float] = ()) -> Plot:
        days = [*(each.day for each in points), *(each.day for each in marks)]
        loads = [load for each in points for load in (each.low, each.high)] + [each.load for each in marks] + [*also]
        room = (max(loads) - min(loads)) * FREE
        return cls(min(days), max(days), min(loads) - room, max(loads) + room)

    def x(self, day: date) -> float:
        return (day - self.first).days / max((self.last - self.first).days, 1) * WIDE

    def y(self, load: float) -> float:
        return (load - self.least) / max(self.most - self.least, 1e-9) * HIGH


def placed(
    marks: Sequence[MaxMark], words: Sequence[str], points: Sequence[BandPoint], plot: Plot, kept: Sequence[Box] = ()
) -> list[str]:
    """Return for each mark the place of its text as plotly names it, such as `top left`; empty where it has no room.

    Tests come first, and of these the newest; a text stands straight above or below its mark, so that nobody takes it for
    another's, where the line is least in its way. What was said of one mark is not said again of another at its height.

    Args:
        marks: All marks that are drawn.
        words: What would stand beside each.
        points: The line.
        plot: The days and loads that the figure spans.
        kept: Where other texts stand.
    """
    symbols = [_box(plot, each, MARK, MARK, 0, 0) for each in marks]
    line = [(plot.x(each.day), plot.y(each.estimate)) for each in points]
    taken: list[Box] = [*kept]
    found = [""] * len(marks)
    order = sorted(
        range(len(marks)), key=lambda n: (marks[n].source == "tested", marks[n].day, marks[n].load), reverse=True
    )
    for n in order:
        same = any(found[m] and words[m] == words[n] for m in order)
        if marks[n].source in SILENT or same or len(taken) == MOST + len(kept):
            continue
        others = [
            box
            for m, box in enumerate(symbols)
            if m != n and (marks[m].day, marks[m].load) != (marks[n].day, marks[n].load)
        ]
        best: tuple[int, str, Box] | None = None
        near = min(points, key=lambda each: abs((each.day - marks[n].day).days), default=None)
        above = near is not None and near.estimate > marks[n].load
        for place in ("bottom", "top") if above else ("top", "bottom"):
            straight = _fits_across(_text(plot, marks[n], words[n], place, "center"))
            for side in ("center",) if straight and n != order[0] else ("center", "left", "right"):
                box = _text(plot, marks[n], words[n], place, side)
                if not _inside(box) or any(box.meets(each) for each in (*taken, *others)):
                    continue
                crossed = sum(1 for x, y in line if box.meets(Box(x - 2, y - 2, 4, 4)))
                if best is None or crossed < best[0]:
                    best = (crossed, f"{place} {side}", box)
        if best is not None and (not best[0] or n == order[0]):  # over the line stands none but the newest
            taken.append(best[2])
            found[n] = best[1]
    return found


def strip() -> Box:
    """The line along the top in which names stand, as of waves."""
    return Box(0, HIGH - LINE, WIDE, LINE)


def upright(plot: Plot, day: date, words: str) -> Box:
    """A text that stands upright from the bottom, right of a day, as of days off."""
    return Box(plot.x(day), 0, LINE, len(words) * LETTER)


def _fits_across(box: Box) -> bool:
    return box.left >= -4 and box.left + box.wide <= WIDE + 4


def _inside(box: Box) -> bool:
    return _fits_across(box) and box.bottom >= 0 and box.bottom + box.high <= HIGH + 4


def _box(plot: Plot, mark: MaxMark, wide: float, high: float, right: float, up: float) -> Box:
    """A box of a size whose middle lies so far right of and above a mark."""
    return Box(plot.x(mark.day) + right - wide / 2, plot.y(mark.load) + up - high / 2, wide, high)


def _text(plot: Plot, mark: MaxMark, words: str, place: str, side: str) -> Box:
    wide = len(words) * LETTER
    right = {"center": 0.0, "left": -wide / 2, "right": wide / 2}[side]
    up = (MARK / 2 + GAP + LINE / 2) * (1 if place == "top" else -1)
    return _box(plot, mark, wide, LINE, right, up)
