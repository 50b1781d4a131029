"""The end of a session: how hard it was, how long it took, and a note; all three may stay blank."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import here
from tracker.conditioning.load import ANCHORS
from tracker.desk.day import session_said
from tracker.limits import MOST_MINUTES, MOST_RATING
from tracker.log.records import SessionRow


def show(session: SessionRow | None, *, open_now: bool, touched: int | None = None) -> None:
    """Draw the fields for the day's session; `touched` are its minutes by the touches of its sets."""
    if session is None:
        return
    said = f" {session.rating} of 10" if session.rating is not None else ""
    begins_open = open_now and session.rating is None
    label, key = f"How was the session?{said}", "session_end_now" if begins_open else "session_end"
    box = st.expander(label, expanded=begins_open, key=key, on_change="rerun")  # one that was closed would stay so
    opened = f"end_{session.id}_opened"
    if box.open or st.session_state.get(
        opened
    ):  # a note that was begun is still there when the box is closed and opened
        st.session_state[opened] = True
        with box:
            _fields(session, touched)


def _fields(session: SessionRow, touched: int | None) -> None:
    key, state = f"end_{session.id}", st.session_state
    state.setdefault(f"{key}_rating", session.rating)
    state.setdefault(f"{key}_minutes", session.minutes)
    state.setdefault(f"{key}_note", session.note)
    with st.form(f"{key}_form", border=False):
        st.pills(
            "How hard, 0 to 10", range(MOST_RATING + 1), format_func=rating_words, key=f"{key}_rating",
            help="The session as a whole, best half an hour after it.",
        )  # fmt: skip
        blank = f"{touched} by the times of your sets" if touched else "blank: not known"
        st.number_input(
            "Minutes", 1, MOST_MINUTES, value=None, step=5, key=f"{key}_minutes", placeholder=blank,
            help="What you write wins. Blank: from your first touch to the last, gaps of more than an hour left out.",
        )  # fmt: skip
        st.text_area("Note", key=f"{key}_note")  # one that is too long is refused, and still stands here
        st.form_submit_button("Save", width="stretch", on_click=_save, args=(key, session))


def rating_words(rating: int) -> str:
    return f"{rating} {ANCHORS[rating].lower()}" if rating in ANCHORS else str(rating)


def _save(key: str, session: SessionRow) -> None:
    now, state = here(), st.session_state
    minutes = state[f"{key}_minutes"]
    do(
        session_said.rate_session, now.log, session.id, now.member.id, rating=state[f"{key}_rating"],
        minutes=None if minutes is None else int(minutes), note=state[f"{key}_note"], said="Saved: how the session was",
    )  # fmt: skip
