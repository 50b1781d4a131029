"""Lifts with their implements, and rep-maxes known without their set."""

from __future__ import annotations

from dataclasses import replace
from html import escape

import streamlit as st

from tracker.components.frame.acts import do, tell
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.effects import do_and_tell
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up, load_words
from tracker.components.people.how_known import check_how, check_reps
from tracker.desk.day import weights
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.errors import TidemarkError, together
from tracker.limits import MOST_TYPED
from tracker.log.records import LiftRecord, RepMaxRow
from tracker.units import Mass, parse_mass


def unasked(now: Here) -> None:
    """Ask once of each imported lift what it is done with."""
    for lift in people.lifts(now.log, now.member_id):
        if lift.implement == "unasked":
            with st.container(border=True):
                st.markdown(f"**{as_typed(first_up(lift.name))}** came from a file. What is it done with?")
                field = f"implement_{lift.id}"
                st.selectbox("Done with", list(people.IMPLEMENTS), format_func=people.IMPLEMENTS.__getitem__, key=field)
                st.button("Save", key=f"{field}_save", width="stretch", on_click=_say, args=(now, lift, field))


def _say(now: Here, lift: LiftRecord, field: str) -> None:
    implement = st.session_state[field]
    do(
        people.say_implement, now.log, lift.id, implement, now.member_id,
        said=f"Saved: {lift.name}, {people.IMPLEMENTS[implement]}",
    )  # fmt: skip


def lifts(now: Here) -> None:
    """List the lifts, and add one."""
    unasked(now)
    known = people.lifts(now.log, now.member_id)
    with st.form("add_lift", clear_on_submit=False):
        st.text_input("Name of a new lift", key="add_lift_name")
        st.selectbox(
            "Done with", list(people.IMPLEMENTS), format_func=people.IMPLEMENTS.__getitem__, key="add_lift_with"
        )
        st.checkbox("Repetitions are counted on each side", key="add_lift_sides")
        st.form_submit_button("Add the lift", type="primary", width="stretch", on_click=_add_lift, args=(now,))
    if known:
        st.markdown("**In this log:** each implement is a history of its own.")
        st.markdown("\n".join(f"- {as_typed(lift_words(lift))}" for lift in known))


def lift_words(lift: LiftRecord) -> str:
    """Say a lift with its implement, and that it counts on each side."""
    implement = "implement not said yet" if lift.implement == "unasked" else people.IMPLEMENTS[lift.implement]
    return f"{lift.name}: {implement}{', each side' if lift.per_side else ''}"


def _add_lift(now: Here) -> None:
    state = st.session_state
    do(
        people.add_lift, now.log, state["add_lift_name"], state["add_lift_with"], per_side=state["add_lift_sides"],
        member_id=now.member_id, said=lambda lift: f"Saved: {lift_words(lift)}",
    )  # fmt: skip


def maxes(now: Here) -> None:
    """Record a rep-max that was tested elsewhere or is believed in, and list those that are known."""
    known = {lift.id: lift for lift in weights.lift_choices(now.log, now.member)}
    st.caption(
        "Tests that you log here count by themselves. This is for a max from elsewhere, or one that you believe in."
    )
    if not known:
        st.write("Add a lift first.")
        return
    unit = now.member.unit
    with st.form("add_max", clear_on_submit=False):
        st.selectbox("Lift", list(known), format_func=lambda each: known[each].title, key="add_max_lift")
        st.number_input("Repetitions", 1, 30, None, key="add_max_reps", placeholder="such as 3")
        st.text_input(f"Load, {unit}", key="add_max_load", max_chars=MOST_TYPED)
        st.date_input("Day", None, key="add_max_day", max_value=now.today, format="YYYY-MM-DD")
        st.radio(
            "It was",
            ("tested", "declared"),
            index=None,
            key="add_max_how",
            horizontal=True,
            help="Declared: known or guessed, without a test.",
        )
        st.form_submit_button("Save the rep-max", type="primary", width="stretch", on_click=_add_max, args=(now,))
    for row in rep_maxes.rep_maxes(now.log, now.member.id):
        with st.container(key=f"row_max_{row.id}", horizontal=True, vertical_alignment="center", gap="small"):
            st.html(f'<p class="plain">{escape(max_words(row))}, {day_words(row.day, now.today)}</p>')
            st.button(
                "Use it again" if row.aside else "Set aside", key=f"max_aside_{row.id}", on_click=_aside, args=(now, row),
                help=f"{as_typed(max_words(row))}: kept and shown, and used for no load",
            )  # fmt: skip
            st.button(
                "Remove",
                key=f"max_remove_{row.id}",
                help=f"Remove {as_typed(max_words(row))}",
                on_click=_remove,
                args=(now, row),
            )


def max_words(row: RepMaxRow) -> str:
    """Say a rep-max with its source and lift."""
    aside = " (set aside)" if row.aside else ""
    return f"{row.lift.title}: {row.source} {row.reps}RM {load_words(row.load, row.lift)}{aside}"


def _add_max(now: Here) -> None:
    state = st.session_state
    loads: list[Mass] = []
    try:
        together(
            lambda: loads.append(parse_mass(state["add_max_load"], unit=now.member.unit, where="load")),
            lambda: check_reps(state["add_max_reps"]),
            lambda: check_how(state["add_max_how"], state["add_max_day"], tested="tested"),
        )
    except TidemarkError as error:
        tell(error)
        return
    tested, reps = state["add_max_how"] == "tested", int(state["add_max_reps"] or 0)
    do_and_tell(
        now, rep_maxes.add_rep_max, now.log, now.member.id, state["add_max_lift"], state["add_max_day"] or now.today, reps,
        loads[0], tested=tested, said=f"Saved: {state['add_max_how']} {reps}RM of {loads[0]}.",
    )  # fmt: skip


def _aside(now: Here, row: RepMaxRow) -> None:
    said = "Used again" if row.aside else "Set aside"
    do_and_tell(
        now, rep_maxes.set_aside, now.log, now.member.id, row.id, now.today, aside=not row.aside,
        said=f"{said}: {max_words(replace(row, aside=False))}.",
    )  # fmt: skip


def _remove(now: Here, row: RepMaxRow) -> None:
    do_and_tell(now, rep_maxes.remove_rep_max, now.log, now.member.id, row.id, said=f"Removed: {max_words(row)}.")
