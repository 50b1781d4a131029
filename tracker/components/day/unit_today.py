"""Kilograms or pounds for this lift or this day, beside the fields of a set: one touch, and only for the day."""

from __future__ import annotations

from collections.abc import Callable

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import here
from tracker.desk.day import unit_today
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.today import DayPlan
from tracker.units import Unit


def show(plan: DayPlan, line: PlannedLine, unit: Unit, then: Callable[[], None]) -> None:
    """Offer the other unit, for this lift and for all of today; `then` empties the fields that were filled in the former one."""
    other: Unit = "kg" if unit == "lb" else "lb"
    with st.container(horizontal=True, gap="small", key="unit_today"):
        for lift_id, words in ((line.lift.id, "this lift"), ("", "all of today")):
            st.button(
                f"In {unit_today.NAMES[other]}, {words}", key=f"unit_{'lift' if lift_id else 'day'}", type="tertiary",
                on_click=_say, args=(plan, other, lift_id, words, then),
            )  # fmt: skip


def _say(plan: DayPlan, unit: Unit, lift_id: str, words: str, then: Callable[[], None]) -> None:
    now = here()
    said = f"{words[:1].upper()}{words[1:]} is in {unit_today.NAMES[unit]}, for today alone"
    if do(unit_today.say, now.log, now.member.id, unit, plan.day, lift_id=lift_id, said=said):
        then()
