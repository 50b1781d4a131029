"""After weeks without an entry: that loads start lower, and one touch for whoever trained meanwhile."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import Here
from tracker.desk.day import back
from tracker.desk.day.today import DayPlan


def show(now: Here, plan: DayPlan) -> None:
    """Say the rule where it holds now, else what else a break means."""
    if plan.back is None or plan.break_began is None:
        if plan.lay_off.words:
            st.info(plan.lay_off.words)
        return
    with st.container(border=True, key="back_again"):
        st.write(plan.back.words)
        st.button(
            "I trained meanwhile", key="trained_meanwhile", width="stretch", on_click=touch,
            args=(back.trained_meanwhile, now.log, now.member.id, plan.break_began, plan.day), kwargs={"said": "Full loads: you trained meanwhile"},
        )  # fmt: skip
