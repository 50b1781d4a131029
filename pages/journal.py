"""What was done: sessions newest first, a month at a glance, the weeks, and every act with its way back."""

import streamlit as st

from tracker.components.frame import cautions, kept
from tracker.components.frame.frame import here
from tracker.components.history import glance, session_list

VIEWS = {"sessions": "Sessions", "month": "Month", "weeks": "Weeks", "acts": "Changes"}
now = here()
st.title("Journal")
view = kept.one_of("view", "View", VIEWS, default="sessions")
if view == "sessions":
    text = st.text_input("Search lifts and notes", key="journal_search", type="search", max_chars=60)
    session_list.show(now, text.strip())
elif view == "month":
    glance.month(now)
elif view == "weeks":
    glance.load_by_week(now)
else:
    glance.acts(now)
cautions.stop_signs()
