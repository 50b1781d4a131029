"""The coach's warm-up, before the first set: read, ticked off with a touch, and never in the way of a set."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import Here
from tracker.desk.day import session_said
from tracker.desk.day.next import Next
from tracker.desk.day.warm_up import WarmUp

SHOWN = 1  # line that stands open; more are behind it


def first(now: Here, found: Next) -> None:
    """Draw it above the next set, as long as nobody has ticked it off or begun without it."""
    warm_up, step = found.warm_up, found.plan.step
    if warm_up is None or step is None or not warm_up.due:
        return
    with st.container(key="warm_up", gap="xsmall"):
        st.html(_words(warm_up))
        args = (now.log, now.member.id, step, found.day)
        # In one line where letters are not large: the next load stays in sight.
        with st.container(key="warm_up_ways", horizontal=True, gap="small"):
            st.button(
                "Warm-up done", key="warm_up_done", width="stretch", on_click=touch,
                args=(session_said.tick_warm_up, *args), kwargs={"said": "Warm-up done"},
            )  # fmt: skip
            st.button(
                "Leave it out", key="warm_up_out", help="Leave the warm-up out", on_click=touch,
                args=(session_said.leave_out_warm_up, *args), kwargs={"said": "Warm-up left out"},
            )  # fmt: skip


def beneath(now: Here, found: Next) -> None:
    """Draw it closed, below what is next, once it is done or a set was done without it."""
    warm_up, step = found.warm_up, found.plan.step
    if warm_up is None or step is None or warm_up.due:
        return
    settled = warm_up.done or warm_up.left_out
    box = st.expander(f"Warm-up: {warm_up.state}" if settled else "Warm-up", key="warm_up_box", on_change="rerun")
    if not box.open:
        return
    with box:
        st.html("".join(f'<p class="plain">{escape(line)}</p>' for line in warm_up.lines))
        act, label, said = (
            (
                session_said.untick_warm_up,
                "Not done yet" if warm_up.done else "Not left out",
                "The warm-up is open again",
            )
            if settled
            else (session_said.tick_warm_up, "Warm-up done", "Warm-up done")
        )
        st.button(
            label, key="warm_up_again", on_click=touch, args=(act, now.log, now.member.id, step, found.day),
            kwargs={"said": said},
        )  # fmt: skip


def _words(warm_up: WarmUp) -> str:
    if len(warm_up.lines) == 1:
        return f'<p class="plain"><b>Warm-up:</b> {escape(warm_up.lines[0])}</p>'
    lines = [f'<p class="plain">{escape(line)}</p>' for line in warm_up.lines]
    if len(lines) <= SHOWN:
        return f'<p class="over">Warm-up</p>{"".join(lines)}'
    label = f"Warm-up: {warm_up.lines[0]}"
    return f'<details class="behind"><summary>{escape(label)}</summary>{"".join(lines[1:])}</details>'
