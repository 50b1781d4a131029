"""Taking a sheet: for whom and from which day; or its changes against the earlier one of its title; then the first load."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.frame import empty
from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here
from tracker.components.frame.words import day_words, first_up
from tracker.components.sheet import class_hand, sheet_said
from tracker.desk.day import today
from tracker.desk.day.line_words import asked
from tracker.desk.day.lines import PlannedLine
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.desk.sheet.sheet_changes import SessionChange
from tracker.desk.sheet.sheets import SheetPreview, TakenSheet
from tracker.prescription.sheet.model import WEEKDAYS
from tracker.wording import counted

TAKEN, CHANGES = "sheet_taken", "sheet_as_change"  # what was taken last, by its text; the sheet that this one changes
FEW = 12  # members that one can choose from at a glance


def show(now: Here, preview: SheetPreview, text: str) -> None:
    """Draw what can be done with a sheet that was understood."""
    if preview.earlier and preview.changes:
        _changes(preview.earlier.id, preview.changes, text, "It changes an earlier sheet of this title")
        return
    if preview.alike and st.session_state.get(CHANGES) == (preview.alike.id, text):
        found = sheets.changes(now.log, preview.alike.id, text, today=now.today, answers=_all_answers(preview))
        if found:
            _changes(preview.alike.id, found, text, f"It changes the sheet {preview.alike.name}")
            st.button("Take it as a new sheet instead", key="sheet_new", on_click=_as_new)
            return
    known = class_hand.offers(now)
    if known:
        st.header("For a class")
        class_hand.show(now, preview, text, known)
        st.header("For single members")
    wave = preview.earlier.id if preview.earlier else _taken_before(text)
    on = sheets.members_on(now.log, wave) if wave else ()
    others = {each.id: each.name for each in people.members(now.log) if each.id not in on}
    if wave and on:
        _in_the_log(now, wave, on)
        if others:
            with st.expander("For others too", key="sheet_more"):
                _take(now, preview, text, others)
    elif others:
        _take(now, preview, text, others)
    elif not on:
        st.info(
            "Nobody shares a log with you yet, so there is nobody to take it for. Members share theirs under Preferences.",
            icon=":material/info:",
        )
    if preview.alike and not on:
        _offer_change(preview, text)


def _all_answers(preview: SheetPreview) -> dict[str, str]:
    return dict(preview.answers)


def _taken_before(text: str) -> str | None:
    """The wave that this very text was made of a moment ago, on whatever day it begins."""
    taken, wave = st.session_state.get(TAKEN) or ("", None)
    return wave if taken == text else None


def _in_the_log(now: Here, wave: str, on: tuple[str, ...]) -> None:
    names = ", ".join(each.name for each in people.members(now.log) if each.id in on)
    st.success(as_typed(f"In the calendar, for {names}."), icon=":material/check:")
    if now.member_id not in on:
        return
    steps = [step for step in today.steps(now.log, now.member.id) if step.wave_id == wave]
    first = next((step for step in steps if step.state == "planned"), None)
    if first is None:
        return
    if line := _first_line(now, first.id, first.due):
        when = "First today" if first.due == now.today else f"First on {day_words(first.due, now.today)}"
        words = first_up(asked(line)).replace(" × ", "\u00a0×\u00a0")
        st.html(f'<p class="over">{escape(f"{when}: {line.lift.title}")}</p><p class="big small">{escape(words)}</p>')
    if first.due == now.today:
        empty.way_to("today", "See today's loads", carried={"member": now.member.id})
    else:
        empty.way_to("today", "See the day", carried={"member": now.member.id})


def _first_line(now: Here, step_id: str, day: date) -> PlannedLine | None:
    plan = today.day_plan(now.log, now.member.id, day, member_step_id=step_id)
    return next((each for each in plan.lines if each.step_id == step_id and each.open), None)


def _take(now: Here, preview: SheetPreview, text: str, others: dict[str, str]) -> None:
    mine = [each for each in others if each == now.member_id]
    st.session_state.setdefault("sheet_members", mine)
    st.session_state["sheet_members"] = [each for each in st.session_state["sheet_members"] if each in others] or mine
    if len(others) > FEW:
        st.multiselect("For", list(others), format_func=others.__getitem__, key="sheet_members")
    elif len(others) > 1 or not mine:
        names = {each: as_typed(name) for each, name in others.items()}
        st.pills("For", list(others), format_func=names.__getitem__, key="sheet_members", selection_mode="multi")
    first = sheets.suggested_start(preview.sheet, now.today)
    many, key = len(preview.sheet.sessions) > 1, f"sheet_start_{first}"
    day = st.session_state.get(key) or first
    start: date = st.date_input(
        f"{'First session' if many else 'Date'}: {WEEKDAYS[day.weekday()]}", value=first, key=key, format="YYYY-MM-DD"
    )
    st.button(
        "Put it in the calendar", type="primary", width="stretch", key="sheet_take", on_click=_taken, icon=":material/event:",
        args=(text, start, _all_answers(preview)), disabled=not st.session_state["sheet_members"],
    )  # fmt: skip


def _taken(text: str, start: date, answers: dict[str, str]) -> None:
    now = here()
    members = list(st.session_state["sheet_members"])
    do(
        sheets.take_sheet, now.log, members, text, start, by=now.member_id, today=now.today, answers=answers,
        said=lambda taken: _said(taken, text),
    )  # fmt: skip


def _said(taken: TakenSheet, text: str) -> str:
    st.session_state[TAKEN] = (text, taken.wave_id)
    st.session_state.pop("sheet_members", None)
    return f"Saved: {taken.words}"


def _offer_change(preview: SheetPreview, text: str) -> None:
    assert preview.alike is not None
    name = as_typed(preview.alike.name)
    st.button(
        f"It changes the earlier sheet {name}", key="sheet_alike", type="tertiary", on_click=_as_change, args=(preview.alike.id, text),
        help="The earlier sheet goes by the same title and is of other days. Nothing is written yet: what changes is shown first.",
    )  # fmt: skip


def _as_change(wave_id: str, text: str) -> None:
    st.session_state[CHANGES] = (wave_id, text)


def _as_new() -> None:
    st.session_state.pop(CHANGES, None)


def _changes(wave_id: str, changes: tuple[SessionChange, ...], text: str, head: str) -> None:
    st.header(as_typed(head))
    for change in changes:
        st.html(_change(change))
    kept = sum(change.kept for change in changes)
    if kept:
        st.caption(f"{counted(kept, 'session')} begun, done or left out already: those stay as they were.")
    st.html(f'<p class="plain"><b>{escape(_for_whom(wave_id))}</b></p>')
    st.button(
        f"Take {counted(len(changes), 'change')}", type="primary", width="stretch", key="sheet_change", on_click=_change_it,
        args=(wave_id, text),
    )  # fmt: skip


def _for_whom(wave_id: str) -> str:
    """Say before it is saved for whom a sheet is changed; by name those whom the reader sees."""
    now = here()
    on = sheets.members_on(now.log, wave_id)
    known = {each.id: each.name for each in people.members(now.log)}
    return sheets.for_whom_words([known.get(each, "") for each in on], you=known.get(now.member_id or "", ""))


def _change(change: SessionChange) -> str:
    before = [line for line in change.before if line not in change.after]
    after = [line for line in change.after if line not in change.before]
    gone = "".join(f'<p class="plain"><span class="sheet-mark">Before:</span> {escape(line)}</p>' for line in before)
    come = "".join(f'<p class="plain"><span class="sheet-mark">Now:</span> {escape(line)}</p>' for line in after)
    return f'<p class="over">{first_up(change.kind)}: {escape(change.words)}</p>{gone}{come}'


def _change_it(wave_id: str, text: str) -> None:
    now = here()
    kept = sheets.answers_of(now.log, now.member_id) if now.member_id else {}
    answers = {**kept, **sheet_said.answers()}
    done = do(
        sheets.take_changes, now.log, wave_id, text, by=now.member_id, today=now.today, answers=answers,
        said=lambda found: f"Saved: {counted(len(found), 'change')}",
    )  # fmt: skip
    if done:
        st.session_state[TAKEN] = (text, wave_id)
        _as_new()
