"""Sessions that were planned for days before: each to be done now or left out, and none of them in the way."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame import top, where
from tracker.components.frame.acts import do, touch
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words
from tracker.desk.day import today as desk
from tracker.desk.day.more_words import on_day_words
from tracker.desk.day.next import from_words
from tracker.desk.day.today import DayPlan
from tracker.log.records import MemberStepRow

FEW = 3  # shown at once, the newest first


def show(now: Here, plan: DayPlan) -> None:
    """List what was missed; nothing where nothing was."""
    rows = plan.missed[::-1]
    if not rows:
        return
    begun = [row for row in rows if row.id in plan.unfinished]
    st.header("Missed" if not begun else "Unfinished" if len(begun) == len(rows) else "Missed or unfinished")
    for row in rows[:FEW]:
        _missed(now, plan, row)
    if rows[FEW:]:
        with st.expander(f"{len(rows) - FEW} earlier", key="missed_earlier"):
            for row in rows[FEW:]:
                _missed(now, plan, row)


def _missed(now: Here, plan: DayPlan, step: MemberStepRow) -> None:
    moved = from_words(step, plan.day)
    planned = f"planned for {day_words(step.due, now.today)}{f', {moved}' if moved else ''}"
    begun = plan.unfinished.get(step.id, "")
    said = f"{planned}; {begun}" if begun else planned
    st.html(f'<p class="plain"><b>{escape(step.title)}</b> <span>{escape(said)}</span></p>')
    with st.container(horizontal=True, gap="small"):
        st.button(
            "Finish it now" if begun else "Do it now", key=f"missed_now_{step.id}", help=f"Do {step.title} on this day", on_click=begin, args=(now, plan, step)
        )  # fmt: skip
        st.button(
            "Leave the rest out" if begun else "Leave it out", key=f"missed_skip_{step.id}", help=f"Leave out {step.title}", on_click=touch,
            args=(desk.skip, now.log, now.member.id, step), kwargs={"said": f"Left out: {step.title}"},
        )  # fmt: skip
        if step.state == "planned" and plan.day == now.today:
            st.button(
                f"Done {on_day_words(step.due, now.today)}", key=f"missed_then_{step.id}", help=f"Write {step.title} on its day",
                on_click=_then, args=(step,),
            )  # fmt: skip


def _then(step: MemberStepRow) -> None:
    """Go to the day on which it was planned, with this session on."""
    st.query_params[where.SESSION] = step.id
    where.go_to(step.due)
    top.wanted()


def begin(now: Here, plan: DayPlan, step: MemberStepRow) -> None:
    """Let a session be the one that is on: in the log, and in the address, so that a reload stays with it."""
    if do(desk.begin_now, now.log, now.member.id, step, plan.day, said=f"{step.title} is on"):
        st.query_params[where.SESSION] = step.id
        top.wanted()
