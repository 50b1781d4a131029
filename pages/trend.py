"""The trend of a lift."""

import streamlit as st

from tracker.components.frame import here

now = here()
st.title("Trend")
