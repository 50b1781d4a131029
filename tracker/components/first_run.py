"""What an empty log shows: who are you, and then something useful."""

from __future__ import annotations

import streamlit as st

from tracker.components.acts import do
from tracker.desk import people
from tracker.log.keeper import Log


def show(log: Log) -> None:
    """Ask for the first member."""
    st.title("Whose log is this?")
    with st.form("first_run", enter_to_submit=True):
        st.text_input("Your name", key="first_run_name", max_chars=people.MOST_LETTERS)
        st.radio("Your loads are in", ("kg", "lb"), key="first_run_unit", horizontal=True)
        st.form_submit_button("Begin", type="primary", on_click=_begin, args=(log,))


def _begin(log: Log) -> None:
    do(people.add_member, log, st.session_state["first_run_name"], st.session_state["first_run_unit"])
