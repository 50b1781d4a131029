"""What else can be done with a session: another day, easier, left out, once more, ended early."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import streamlit as st

from tracker.components.acts import touch
from tracker.components.as_typed import as_typed
from tracker.components.frame import here
from tracker.components.words import day_words
from tracker.desk import today as desk
from tracker.desk.today import DayPlan
from tracker.log.records import MemberStepRow

EASIER = Decimal(10)  # per cent off all loads; the rule of the prescription room, common practice


def show(plan: DayPlan) -> None:
    """Draw the choices that fit the step."""
    step = plan.step
    if step is None:
        return
    box = st.expander("Another day, easier, or once more", key="session_menu", on_change="rerun")
    if box.open:
        with box:
            if step.state == "planned":
                _planned(plan, step)
            again = plan.day + timedelta(days=7)
            said = f"Once more on {again:%a} {again.day} {again:%b}"
            _button("Do it once more in a week", "repeat", desk.repeat, step, again, said=said)


def _planned(plan: DayPlan, step: MemberStepRow) -> None:
    st.caption("The planned sessions after it move along.")
    for days, words in ((1, "Tomorrow instead"), (2, "In two days"), (7, "In a week")):
        to = max(step.due, date.today()) + timedelta(days=days)
        _button(words, f"postpone_{days}", desk.postpone, step, days, said=f"Moved to {to:%a} {to.day} {to:%b}")
    if step.ease:
        _button("Full loads again", "full", desk.ease_off, step, None, said="Full loads again")
    else:
        _button(f"{EASIER} % easier today", "ease", desk.ease_off, step, EASIER, said=f"All loads {EASIER} % lower")
    if any(line.done for line in plan.lines):
        _button("That was it for today", "finish", desk.finish, step, said="Session ended with what was done")
    else:
        _button("Leave it out", "skip", desk.skip, step, said="Left out")


def _button(label: str, key: str, act, step: MemberStepRow, *args: object, said: str) -> None:
    now = here()
    st.button(
        label, key=f"menu_{key}", width="stretch", on_click=touch, args=(act, now.log, now.member.id, step, *args),
        kwargs={"said": said},
    )  # fmt: skip


def coming(plan: DayPlan) -> None:
    """Say what comes after this session, or, where none is due, what can be begun now."""
    step = plan.ahead
    if step is None:
        return
    when = day_words(step.due, plan.day)
    st.markdown(f"**Next session:** {as_typed(step.title)}, {when}")
    if plan.step is None or plan.step.state != "planned":
        _button("Begin it now", "begin", desk.begin_now, step, plan.day, said=f"{step.title} is on")
