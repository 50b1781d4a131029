"""A month whose days are opened by a touch, and the history of acts."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from html import escape

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up, weekday_words
from tracker.components.frame.zone import by_reader
from tracker.components.history import session_list
from tracker.desk.history import journal, weeks
from tracker.desk.history.weeks import GlanceDay
from tracker.wording import counted

MONTH, CHOSEN_DAY = "journal_month", "journal_day"
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
SHOWN_ACTS = 20


def month(now: Here) -> None:
    """Draw a month whose days of training open, each with its sets; T is a test, × a miss."""
    first: date = st.session_state.setdefault(MONTH, now.today.replace(day=1))
    with st.container(key="row_month", horizontal=True, vertical_alignment="center", wrap=False, gap="small"):
        st.html(f'<p class="over">{first:%b %Y}</p>')
        st.button("Earlier", key="month_back", icon=":material/chevron_left:", on_click=_turn, args=(first, -1))
        st.button(
            "Later", key="month_on", icon=":material/chevron_right:", on_click=_turn, args=(first, 1),
            disabled=first >= now.today.replace(day=1),
        )  # fmt: skip
    days = weeks.month(now.log, now.member.id, first)
    _calendar(days, now.today)
    trained = [day for day in days if day.trained]
    st.caption(
        f"{counted(len(trained), 'day')} with training, {counted(sum(day.sets for day in days), 'set')}. "
        "Touch a day to open it. The figure below it is its sets; T: a test, ×: a miss."
    )
    chosen = st.session_state.get(CHOSEN_DAY)
    if chosen in [day.day for day in trained]:
        session_list.listed(now, journal.sessions(now.log, now.member.id, day=chosen))


def _turn(first: date, by: int) -> None:
    other = first - timedelta(days=1) if by < 0 else first + timedelta(days=31)
    st.session_state[MONTH] = other.replace(day=1)


def _calendar(days: tuple[GlanceDay, ...], today: date) -> None:
    """Draw the weeks from Monday; the days of training are buttons, the others are figures."""
    head = "".join(f'<span title="{name}">{name[:2]}</span>' for name in WEEKDAYS)
    st.html(f'<p class="weekdays" aria-hidden="true">{head}</p>')
    cells: list[GlanceDay | None] = [None] * days[0].day.weekday() + list(days)
    cells += [None] * (-len(cells) % 7)
    for at in range(0, len(cells), 7):
        with st.container(key=f"week_row_{at // 7}", horizontal=True, wrap=False, gap="xxsmall"):
            for number, cell in enumerate(cells[at : at + 7]):
                _cell(cell, today, f"{at + number}")


def _cell(day: GlanceDay | None, today: date, key: str) -> None:
    if day is None or not day.trained:
        now = " now" if day is not None and day.day == today else ""
        st.html(f'<p class="none{now}">{day.day.day if day else "&nbsp;"}</p>')
        return
    marks = f"{day.sets or '·'}{'T' if day.tested else ''}{'×' if day.missed else ''}"
    said = f"{weekday_words(day.day)}: " + (
        f"{counted(day.sets, 'set')}, {', '.join(day.lifts)}" if day.sets else "no sets"
    )
    st.button(
        f"{day.day.day} :small[{marks}]", key=f"month_day_{day.day.isoformat()}", on_click=_choose, args=(day.day,), width="stretch",
        help=as_typed(said), type="primary" if st.session_state.get(CHOSEN_DAY) == day.day else "secondary",
    )  # fmt: skip


def _choose(day: date) -> None:
    st.session_state[CHOSEN_DAY] = None if st.session_state.get(CHOSEN_DAY) == day else day


def acts(now: Here) -> None:
    """List what was done to this log, newest first; each act that is the reader's can be taken back."""
    found = journal.acts(now.log, now.member.id, limit=SHOWN_ACTS)
    if not found:
        st.write("Nothing was changed yet.")
    for act in found:
        undone = act.undone or act.words.startswith("undid")
        with st.container(
            key=f"row_act_{act.act_id}", horizontal=True, vertical_alignment="center", wrap=False, gap="small"
        ):
            state = " <i>(taken back)</i>" if act.undone else ""
            st.html(f'<p class="plain">{escape(first_up(act.words))}{state}<br><small>{_when(act.at)}</small></p>')
            if act.theirs and not undone:
                st.button(
                    "Take back", key=f"act_{act.act_id}", help=f"Take back: {as_typed(act.words)}", on_click=_take_back,
                    args=(now, act.act_id),
                )  # fmt: skip


def _when(at: datetime) -> str:
    there = by_reader(at)
    return f"{there:%a} {there.day} {there:%b %Y, %H:%M}"


def _take_back(now: Here, act_id: str) -> None:
    do(journal.undo_act, now.log, act_id, said=lambda words: f"Taken back: {words}")
