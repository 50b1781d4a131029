"""Begins a day without a sheet: as last Tuesday, or as a session that was given a name; and gives one a name."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.acts import do, touch
from tracker.components.frame.frame import Here, here
from tracker.components.frame.words import first_up
from tracker.desk.day import own_session
from tracker.desk.day.own_session import Source
from tracker.desk.day.today import DayPlan
from tracker.log.records import SessionRow

FEW = 3  # offered at once; the others one touch away
NAME = "own_name"


def show(now: Here, plan: DayPlan) -> None:
    """Offer what the day can be begun from; nothing where nothing was done before."""
    found = own_session.sources(now.log, now.member.id, plan.day)
    if not found:
        return
    st.header("Begin from")
    st.caption("Its sets are laid out for this day with the loads you made last. Leave or change whatever you like.")
    for source in found[:FEW]:
        _offer(now, plan, source)
    if found[FEW:]:
        box = st.expander(f"{len(found) - FEW} more", key="own_more", on_change="rerun")
        if box.open:
            with box:
                for source in found[FEW:]:
                    _offer(now, plan, source)


def _offer(now: Here, plan: DayPlan, source: Source) -> None:
    st.button(
        source.title, key=f"own_{source.session_id}", width="stretch", help=f"Lay out {source.said}", on_click=touch,
        args=(own_session.begin, now.log, now.member.id, source.session_id, plan.day), kwargs={"said": own_session.words},
    )  # fmt: skip
    st.html(f'<p class="plain small">{escape(first_up(source.said))}</p>')


def save(session: SessionRow | None, plan: DayPlan) -> None:
    """Offer to keep what was done under a name, once something was."""
    if session is None or not plan.sets:
        return
    box = st.expander("Keep this session for another day", key="own_save", on_change="rerun")
    if box.open:
        with box, st.form("own_form", border=False):
            st.text_input("What to call it", key=NAME, placeholder="such as Leg day")
            st.form_submit_button("Keep it", width="stretch", on_click=_save, args=(session,))
        with box:
            _kept(plan)


def _save(session: SessionRow) -> None:
    now = here()
    name = st.session_state[NAME]
    if do(own_session.save_as, now.log, now.member.id, session.id, name, said=lambda kept: f"Kept as {kept}"):
        st.session_state[NAME] = ""


def _kept(plan: DayPlan) -> None:
    """List what is kept, each to be let go; what was done in it stays."""
    now = here()
    for source in own_session.sources(now.log, now.member.id, plan.day):
        if source.name:
            st.button(
                f"No longer offer {source.name}", key=f"own_forget_{source.session_id}", type="tertiary", on_click=touch,
                args=(own_session.forget_saved, now.log, now.member.id, source.name),
                kwargs={"said": f"{source.name} is not offered any more; what was done stays"},
            )  # fmt: skip
