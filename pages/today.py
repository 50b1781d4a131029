"""The day: what is next, what is done, what comes."""

import streamlit as st

from tracker.components.frame import here

now = here()
st.title("Today")
st.write(now.member.name)
