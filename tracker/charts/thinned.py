"""Fewer points than a screen can show apart, and none of those that matter: the table and the file hold them all."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from tracker.charts.records import BandPoint

MOST = 400  # points; a phone has about 330 columns for them, a desk about 650
OF_A_SLICE = 4  # points kept of one slice of time


def thinned(points: Sequence[BandPoint], most: int = MOST) -> list[BandPoint]:
    """Keep of each slice of time its highest and lowest estimate and the ends of its band, and the first and last of all.

    Whatever is highest or lowest over any whole number of slices is so in what is kept as well. Up to `most` points are
    all kept. Oldest first, as they came.
    """
    if len(points) <= most:
        return list(points)
    first, slices = points[0].day, most // OF_A_SLICE
    span = (points[-1].day - first).days + 1
    kept = {0, len(points) - 1}
    for _, group in groupby(range(len(points)), key=lambda at: (points[at].day - first).days * slices // span):
        of = list(group)
        kept |= {min(of, key=lambda at: points[at].estimate), max(of, key=lambda at: points[at].estimate)}
        kept |= {min(of, key=lambda at: points[at].low), max(of, key=lambda at: points[at].high)}
    return [points[at] for at in sorted(kept)]
