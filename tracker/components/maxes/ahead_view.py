"""Behind a touch on the trend: when a test would pay and why, how often what was foretold came true, and what a wave came to."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.charts.plan_done import plan_done_figure
from tracker.charts.records import WeekBar
from tracker.charts.words import day_words
from tracker.components.frame import plot
from tracker.components.frame.frame import Here
from tracker.components.maxes.trend_words import band_words, said
from tracker.desk.ahead import forecast
from tracker.desk.ahead import plan_done as after_it
from tracker.desk.ahead import when_to_test as testing
from tracker.desk.maxes.trend import TrendView

HOW = (
    "Each was foretold from nothing but what was known four weeks before. A week is held against what is known of it now, "
    "a test against what it showed. Weeks after two weeks of rest are left out."
)
PLAN_HOW = (
    "Frames are sets planned, bars sets done. Diamonds say how many of the done ones were foretold to be made, by what was known "
    "on the day before the wave's first session and with the load that was lifted; dots say how many were."
)


def when_to_test(now: Here, view: TrendView) -> None:
    """Say in one line when a test would pay, and why."""
    found = testing.when_to_test(now.log, now.member, view.lift, reps=view.reps, unit=view.unit, day=now.today)
    why = f'<p class="plain"><b>Why:</b> {escape(" ".join(found.why))}</p>' if found.why else ""
    st.html(f'<p class="plain"><b>{escape(found.words)}</b></p>{why}')


def record(now: Here, view: TrendView) -> None:
    """Say how often forecasts of this lift held, and show each."""
    found = forecast.record(now.log, now.member, view.lift, reps=view.reps, unit=view.unit)
    st.html(f'<p class="plain"><b>{escape(found.words)}</b></p>')
    if found.each:
        rows = [
            {
                "day": f"{day_words(each.day)}{', test' if each.test else ''}",
                "foretold": band_words(each.band.low80, each.band.high80, view),
                "found": said(each.found, view),
                "held": "yes" if each.held else "no",
            }
            for each in reversed(found.each)
        ]
        st.table(rows, hide_index=True)
        st.caption(HOW)


def plan_done(now: Here, view: TrendView) -> None:
    """Draw what waves planned of this lift and what was done, what was foretold before they began and what was found."""
    found = after_it.plan_done(now.log, now.member, view.lift, now.today)
    st.html(f'<p class="plain"><b>{escape(found.words)}</b></p>')
    if found.weeks:
        bars = [
            WeekBar(each.monday, each.done, f"{each.done} done", planned=max(0, each.planned - each.done))
            for each in found.weeks
        ]
        foretold = [each.foretold if each.asked else None for each in found.weeks]
        made = [each.made if each.asked else None for each in found.weeks]
        plot.show(plan_done_figure(bars, foretold, made, dark=plot.is_dark()), key="plan_done_figure", alt=found.words)
        st.caption(PLAN_HOW)
