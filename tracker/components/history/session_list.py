"""Sessions as they were done, newest first, in words; one of them open to be changed."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from html import escape
from itertools import groupby

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up, set_words
from tracker.components.history import session_editor
from tracker.conditioning.told import told_words
from tracker.conditioning.words import swap_words
from tracker.desk.history import journal
from tracker.desk.history.journal import JournalSession
from tracker.desk.people import places
from tracker.log.records import SetRow
from tracker.log.scores import ScoreRow
from tracker.wording import counted

OPEN, LIMIT = "journal_open", "journal_limit"
STEP = 10  # sessions shown at first, and more with each touch


def show(now: Here, text: str) -> None:
    """List the sessions that hold `text`, each with a way to change it."""
    limit = st.session_state.setdefault(LIMIT, STEP)
    found = journal.sessions(now.log, now.member.id, limit=limit + 1, text=text)
    if not found:
        _nothing(text)
        return
    names = {place.id: place.name for place in places.places(now.log)}
    for entry in found[:limit]:
        _session(now, entry, names)
    if len(found) > limit:
        st.button("Show earlier sessions", key="journal_more", width="stretch", on_click=_more)


def _nothing(text: str) -> None:
    from tracker.components.frame import empty

    if text:
        st.write(f"No session has “{as_typed(text)}” in its lifts or notes.")
    else:
        empty.nothing_logged()


def _session(now: Here, entry: JournalSession, names: Mapping[str, str]) -> None:
    session, here = entry.session, st.session_state.get(OPEN) == entry.session.id
    with st.container(border=True, key=f"journal_{session.id}", gap="xsmall"):
        with st.container(
            key=f"row_j_{session.id}", horizontal=True, vertical_alignment="top", wrap=False, gap="small"
        ):
            st.html(_head(entry, now.today, names))
            label = "Close" if here else "Change"
            st.button(
                label, key=f"journal_open_{session.id}", on_click=_open, args=(None if here else session.id,),
                help=f"{label} {day_words(session.day, now.today)}",
            )  # fmt: skip
        note = f'<p class="plain"><i>{escape(session.note)}</i></p>' if session.note else ""
        st.html("".join((*map(_lift_line, _by_lift(entry.sets)), *map(_score_line, entry.scores), note)))
        if here:
            session_editor.show(now, entry)


def _head(entry: JournalSession, today: date, names: Mapping[str, str]) -> str:
    session = entry.session
    parts = (
        names.get(session.place_id or "", ""),
        session.label,
        counted(len(entry.sets), "set") if entry.sets or not entry.scores else "",
        f"{session.minutes} min" if session.minutes else "",
        f"rated {session.rating} of 10" if session.rating is not None else "",
    )
    day = escape(first_up(day_words(session.day, today)))
    return f'<p class="over">{day}</p><p class="plain">{escape(" · ".join(part for part in parts if part))}</p>'


def _score_line(row: ScoreRow) -> str:
    note = (f"“{row.score.note}”",) if row.score.note else ()
    said = "; ".join((told_words(row.score), *swap_words(row.score), *note))
    return f'<p class="plain"><b>{escape(row.score.piece.title)}:</b> {escape(said)}</p>'


def _by_lift(sets: tuple[SetRow, ...]) -> list[tuple[SetRow, ...]]:
    return [tuple(rows) for _, rows in groupby(sets, key=lambda row: row.lift.id)]


def _lift_line(rows: tuple[SetRow, ...]) -> str:
    words = []
    for said, same in groupby(rows, key=_said):
        alike = list(same)
        many = len(alike)
        plain = alike[0].outcome == "done" and not alike[0].left_out and not alike[0].note
        words.append(said if many == 1 else f"{many} sets of {said}" if plain else f"{said}, {many} times")
    return f'<p class="plain"><b>{escape(first_up(rows[0].lift.title))}:</b> {escape("; ".join(words))}</p>'


def _said(row: SetRow) -> str:
    """Say a set with why it was left out, and with its note."""
    left_out = f" (left out: {row.left_out})" if row.left_out else ""
    return f"{set_words(row)}{left_out}{f' “{row.note}”' if row.note else ''}"


def _open(session_id: str | None) -> None:
    st.session_state[OPEN] = session_id


def _more() -> None:
    st.session_state[LIMIT] += STEP
