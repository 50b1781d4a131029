"""A member's report of a period: made when the member asks for it, handed out once, kept nowhere."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here, here
from tracker.desk.base.cached import newest_entry
from tracker.desk.coach import report
from tracker.log.changes_since import Stamp

Asked = tuple[
    str, date, date, bool, bool, Stamp | None
]  # whose, from, to, with notes, with limits, as of which entry of the history
MADE = "report_made"
SPANS = {"28": "4 weeks", "84": "12 weeks", "182": "Half a year", "365": "A year", "": "Other days"}


@dataclass(frozen=True, slots=True)
class Made:
    """A report that was made, and what it was asked for: with another question it is not shown any more."""

    asked: Asked
    name: str
    html: str


def show(now: Here) -> None:
    """Ask for the period, make the report, and hand it out."""
    span = st.pills(
        "Period", list(SPANS), format_func=SPANS.__getitem__, key="report_span", default="84", required=True
    )
    first, last = (now.today - timedelta(days=int(span) - 1), now.today) if span else _days(now)
    notes = st.toggle("Include my session notes", key="report_notes")
    st.caption("They may say more than you want to share." if notes else "Your notes stay in your log.")
    limits = st.toggle(
        "Include what was sore or ill, and how I was", key="report_limits",
        help="For a physiotherapist or a doctor, for instance. It is asked for each report.",
    )  # fmt: skip
    asked = (now.member.id, first, last, notes, limits, newest_entry(now.log))
    st.button("Make the report", type="primary", width="stretch", key="report_make", on_click=_make, args=(asked,))
    made: Made | None = st.session_state.get(MADE)
    if made is not None and made.asked == asked:
        st.download_button(
            "Save the report", made.html, file_name=made.name, mime="text/html", key="report_save", width="stretch",
            on_click="ignore", icon=":material/download:",
        )  # fmt: skip
        st.caption(
            "One file that opens in any browser and prints on A4. It holds health data: give it only to whom you trust."
        )


def _days(now: Here) -> tuple[date, date]:
    with st.container(horizontal=True, gap="small"):
        first = st.date_input(
            "From", now.today - timedelta(days=27), key="report_first", format="YYYY-MM-DD", width=170
        )
        last = st.date_input("To", now.today, key="report_last", format="YYYY-MM-DD", width=170)
    return first, last


def _make(asked: Asked) -> None:
    st.session_state.pop(MADE, None)
    do(_write, asked)


def _write(asked: Asked) -> None:
    now, (member_id, first, last, notes, limits, _) = here(), asked
    period = report.Period(first, last)
    name, html = report.make_report(now.log, member_id, period, today=now.today, with_notes=notes, with_limits=limits)
    st.session_state[MADE] = Made(asked, name, html)
