"""The coach's own words on a session, and its end, where there is nothing to lift in it."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here
from tracker.components.frame.next_line import marked
from tracker.desk.day import today as desk
from tracker.desk.day.next import Next
from tracker.desk.day.warm_up import other_words

MOST_LABEL = 60  # letters of the words that stand on the closed box


def show(found: Next) -> None:
    """Draw what the coach wrote on the session that is on, but for its warm-up, which comes first."""
    step = found.plan.step
    lines = other_words(step.text) if step else ()
    if lines:
        with st.container(key="coach_words"):
            st.html(_words(list(lines), open_now=not found.plan.lines))


def done(found: Next) -> None:
    """Let the member call a session done of which there is nothing to log."""
    step, now = found.plan.step, here()
    if step is not None and found.to_end:
        st.html(marked(found, f'<p class="plain">{escape(found.words)}</p>'))
        st.button(
            "It is done", type="primary", width="stretch", key="coach_done", on_click=touch,
            args=(desk.finish, now.log, now.member.id, step, found.day), kwargs={"said": "Session ended"},
        )  # fmt: skip


def _words(lines: list[str], *, open_now: bool) -> str:
    """Write one line as it is; more of them behind the first."""
    if len(lines) == 1:
        return f'<p class="plain">{escape(lines[0])}</p>'
    short = len(lines[0]) <= MOST_LABEL
    label, rest = (lines[0], lines[1:]) if short else ("From your coach", lines)
    body = "".join(f'<p class="plain">{escape(line)}</p>' for line in rest)
    return f"<details{' open' if open_now else ''}><summary>{escape(label)}</summary>{body}</details>"
