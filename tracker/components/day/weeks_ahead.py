"""Behind a touch: what stands in the calendar for the weeks to come, whoever wrote it, and how likely its sets are."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame import plot
from tracker.components.frame.frame import Here
from tracker.components.sheet import sheet_said, wave_ahead
from tracker.desk.ahead import plan
from tracker.desk.day.today import DayPlan
from tracker.desk.maxes.words import full_day
from tracker.wording import counted


def show(now: Here, day: DayPlan) -> None:
    """Draw the fold where a session is planned after this one; nothing is worked out while it is closed."""
    if day.ahead is None:
        return
    box = st.expander("The weeks ahead", key="weeks_ahead", icon=":material/timeline:", on_change="rerun")
    if not box.open:
        return
    with box:
        sheet_said.style()
        found = plan.coming(now.log, now.member, now.today)
        if not found.sessions:
            st.html(f'<p class="plain">Nothing is planned in the next {counted(plan.COMING_WEEKS, "week")}.</p>')
            return
        last = found.sessions[-1]
        st.html(
            f'<p class="plain">{counted(len(found.sessions), "session")} up to {escape(full_day(last.day))}: '
            f"{escape(last.title)}.</p>"
        )
        wave_ahead.picture(found, key="weeks_ahead_figure")
        if any(each.sets for each in found.sessions):
            wave_ahead.set_by_set(found, key="weeks_ahead_sets")
        plot.follow_the_look()
