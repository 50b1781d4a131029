"""Whose max the percentages of a complex are of: asked at the set, once, each with what it is."""

from __future__ import annotations

from datetime import date

import streamlit as st

from tracker.components.frame.acts import touch
from tracker.components.frame.frame import here
from tracker.desk.day import complex_max
from tracker.desk.day.lines import PlannedLine


def ask(line: PlannedLine, day: date) -> None:
    """Offer the maxes that may count, where nobody said which does."""
    if not line.max_ways:
        return
    now = here()
    with st.container(key="complex_max", gap="small"):
        for of, reference in line.max_ways:
            label = complex_max.label(of, reference)
            st.button(
                label, key=f"max_of_{of.id}", on_click=touch,
                args=(complex_max.say, now.log, now.member.id, line.lift.id, of.id, day),
                kwargs={"said": f"Kept for {line.lift.name}: of the max of {of.name}"},
            )  # fmt: skip
