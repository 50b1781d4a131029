"""Taking a sheet: for whom and from which day; or its changes against the earlier one of its title."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components import empty
from tracker.components.acts import do
from tracker.components.frame import Here, here
from tracker.components.words import counted, first_up
from tracker.desk import people, sheets
from tracker.desk.sheet_changes import SessionChange
from tracker.desk.sheets import SheetPreview, Taken


def show(now: Here, preview: SheetPreview, text: str) -> None:
    """Draw what can be done with a sheet that was understood."""
    if preview.earlier and preview.changes:
        _changes(preview.earlier.id, preview.changes, text)
        return
    on = sheets.members_on(now.log, preview.earlier.id) if preview.earlier else ()
    others = {each.id: each.name for each in people.members(now.log) if each.id not in on}
    if on:
        names = ", ".join(each.name for each in people.members(now.log) if each.id in on)
        st.success(
            f"In the log already, for {names}." if others else f"In the log, for {names}.", icon=":material/check:"
        )
        empty.way_to("today", "See today's loads")
    if others:
        _take(now, preview, text, others)


def _take(now: Here, preview: SheetPreview, text: str, others: dict[str, str]) -> None:
    mine = [now.member.id] if now.member.id in others else []
    st.session_state.setdefault("sheet_members", mine)
    st.session_state["sheet_members"] = [each for each in st.session_state["sheet_members"] if each in others]
    st.multiselect("For", list(others), format_func=others.__getitem__, key="sheet_members")
    first = sheets.suggested_start(preview.sheet, now.today)
    start: date = st.date_input("First session on", value=first, key=f"sheet_start_{first}", format="YYYY-MM-DD")
    st.button(
        "Take it into the log", type="primary", width="stretch", key="sheet_take", on_click=_taken, args=(text, start),
        disabled=not st.session_state["sheet_members"],
    )  # fmt: skip


def _taken(text: str, start: date) -> None:
    now = here()
    members = list(st.session_state["sheet_members"])
    do(sheets.take_sheet, now.log, members, text, start, by=now.member.id, said=_said)


def _said(taken: Taken) -> str:
    return f"Saved: {taken.words}"


def _changes(wave_id: str, changes: tuple[SessionChange, ...], text: str) -> None:
    st.header("It changes an earlier sheet of this title")
    for change in changes:
        st.html(_change(change))
    kept = sum(change.kept for change in changes)
    if kept:
        st.caption(f"{counted(kept, 'session')} begun, done or left out already: those stay as they were.")
    st.button(
        f"Take {counted(len(changes), 'change')}", type="primary", width="stretch", key="sheet_change", on_click=_change_it,
        args=(wave_id, text),
    )  # fmt: skip


def _change(change: SessionChange) -> str:
    before = [line for line in change.before if line not in change.after]
    after = [line for line in change.after if line not in change.before]
    gone = "".join(f'<p class="plain"><span class="sheet-mark">Before:</span> {escape(line)}</p>' for line in before)
    come = "".join(f'<p class="plain"><span class="sheet-mark">Now:</span> {escape(line)}</p>' for line in after)
    return f'<p class="over">{first_up(change.kind)}: {escape(change.words)}</p>{gone}{come}'


def _change_it(wave_id: str, text: str) -> None:
    now = here()
    do(
        sheets.take_changes,
        now.log,
        wave_id,
        text,
        by=now.member.id,
        said=lambda found: f"Saved: {counted(len(found), 'change')}",
    )
