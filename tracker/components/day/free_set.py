"""Logs any lift in a few touches, without a wave: the newest lift and its last load stand there already."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from html import escape

import streamlit as st

from tracker.components.day import editor, load_field, set_acts
from tracker.components.day.usual import usual_set
from tracker.components.frame.acts import do
from tracker.components.frame.frame import here, token
from tracker.components.frame.words import first_up
from tracker.desk.day import after_miss, last_time, sore, weights
from tracker.desk.people import people, places
from tracker.log.records import Implement, LiftRecord
from tracker.log.sets import NewSet
from tracker.units import Mass

LIFT = "free_lift"


def show(day: date) -> None:
    """Draw the choice of lift and the fields of a set."""
    now = here()
    known = _lifts()
    if known:
        if st.session_state.get(LIFT) not in known:
            st.session_state[LIFT] = next(iter(known))
        st.selectbox("Lift", list(known), format_func=lambda each: first_up(known[each].title), key=LIFT)
        lift = known[st.session_state[LIFT]]
        place = places.place_of(now.log, now.member, day)
        start, kept = usual_set(lift, now.member, place, day)
        key = f"free_{now.member.id[:8]}_{lift.id[:8]}"
        most = after_miss.most_today(now.log, now.member.id, lift.id, day)
        if most is not None and start.load.kg > most.kg:
            start = replace(start, load=most)
        scene = editor.SetForm(lift, now.member, place, start.load.unit, most)
        drawn = token(f"free-{day}-{lift.id}")
        _, heavier = places.next_loads(start.load, lift, now.member, place)
        heavier = heavier if most is None else None  # nothing is to be beaten after a miss
        lines = last_time.free_words(now.log, now.member.id, lift, day, next_load=heavier, unit=start.load.unit)
        painful = sore.state(now.log, now.member.id).is_painful(lift.name)
        if painful:  # what was lifted before is no load to lift now: the field is theirs to fill
            st.html(f'<p class="plain note">{escape(sore.FREE_PAINFUL)}</p>')
            st.session_state.setdefault(load_field.name(key), "")
            lines = lines[:1]
        if lines:
            st.html("".join(f'<p class="plain before">{escape(each)}</p>' for each in lines))
        old = people.body_mass_asked(people.body_masses(now.log, now.member.id), day) if lift.body else ""
        if old:
            st.html(f'<p class="plain note">{escape(old)}</p>')
        editor.draw(
            key,
            start,
            scene,
            label="Log this set",
            kinds=True,
            guessed=not kept and not painful,
            on_log=lambda new: _log(key, new, day, drawn, most),
        )
    with st.expander("A lift that is not in the list", expanded=not known, key="new_lift"):
        _new_lift()


def _lifts() -> dict[str, LiftRecord]:
    """Return the lifts by id: the member's own first, the lately done on top, then all others."""
    now = here()
    return {lift.id: lift for lift in weights.lift_choices(now.log, now.member)}


def _log(key: str, new: NewSet, day: date, drawn: str, most: Mass | None) -> None:
    if set_acts.log_set(new, day, drawn, most):
        editor.forget(key)


def _new_lift() -> None:
    with st.form("free_new_lift", border=False):
        st.text_input("Name of the lift", key="free_new_name", placeholder="such as back squat")
        st.selectbox(
            "Done with", list(people.IMPLEMENTS), format_func=people.IMPLEMENTS.__getitem__, key="free_new_implement",
            help="Two implements are two histories.",
        )  # fmt: skip
        st.checkbox("Each side by itself", key="free_new_side", help="Repetitions are then those of each side.")
        st.form_submit_button("Take this lift", on_click=_add_lift)


def _add_lift() -> None:
    state = st.session_state
    implement: Implement = state["free_new_implement"]
    do(_added, state["free_new_name"], implement, state["free_new_side"])


def _added(name: str, implement: Implement, side: bool) -> None:
    now = here()
    lift = people.add_lift(now.log, name, implement, per_side=side, member_id=now.member.id)
    st.session_state[LIFT] = lift.id
