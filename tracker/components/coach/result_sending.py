"""A member's result of a day for the coach: said in words before it goes anywhere, as a line to copy or a file."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.coach import class_choice, copy_button
from tracker.components.frame import empty
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up
from tracker.desk.coach import send_result
from tracker.errors import TidemarkError
from tracker.exchange.result import Result


def show(now: Here) -> None:
    """Draw what goes along of the chosen day, and the two ways to hand it over."""
    class_choice.style()
    days = send_result.days_to_send(now.log, now.member.id)
    if not days:
        empty.nothing_logged()
        return
    day = st.selectbox(
        "Day", days, format_func=lambda each: first_up(day_words(each, now.today)), key=f"send_day_{now.member.id}"
    )
    body = any(
        one.implement == "body" for one in send_result.result_of(now.log, now.member.id, day).sets
    ) and st.toggle("Include my body mass", key="send_body", help="A load added to the body says little without it.")
    maxes = st.toggle("Include my maxes", key="send_maxes", help="Your coach's log needs them to find your loads.")
    options = {"with_body_mass": body, "with_maxes": maxes}
    result = send_result.result_of(now.log, now.member.id, day, **options)
    _what_goes(result)
    try:
        line = send_result.result_line(now.log, now.member.id, day, **options)
    except TidemarkError as error:  # a score that no line can carry; the file can
        line = ""
        st.info(f"{error.what} {error.mend}", icon=":material/info:")
    if line:
        copy_button.show(
            line, label="Copy for my coach", done="Copied: paste it into a message to your coach.",
            failed="This browser does not copy: open the line below and mark it.", key="send_copy",
        )  # fmt: skip
    name, text = send_result.result_file(now.log, now.member.id, day, **options)
    st.download_button(
        "Save as a file", text, type="secondary" if line else "primary", file_name=name, mime="application/json",
        key="send_file", width="stretch", on_click="ignore", icon=":material/download:",
    )  # fmt: skip
    if line:
        with st.expander("The line as it is copied", key="send_line", icon=":material/code:"):
            st.code(line, language=None, wrap_lines=True)
            st.caption("Your coach's log reads it. Six left stands for six or more.")


def _what_goes(result: Result) -> None:
    """Say in plain words what goes along, lift by lift, and what stays."""
    rows = "".join(
        f'<tr><th scope="row" class="who">{escape(first_up(what))}</th><td>{escape(said)}</td></tr>'
        for what, said in send_result.said_by_part(result)
    )
    st.html(
        f'<p class="over">{escape(send_result.said_plainly(result))}</p><table class="class-table">{rows}</table>'
        '<p class="plain small class-soft">Warm-up sets and notes stay in your log. Nothing is sent from here.</p>'
    )
