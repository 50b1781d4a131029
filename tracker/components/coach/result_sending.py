"""A member's result of a day for the coach: shown whole before it goes anywhere, as a line to copy or a file."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame import empty
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up
from tracker.desk.coach import send_result
from tracker.errors import TidemarkError


def show(now: Here) -> None:
    """Draw the line and the file of the chosen day."""
    days = send_result.days_to_send(now.log, now.member.id)
    if not days:
        empty.nothing_logged()
        return
    day = st.selectbox(
        "Day", days, format_func=lambda each: first_up(day_words(each, now.today)), key=f"send_day_{now.member.id}"
    )
    body = any(
        one.implement == "body" for one in send_result.result_of(now.log, now.member.id, day).sets
    ) and st.toggle("With my body mass", key="send_body", help="A load added to the body says little without it.")
    maxes = st.toggle(
        "With my tested and declared maxes", key="send_maxes", help="Your coach's log needs them to find your loads."
    )
    options = {"with_body_mass": body, "with_maxes": maxes}
    result = send_result.result_of(now.log, now.member.id, day, **options)
    st.markdown(f"**{as_typed(send_result.said_plainly(result))}**")
    st.caption(
        "Ramp sets and notes stay here. Nothing is sent: copy the line, or save the file, and give it to your coach."
    )
    try:
        st.code(send_result.result_line(now.log, now.member.id, day, **options), language=None, wrap_lines=True)
    except TidemarkError as error:  # a score that no line can carry; the file can
        st.info(f"{error.what} {error.mend}", icon=":material/info:")
    name, text = send_result.result_file(now.log, now.member.id, day, **options)
    st.download_button(
        "Save the file", text, file_name=name, mime="application/json", key="send_file", width="stretch",
        on_click="ignore", icon=":material/download:",
    )  # fmt: skip
