"""What the load is made of is completed here: ratings that are missing, silent days and weeks, and how all of it is counted."""

from __future__ import annotations

from datetime import date

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import here
from tracker.components.frame.words import day_words
from tracker.conditioning.load import ANCHORS, MONOTONY_FROM
from tracker.desk.day import session_said
from tracker.desk.history import silent
from tracker.desk.history.silent import SilentWeeks
from tracker.desk.history.training_load import LoadReport
from tracker.limits import MOST_MINUTES, MOST_RATING
from tracker.log.records import SessionRow
from tracker.wording import counted

LOAD = (
    "**Load**: rating of the whole session × its minutes; these points are called arbitrary units, a.u., in papers (Foster et al. 2001, J Strength Cond Res "
    "15(1):109–115)."
)
USUAL = (
    "**Usual**: from the least to the most of your last six known weeks; a week that is on, up to the same day of those. Our "
    "choice. A week without any entry is left out."
)
MORE = (
    "**More than usual**: of load, time, how hard and sessions, as far as they can be compared, at least half are above their "
    "usual range and none is below it; less: the other way round; else about as usual. Our choice."
)
MONOTONY = (
    "**Monotony**: mean of the seven days' loads over their standard deviation (divided by 6), in the table of weeks with "
    f"{MONOTONY_FROM} or more days of training (the method: Foster 1998, Med Sci Sports Exerc 30(7):1164–1168; from how many "
    "days on it means something: our choice). It has no limit that holds for everybody."
)
RATIO = (
    "More than usual is no forecast of an injury: in a randomised trial, steering by the ratio of recent to earlier load "
    "prevented nothing (Dalen-Lorentsen et al. 2021, Br J Sports Med 55(2):108–114), so none is shown. Talk a jump over with "
    "your coach."
)


def counted_so(report: LoadReport) -> None:
    """Name the definitions with their status, and let the member say what silent days are."""
    with st.expander("How it is counted", key="load_source"):
        st.session_state["load_silent"] = report.silent_rests
        st.toggle("Days without an entry are rest", key="load_silent", on_change=_count)
        st.caption("In a week with a session; our choice. Off: such days are asked about, one by one.")
        for each in (LOAD, USUAL, MORE, MONOTONY, RATIO):
            st.markdown(each)


def _count() -> None:
    now, as_rest = here(), bool(st.session_state["load_silent"])
    said = f"Days without an entry: {'rest' if as_rest else 'not known'}"
    do(silent.count_silent_days, now.log, now.member.id, now.today, as_rest=as_rest, said=said)


def weeks(report: LoadReport) -> None:
    """Ask once of weeks without any entry whether they were rest."""
    found = report.silent_weeks
    if found is None:
        return
    with st.container(border=True, key="load_silent_weeks"):
        many = "A week" if found.weeks == 1 else f"{found.weeks} weeks"
        st.markdown(f"**{many} without an entry: {_days(found)}.** Were you resting?")
        with st.container(horizontal=True, gap="small"):
            st.button("I rested", key="load_weeks_rest", on_click=_weeks, args=(found, True))
            st.button("I trained, not logged", key="load_weeks_trained", on_click=_weeks, args=(found, False))


def _days(found: SilentWeeks) -> str:
    year = f" {found.last.year}" if found.last.year != here().today.year else ""
    return f"{found.first.day} {found.first:%b} to {found.last.day} {found.last:%b}{year}"


def _weeks(found: SilentWeeks, rested: bool) -> None:
    now = here()
    said = f"{_days(found)}: {'rest' if rested else 'trained, not logged'}"
    do(silent.say_of_weeks, now.log, now.member.id, found.first, found.last, now.today, rested=rested, said=said)


def ratings(report: LoadReport, today: date) -> None:
    """Offer to rate the sessions whose rating or minutes are missing; late is better than not."""
    if not report.unrated:
        return
    names = {row.id: f"{day_words(row.day, today)}{f', {row.label}' if row.label else ''}" for row in report.unrated}
    known = {row.id: row for row in report.unrated}
    with st.expander(f"{counted(len(names), 'session')} without rating or minutes", key="load_unrated"):
        chosen = st.selectbox("Session", list(names), format_func=names.__getitem__, key="load_session")
        row = known.get(chosen or "", report.unrated[0])
        with st.form(f"load_rate_{row.id}", border=False):
            st.pills(
                "How hard was the whole session?", range(MOST_RATING + 1), default=row.rating, key=f"load_rating_{row.id}",
                format_func=lambda each: f"{each} {ANCHORS[each].lower()}" if each in ANCHORS else str(each),
            )  # fmt: skip
            st.number_input("Minutes", 1, MOST_MINUTES, value=row.minutes, step=5, key=f"load_minutes_{row.id}")
            st.form_submit_button("Save", on_click=_rate, args=(row,))


def _rate(row: SessionRow) -> None:
    now, state = here(), st.session_state
    minutes = state[f"load_minutes_{row.id}"]
    do(
        session_said.rate_session, now.log, row.id, now.member.id, rating=state[f"load_rating_{row.id}"],
        minutes=None if minutes is None else int(minutes), note=row.note, said="Saved: how the session was",
    )  # fmt: skip


def days(report: LoadReport, today: date) -> None:
    """Where silent days are not taken as rest: ask of the last ones which were."""
    if not report.open_days:
        return
    names = {day.isoformat(): day_words(day, today) for day in report.open_days}
    with (
        st.expander(f"{counted(len(names), 'day')} of the last 14 without an entry", key="load_rest"),
        st.form("load_rest_form", border=False),
    ):
        st.pills(
            "On which of them did you rest?", list(names), format_func=names.__getitem__, selection_mode="multi", key="load_rested"
        )  # fmt: skip
        st.form_submit_button("I rested on these", on_click=_rest)


def _rest() -> None:
    now = here()
    chosen = [date.fromisoformat(each) for each in st.session_state["load_rested"]]
    if chosen:
        do(silent.say_rested_on_all, now.log, now.member.id, chosen, said=f"Rest said of {counted(len(chosen), 'day')}")
