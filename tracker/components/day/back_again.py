"""After weeks without an entry: whether loads start lower is asked, whoever trained meanwhile says how, and old maxes are asked about."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.frame.acts import do, touch
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up, load_words
from tracker.desk.day import back
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.old_maxes import OldMax
from tracker.desk.day.today import DayPlan
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.maxes.references import ago
from tracker.prescription.illness import AfterIllness

MEANWHILE = "back_meanwhile"  # the first touch of two: whoever trained is asked how


def show(now: Here, plan: DayPlan) -> None:
    """Say the rule where it holds now, else what else a break means."""
    if isinstance(plan.back, AfterIllness):
        st.info(plan.back.words)
        return
    if plan.back is None or plan.break_began is None:
        if plan.lay_off.words:
            st.info(plan.lay_off.words)
        return
    with st.container(border=True, key="back_again"):
        st.write(plan.back.words)
        if st.session_state.get(MEANWHILE) != now.member.id:
            st.button(
                "I trained meanwhile", key="trained_meanwhile", width="stretch", on_click=_asked, args=(now.member.id,)
            )
            return
        st.write("How did you train meanwhile?")
        _how(now, plan, "same", "Same kit and loads: as asked at once")
        _how(now, plan, "lighter", "Lighter, or with other kit: 10 % lower for two sessions")
        st.button("Close", key="meanwhile_close", type="tertiary", on_click=_asked, args=("",))


def _asked(member_id: str) -> None:
    st.session_state[MEANWHILE] = member_id


def _how(now: Here, plan: DayPlan, how: back.How, label: str) -> None:
    st.button(label, key=f"meanwhile_{how}", width="stretch", on_click=_meanwhile, args=(now, plan, how))


def _meanwhile(now: Here, plan: DayPlan, how: back.How) -> None:
    said = "Loads as asked: you trained meanwhile" if how == "same" else "10 % lower for two sessions"
    if plan.break_began and do(
        back.trained_meanwhile, now.log, now.member.id, plan.break_began, plan.day, how, said=said
    ):
        _asked("")


def ask(now: Here, plan: DayPlan, line: PlannedLine) -> None:
    """Ask on the card of the next set whether loads start lower; nothing is logged before it is answered."""
    if plan.back is None or plan.break_began is None or line.made is None:
        return
    _start(now, plan, "lower", f"{plan.back.percent} % lower: {load_words(line.made.load, line.lift)}")
    if line.full is not None:
        _start(now, plan, "as asked", f"As asked: {load_words(line.full.load, line.lift)}")


def _start(now: Here, plan: DayPlan, how: back.Start, label: str) -> None:
    st.button(
        label, key=f"start_{how.replace(' ', '_')}", width="stretch", on_click=touch,
        args=(back.start, now.log, now.member.id, plan.break_began, plan.day, how), kwargs={"said": f"Kept: {label}"},
    )  # fmt: skip


def old(now: Here, plan: DayPlan) -> None:
    """Ask of each max from before the break, which today's loads are a part of, whether it still holds."""
    if plan.break_began is None:
        return
    for each in plan.old_maxes:
        with st.container(border=True, key=f"old_max_{each.lift.id}_{each.reference.reps}"):
            _old(now, each, plan.break_began, plan.day)


def _old(now: Here, each: OldMax, since: date, day: date) -> None:
    reps, lift = each.reference.reps, each.lift
    age = ago(each.reference.age_days(day))
    st.html(
        f'<p class="plain"><b>{escape(first_up(each.words))}</b>, is from before the break ({age}). Does it still hold?</p>'
    )
    st.button(
        "It still holds", key=f"old_holds_{lift.id}_{reps}", on_click=touch,
        args=(back.still_holds, now.log, now.member.id, lift.id, reps, since, day),
        kwargs={"said": f"Kept: your {reps}RM of {as_typed(lift.name)} still holds"},
    )  # fmt: skip
    st.button(
        "No: set it aside", key=f"old_aside_{lift.id}_{reps}", on_click=_aside, args=(now, each, day),
        help="It stays in the history and on the trend, and no load is a part of it any more.",
    )  # fmt: skip


def _aside(now: Here, each: OldMax, day: date) -> None:
    if each.reference.record is None:
        return
    kind, record = each.reference.record
    said = f"Set aside: {as_typed(each.words)}. Loads are worked out without it."
    if kind == "set":
        do(journal.leave_out, now.log, record, "set aside after a break", said=said)
    else:
        do(rep_maxes.set_aside, now.log, now.member.id, record, day, said=said)
