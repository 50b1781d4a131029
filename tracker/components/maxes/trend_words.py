"""How loads of a trend are said: with the unit of the view, and what is added where the body is lifted."""

from __future__ import annotations

from functools import partial

from tracker.charts.words import between, estimated
from tracker.desk.maxes.trend import TrendView


def said(amount: float, view: TrendView) -> str:
    """Write an estimated load of the view's lift: what is added where the body is lifted."""
    return estimated(amount, view.unit, body=view.lift.body)


def band_words(low: float, high: float, view: TrendView, joint: str = "to") -> str:
    """Write an 80 % band of the view's lift, with its unit once."""
    return between(low, high, partial(said, view=view), joint)
