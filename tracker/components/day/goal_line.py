"""One line on the day on which something that was done reached a goal; on any other day nothing of goals."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up
from tracker.desk.ahead import goal_view
from tracker.desk.ahead.goal_words import what_words
from tracker.log.goals import LiftAim


def show(now: Here, day: date) -> None:
    """Say which goals were reached on a day, in one line."""
    found = goal_view.reached_on(now.log, now.member.id, day)
    said = ", ".join(
        f"{each.row.aim.lift.name if isinstance(each.row.aim, LiftAim) else each.row.aim.score.piece.title}, "
        f"{what_words(each.row.aim)}"
        for each in found
    )
    if said:
        st.html(f'<p class="plain" role="status"><b>Goal reached:</b> {escape(first_up(said))}.</p>')
