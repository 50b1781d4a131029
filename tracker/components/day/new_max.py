"""A set that beats the max in use, or a test below it: one touch says whether it becomes the max."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import Here
from tracker.desk.day import new_max
from tracker.desk.day.today import DayPlan


def show(now: Here, plan: DayPlan) -> None:
    """Ask of the newest set that beats a max in use; nothing where none does, or all is answered."""
    found = plan.new_max
    if found is None:
        return
    with st.container(border=True, key="new_max"):
        st.html(f'<p class="plain">{escape(found.words)}</p>')
        for yes, label in ((True, found.yes), (False, found.no)):
            st.button(
                label, key=f"new_max_{'yes' if yes else 'no'}", width="stretch", on_click=touch,
                args=(new_max.answer, now.log, now.member.id, found.row.id, found.reps), kwargs={"yes": yes, "said": label},
            )  # fmt: skip
