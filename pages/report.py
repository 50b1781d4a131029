"""What a member hands to others by their own act: the result of a day for the coach, and a report of a period."""

import streamlit as st

from tracker.components.coach import report_making, result_sending
from tracker.components.frame import cautions, kept
from tracker.components.frame.frame import here

PARTS = {"result": "A day's result", "report": "A period's report"}
now = here()
st.title("Hand out")
if kept.one_of("part", "Part", PARTS, default="result") == "result":
    result_sending.show(now)
else:
    report_making.show(now)
cautions.stop_signs()
