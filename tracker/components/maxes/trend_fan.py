"""The weeks to come on the trend, and the line that says what they suppose."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.charts.records import BandPoint
from tracker.components.frame.frame import Here
from tracker.desk.ahead import forecast
from tracker.desk.ahead.forecast import Fan
from tracker.desk.maxes.trend import TrendView


def of(now: Here, view: TrendView, weeks: int) -> Fan:
    """Foretell what the view shows; nothing where no weeks are wanted or nothing is known."""
    if not weeks or view.now is None:
        return Fan(())
    return forecast.fan(
        now.log, now.member, view.lift, reps=view.reps, unit=view.unit, day=now.today, weeks=weeks
    )  # fmt: skip


def points(fan: Fan) -> list[BandPoint]:
    """Turn a fan into points of a figure."""
    return [BandPoint(each.day, each.band.estimate, each.band.low80, each.band.high80) for each in fan.points]


def say(fan: Fan) -> None:
    """Say what the fan supposes, behind a touch."""
    if fan.words:
        st.html(
            '<details class="behind"><summary>Dashed: the weeks ahead, no promise</summary>'
            f'<p class="plain small">{escape(fan.words)}</p></details>'
        )
