"""What a member hands to others by their own act: the result of a day for the coach, and a report of a period."""

import streamlit as st

from tracker.components.coach import report_making, result_sending
from tracker.components.frame import kept
from tracker.components.frame.frame import here

PARTS = {"result": ":material/today: A day's result", "report": ":material/description: A period's report"}
now = here()
st.title("Share")
if kept.one_of("part", "Part", PARTS, default="result") == "result":
    st.caption("What you did on a day, for your coach.")
    result_sending.show(now)
else:
    st.caption("Your progress over weeks as one page, for a coach or a physiotherapist.")
    report_making.show(now)
