"""Sessions as they were done, newest first, a compact table each; a touch on a set or a score opens it to be edited."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from html import escape
from itertools import groupby

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up, load_words, rir_words
from tracker.components.history import session_editor
from tracker.conditioning.told import told_words
from tracker.conditioning.words import swap_words
from tracker.desk.history import journal
from tracker.desk.history.journal import JournalSession
from tracker.desk.people import places
from tracker.log.records import SetRow
from tracker.log.scores import ScoreRow
from tracker.prescription.technique import technique
from tracker.wording import counted

OPEN, LIMIT = "journal_open", "journal_limit"
EACH, UNSAID = "reps in each set", "? left"
COLUMNS = '<colgroup><col class="what"><col></colgroup>'
STEP = 6  # sessions shown at first, and more with each touch


def show(now: Here, text: str) -> None:
    """List the sessions that hold `text`, each with a way to edit it."""
    limit = st.session_state.setdefault(LIMIT, STEP)
    found = journal.sessions(now.log, now.member.id, limit=limit + 1, text=text)
    if not found:
        _nothing(text)
        return
    listed(now, found[:limit])
    if len(found) > limit:
        st.button("Show earlier sessions", key="journal_more", width="stretch", on_click=_more)


def listed(now: Here, found: Sequence[JournalSession]) -> None:
    """Draw some sessions."""
    names = {place.id: place.name for place in places.places(now.log)}
    if any(_unsaid(row) for entry in found for row in entry.sets):
        st.caption(f"{UNSAID}: how many reps were left was not noted.")
    with st.container(key="journal_list", gap="small"):
        for entry in found:
            _session(now, entry, names)


def _nothing(text: str) -> None:
    from tracker.components.frame import empty

    if text:
        st.write(f"No session has “{as_typed(text)}” in its lifts, pieces or notes.")
    else:
        empty.nothing_logged()


def _session(now: Here, entry: JournalSession, names: Mapping[str, str]) -> None:
    session, here = entry.session, st.session_state.get(OPEN) == entry.session.id
    with st.container(key=f"journal_{session.id}", gap="xxsmall"):
        with st.container(
            key=f"row_j_{session.id}", horizontal=True, vertical_alignment="center", wrap=False, gap="small"
        ):
            st.html(_head(entry, now.today, names))
            label = "Close" if here else "Edit"
            st.button(
                label, key=f"journal_open_{session.id}", icon=f":material/{'close' if here else 'edit'}:", type="tertiary",
                on_click=_open, args=(None if here else session.id,), help=f"{label} {day_words(session.day, now.today)}",
            )  # fmt: skip
        st.html(table(entry))
        if here:
            session_editor.show(now, entry)


def _head(entry: JournalSession, today: date, names: Mapping[str, str]) -> str:
    session = entry.session
    parts = (
        names.get(session.place_id or "", ""),
        session.label,
        f"{session.minutes} min" if session.minutes else "",
        f"rated {session.rating} of 10" if session.rating is not None else "",
    )
    day = escape(first_up(day_words(session.day, today)))
    return f'<p class="over">{day}</p><p class="plain soft">{escape(" · ".join(part for part in parts if part))}</p>'


def table(entry: JournalSession) -> str:
    """Return a session as one table: below each lift its ramp in a row, then a row for each load with a mark a set; and the scores."""
    rows = [row for number, lift in enumerate(_by_lift(entry.sets)) for row in _lift_rows(lift, first=not number)]
    rows += [_score_row(row) for row in entry.scores]
    titles = {row.score.piece.title.casefold() for row in entry.scores}  # a note that only names the piece is no news
    said = [row.note for row in entry.sets if row.note] + ([entry.session.note] if entry.session.note else [])
    notes = " ".join(f"“{note}”" for note in dict.fromkeys(said) if note.casefold() not in titles)
    below = f'<p class="plain soft">{escape(notes)}</p>' if notes else ""
    head = f'<thead class="unseen"><tr><th scope="col">load</th><th scope="col">{EACH}</th></tr></thead>'
    return f'<table class="session">{COLUMNS}{head}<tbody>{"".join(rows)}</tbody></table>{below}' if rows else below


def _by_lift(sets: Sequence[SetRow]) -> list[tuple[SetRow, ...]]:
    return [tuple(rows) for _, rows in groupby(sets, key=lambda row: row.lift.id)]


def _lift_rows(rows: tuple[SetRow, ...], *, first: bool) -> list[str]:
    """The lift, then its sets by the loads that follow each other; the plain sets of a ramp stand in one row together."""
    of = f'<small aria-hidden="true">{EACH}</small>' if first else ""  # once a session
    head = f'<th scope="rowgroup" colspan="2"><div><b>{escape(first_up(rows[0].lift.title))}</b>{of}</div></th>'
    said = [f'<tr class="lift">{head}</tr>']
    for ramp, part in groupby(rows, key=lambda row: row.kind == "ramp" and row.outcome == "done" and not row.left_out):
        if ramp:
            words = ", ".join(f"{row.reps} × {load_words(row.load, row.lift)}" for row in part)
            said.append(f'<tr class="ramp"><th scope="row">ramp</th><td>{escape(words)}</td></tr>')
        else:
            said += [
                _load_row(tuple(same)) for _, same in groupby(part, key=lambda row: load_words(row.load, row.lift))
            ]
    return said


def _load_row(rows: tuple[SetRow, ...]) -> str:
    load = escape(load_words(rows[0].load, rows[0].lift))
    return f'<tr><th scope="row">{load}</th><td><ul>{"".join(map(_mark, rows))}</ul></td></tr>'


def _unsaid(row: SetRow) -> bool:
    """Whether nobody said how many were left, where it would tell something: that is not none."""
    plain_set = row.outcome == "done" and row.kind == "work" and not row.left_out
    return row.rir is None and plain_set and not technique(row.lift.name)


def _mark(row: SetRow) -> str:
    """One set: its repetitions large; below them what it was, where it was more than a set that was done."""
    kind = {"test": "test", "ramp": "ramp", "work": ""}[row.kind]
    end = {"missed": "then missed", "cut": "cut short", "done": ""}[row.outcome]
    left = rir_words(row.rir).replace(" or more", "+") if row.rir is not None and row.outcome == "done" else ""
    left = UNSAID if _unsaid(row) else left
    out = f"left out: {row.left_out}" if row.left_out else ""
    below = ", ".join(part for part in ("each side" if row.each_side else "", kind, end, left, out) if part)
    said = f"<small>{escape(below)}</small>" if below else ""
    sign = " ✗" if row.outcome == "missed" else ""
    shown = f"<b>{row.reps}{sign}</b>" if row.outcome != "missed" or row.reps else "<b>✗</b>"
    return f'<li class="{row.outcome} {row.kind}">{shown}{said}</li>'


def _score_row(row: ScoreRow) -> str:
    note = (f"“{row.score.note}”",) if row.score.note else ()
    said = "; ".join((told_words(row.score), *swap_words(row.score), *note))
    told = f'<b>{escape(row.score.piece.title)}</b> <span class="score">{escape(said)}</span>'
    return f'<tr class="lift"><td colspan="2"><div>{told}</div></td></tr>'


def summary(entry: JournalSession) -> str:
    """Say how much a session was: `6 sets, 1 piece`."""
    parts = [counted(len(entry.sets), "set")] if entry.sets else []
    return ", ".join([*parts, *([counted(len(entry.scores), "piece")] if entry.scores else [])])


def _open(session_id: str | None) -> None:
    st.session_state[OPEN] = session_id


def _more() -> None:
    st.session_state[LIMIT] += STEP
