"""A lift that can't be done here, or that somebody does not want to do today: left out or replaced, for this session alone.

Nobody else sees why; that nothing stands there for it is told to the coach where the member touches so.
"""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import do, touch
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up
from tracker.desk.day import singly, sore, sore_choice, told
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.today import DayPlan
from tracker.prescription.body_parts import ONE_AT_A_TIME, Other

TELL = "left_out_tell"


def show(now: Here, plan: DayPlan, line: PlannedLine) -> None:
    """Offer beneath the next set to leave its lift out or to do another one; open at once where nothing stands there for it."""
    missing = singly.nothing_for(plan, line)
    if line.planned.test or line.painful:
        return
    box = st.expander(
        f"Leave out or replace {line.lift.name}", expanded=missing, key=f"singly_{line.lift.id}", on_change="rerun"
    )
    if not box.open and not missing:
        return
    with box:
        _ways(now, plan, line, missing=missing)


def _ways(now: Here, plan: DayPlan, line: PlannedLine, *, missing: bool) -> None:
    st.caption("For this session alone. Nobody else sees why.")
    if missing:
        st.checkbox("Tell the coach that there is no kit for it here", key=TELL)
    _way(now, line, "Leave it out", "leave", f"{first_up(line.lift.name)} is left out")
    for other in singly.others(plan, line):
        label = (
            f"With one {other.implement}, each side"
            if other.kind == ONE_AT_A_TIME
            else f"{first_up(other.name)} instead"
        )
        _way(now, line, label, "instead", label, other)


def _way(now: Here, line: PlannedLine, label: str, how: sore.How, said: str, other: Other | None = None) -> None:
    st.button(
        label, key=f"singly_{how}_{line.lift.id}_{other.name if other else ''}", width="stretch", on_click=_choose,
        args=(now, line, how, said, other),
    )  # fmt: skip


def _choose(now: Here, line: PlannedLine, how: sore.How, said: str, other: Other | None) -> None:
    tell = bool(st.session_state.get(TELL))
    if (
        do(sore_choice.choose, now.log, now.member.id, line.lift.id, how, other=other, step_id=line.step_id, said=said)
        and tell
    ):
        do(told.tell_left_out, now.log, now.member.id, line.lift.id, now.today, said=f"{said}; the coach is told why")


def chosen(now: Here, plan: DayPlan) -> None:
    """Say which lifts of the session are left out or replaced, each with the way back."""
    for lift, way in singly.chosen(plan):
        begun = any(row.lift.name == lift.name for row in plan.done)
        words = f"{'the rest is ' if begun else ''}{'left out' if way.how == 'leave' else 'replaced'}"
        with st.container(key=f"row_singly_{lift.id}", horizontal=True, vertical_alignment="center", gap="small"):
            st.html(f'<p class="plain">{first_up(lift.name)}: {words} today</p>')
            st.button(
                "As planned again", key=f"singly_keep_{lift.id}", on_click=touch,
                args=(sore_choice.choose, now.log, now.member.id, lift.id, "keep"),
                kwargs={"step_id": plan.step.id if plan.step else "", "said": f"{first_up(lift.name)} is as planned"},
            )  # fmt: skip
