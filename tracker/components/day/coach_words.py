"""The coach's own words on a session, and its end, where there is nothing to lift in it."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here
from tracker.desk.day import today as desk
from tracker.desk.day.today import DayPlan

MOST_LABEL = 60  # letters of the words that stand on the closed box


def show(plan: DayPlan) -> None:
    """Draw warm-up and notes of the step that is on."""
    step = plan.step
    if step is None:
        return
    if step.text:
        with st.container(key="coach_words"):
            st.html(_words(step.text.split("\n"), open_now=not plan.lines))
    now = here()
    if not plan.lines and step.state == "planned":
        st.button(
            "It is done", type="primary", width="stretch", key="coach_done", on_click=touch,
            args=(desk.finish, now.log, now.member.id, step), kwargs={"said": "Session ended"},
        )  # fmt: skip


def _words(lines: list[str], *, open_now: bool) -> str:
    """Write one line as it is; more of them behind the first."""
    if len(lines) == 1:
        return f'<p class="plain">{escape(lines[0])}</p>'
    short = len(lines[0]) <= MOST_LABEL
    label, rest = (lines[0], lines[1:]) if short else ("From your coach", lines)
    body = "".join(f'<p class="plain">{escape(line)}</p>' for line in rest)
    return f"<details{' open' if open_now else ''}><summary>{escape(label)}</summary>{body}</details>"
