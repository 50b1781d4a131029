"""A sheet is handed to a class in one act, for whoever leads: also to members who keep their log to themselves."""

from __future__ import annotations

from datetime import date

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here, moment_here
from tracker.desk.coach import classes, hand_out
from tracker.desk.coach.hand_out import HandedOut
from tracker.desk.people import groups
from tracker.desk.sheet import sheets
from tracker.desk.sheet.sheets import SheetPreview
from tracker.log.classes import ClassRecord
from tracker.log.who import HERE, who
from tracker.prescription.sheet.model import WEEKDAYS
from tracker.wording import counted

CLASS, LOCAL, LOCAL_TEXT, HANDED = "hand_class", "hand_local", "hand_local_text", "hand_done"


def offers(now: Here) -> tuple[ClassRecord, ...]:
    """Return the classes that the reader can hand a sheet to; the one that is on or comes next stands first."""
    if not (who().leads or who().role == HERE.role):
        return ()
    known = [each for each in classes.classes(now.log) if each.total]
    first = classes.class_now(known, moment_here())
    return tuple(sorted(known, key=lambda each: (each is not first, each.name)))


def show(now: Here, preview: SheetPreview, text: str, known: tuple[ClassRecord, ...]) -> None:
    """Draw for which class, from which day, and what one group does instead."""
    done = st.session_state.get(HANDED)
    if done and done[0] == text:
        st.success(as_typed(done[1]), icon=":material/check:")
    names = {each.id: f"{each.name}, {counted(each.total, 'member')}" for each in known}
    chosen = st.selectbox("Class", list(names), format_func=names.__getitem__, key=CLASS)
    first = sheets.suggested_start(preview.sheet, now.today)
    key = f"hand_start_{first}"
    day = st.session_state.get(key) or first
    start = st.date_input(f"First session: {WEEKDAYS[day.weekday()]}", value=first, key=key, format="YYYY-MM-DD")
    found = next(each for each in known if each.id == chosen)
    _local(now, text)
    st.button(
        f"Hand it to {counted(found.total, 'member')}", type="primary", width="stretch", key="hand_take", on_click=_hand,
        icon=":material/groups:", args=(chosen, text, start, dict(preview.answers)),
    )  # fmt: skip
    st.caption(
        "Also to members who keep their log to themselves: they get the plan, and you see nothing of what they do."
    )


def _local(now: Here, text: str) -> None:
    """Let one group of the class do something else."""
    names = {each.id: as_typed(each.name) for each in groups.groups(now.log)}
    if not names:
        return
    box = st.expander("Something else for one group", key="hand_other", on_change="rerun", icon=":material/alt_route:")
    if not box.open:
        return
    with box:
        st.selectbox("Group", [None, *names], format_func=lambda each: names.get(each or "", "none"), key=LOCAL)
        if st.session_state.get(LOCAL):
            st.session_state.setdefault(LOCAL_TEXT, text)
            st.text_area("What they do", key=LOCAL_TEXT, height=180)


def _hand(class_id: str, text: str, start: date, answers: dict[str, str]) -> None:
    now = here()
    group, said = st.session_state.get(LOCAL), (st.session_state.get(LOCAL_TEXT) or "").strip()
    local = {group: said} if group and said and said != text.strip() else {}
    do(
        hand_out.hand_out, now.log, class_id, text, start, local=local, by=now.member_id, today=now.today, answers=answers,
        said=lambda done: _said(done, text),
    )  # fmt: skip


def _said(done: HandedOut, text: str) -> str:
    st.session_state[HANDED] = (text, f"{done.words[:1].upper()}{done.words[1:]}.")
    st.session_state.pop(LOCAL, None)
    st.session_state.pop(LOCAL_TEXT, None)
    return f"Saved: {done.words}"
