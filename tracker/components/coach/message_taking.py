"""What a member told the coach, written down: whose, which session, its sets, the score, how hard it was."""

from __future__ import annotations

from datetime import date

import streamlit as st

from tracker.components.day.session_end import rating_words
from tracker.components.frame.acts import do, touch
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here
from tracker.components.frame.words import day_words, first_up
from tracker.desk.coach import from_message
from tracker.desk.coach.from_message import Told
from tracker.desk.people import people
from tracker.limits import MOST_MINUTES
from tracker.log.records import MemberStepRow


def show(now: Here) -> None:
    """Draw the box, closed until somebody wants it."""
    box = st.expander(
        "Write down what a member told you", key="coach_message", on_change="rerun", icon=":material/edit_note:"
    )
    if not box.open:
        return
    with box:
        members = {each.id: as_typed(each.name) for each in people.members(now.log)}
        st.caption("It stands in their history as written down by you; they can edit or undo it.")
        whose = st.selectbox("Member", list(members), format_func=members.__getitem__, key="told_who", index=None)
        if whose is None:
            return
        _taken_back(whose)
        day: date = (
            st.date_input("Done on", now.today, key="told_day", format="YYYY-MM-DD", max_value=now.today) or now.today
        )
        steps = {each.id: each for each in from_message.sessions_of(now.log, whose, day)}
        if not steps:
            st.info("No session is planned for this member within a week of that day.", icon=":material/info:")
            return
        chosen = st.selectbox(
            "Which session",
            list(steps),
            format_func=lambda each: _named(steps[each], now.today),
            key=f"told_step_{whose}_{day}",
        )
        if chosen in steps:
            _fields(whose, day, from_message.told_of(now.log, whose, day, chosen))


def _taken_back(whose: str) -> None:
    """Let the coach take back what they wrote down last for this member, as long as it stands."""
    now = here()
    told = from_message.newest_told(now.log, whose)
    if told is None:
        return
    st.caption(as_typed(f"Last: {told.words}"))
    st.button(
        "Take it back", key="told_back", on_click=touch, args=(from_message.take_back, now.log, whose, told.act_id),
        kwargs={"said": "Taken back: nothing of it stands in their log"},
    )  # fmt: skip


def _named(step: MemberStepRow, today: date) -> str:
    return as_typed(f"{first_up(step.title)}, {day_words(step.due, today)}{', done' if step.state == 'done' else ''}")


def _fields(whose: str, day: date, told: Told) -> None:
    key, number = f"told_{whose}_{told.step.id}", len(told.lines)
    with st.form(f"{key}_form", border=False):
        if number:
            st.number_input(f"Sets done as planned, of {number}", 0, number, value=None, step=1, key=f"{key}_sets")
        for row in told.pieces:
            st.text_input(
                as_typed(row.piece.title), key=f"{key}_score_{row.id}", placeholder="9 rounds · 8:41 · CAP + 13"
            )
        st.pills("How hard, 0 to 10", range(11), format_func=rating_words, key=f"{key}_rating")
        st.number_input("Minutes", 1, MOST_MINUTES, value=None, step=5, key=f"{key}_minutes")
        st.text_area("Their words", key=f"{key}_message", height=80)
        st.form_submit_button(
            "Write it down", type="primary", width="stretch", on_click=_write, args=(whose, day, told, key)
        )


def _write(whose: str, day: date, told: Told, key: str) -> None:
    state = st.session_state
    minutes = state.get(f"{key}_minutes")
    written = do(
        from_message.write_down, here().log, whose, day, told.step.id, sets=int(state.get(f"{key}_sets") or 0),
        scores={row.id: str(state.get(f"{key}_score_{row.id}", "")) for row in told.pieces}, rating=state.get(f"{key}_rating"),
        minutes=int(minutes) if minutes else None, message=str(state.get(f"{key}_message", "")),
        said=lambda words: f"Written down. {words}",
    )  # fmt: skip
    if written:
        for each in [each for each in state if str(each).startswith(key)]:
            del state[each]
