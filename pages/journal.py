"""What was done: sessions newest first, months whose days open, and every act with its way back."""

import streamlit as st

from tracker.components.frame import kept
from tracker.components.frame.frame import here
from tracker.components.history import glance, session_list

VIEWS = {"sessions": "Sessions", "month": "Month", "acts": "Changes"}
now = here()
st.title("Journal")
view = kept.one_of("view", "View", VIEWS, default="sessions")
if view == "sessions":
    text = st.text_input(
        "Search", key="journal_search", type="search", max_chars=60, placeholder="lift, piece or word of a note",
        label_visibility="collapsed",
    )  # fmt: skip
    session_list.show(now, text.strip())
elif view == "month":
    glance.month(now)
else:
    glance.acts(now)
