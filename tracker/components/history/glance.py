"""A month at a glance, the weeks as bars, and the history of acts."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from html import escape

import streamlit as st

from tracker.charts.records import WeekBar
from tracker.charts.weeks import weeks_figure
from tracker.components.frame import as_file, kept, plot
from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up
from tracker.components.frame.zone import by_reader
from tracker.desk.history import journal, weeks
from tracker.desk.history.weeks import GlanceDay, TrainedWeek
from tracker.units import Unit, from_kg
from tracker.wording import counted

MONTH = "journal_month"
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
SHOWN_ACTS = 20


def month(now: Here) -> None:
    """Draw a month as a table of days; marks say sets, tests and misses, and stand in words below."""
    first: date = st.session_state.setdefault(MONTH, now.today.replace(day=1))
    with st.container(key="row_month", horizontal=True, vertical_alignment="center", wrap=False, gap="small"):
        st.html(f'<p class="over">{first:%B %Y}</p>')
        st.button("Earlier", key="month_back", on_click=_turn, args=(first, -1))
        st.button("Later", key="month_on", on_click=_turn, args=(first, 1), disabled=first >= now.today.replace(day=1))
    days = weeks.month(now.log, now.member.id, first)
    st.html(_calendar(days, now.today))
    trained = [day for day in days if day.trained]
    st.caption(
        f"{counted(len(trained), 'day')} with training, {counted(sum(day.sets for day in days), 'set')}. "
        "The figure below a day is its sets; T: a test, ×: a miss."
    )


def _turn(first: date, by: int) -> None:
    other = first - timedelta(days=1) if by < 0 else first + timedelta(days=31)
    st.session_state[MONTH] = other.replace(day=1)


def _calendar(days: tuple[GlanceDay, ...], today: date) -> str:
    head = "".join(f'<th scope="col"><abbr title="{name}">{name[:2]}</abbr></th>' for name in WEEKDAYS)
    cells = ["<td></td>"] * days[0].day.weekday() + [_cell(day, today) for day in days]
    rows = "".join(f"<tr>{''.join(cells[at : at + 7])}</tr>" for at in range(0, len(cells), 7))
    return f'<table class="month"><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>'


def _cell(day: GlanceDay, today: date) -> str:
    marks = f"{'T' if day.tested else ''}{'×' if day.missed else ''}"
    kinds = " ".join(word for word, on in (("trained", day.trained), ("today", day.day == today)) if on)
    said = f"{day.day.day}: " + (f"{counted(day.sets, 'set')}, {', '.join(day.lifts)}" if day.sets else "no sets")
    below = f"<small>{day.sets or '·'} {marks}</small>" if day.trained else "<small>&nbsp;</small>"
    return f'<td class="{kinds}" title="{escape(said, quote=True)}"><b>{day.day.day}</b>{below}</td>'


def load_by_week(now: Here) -> None:
    """Draw half a year of weeks, by what the reader asks for, with the same as a table."""
    unit = now.member.unit
    quantities = {"moved": f"Load moved, {unit}", "sets": "Sets"}
    found = weeks.trained_weeks(now.log, now.member.id, until=now.today)
    if not any(week.sessions or week.sets for week in found):
        st.write("Nothing was logged in the last half year.")
        return
    quantity = kept.segments("by", "Shown", quantities, default="moved")
    bars = [WeekBar(week.monday, _amount(week, quantity, unit), _said(week, unit)) for week in found]
    words = {"moved": ("moved in a week", unit), "sets": ("in a week", "sets")}
    label, of = words[quantity]
    drawn = weeks_figure(bars, quantity=label, unit=of, dark=plot.is_dark())
    newest = found[-1]
    said = f"{quantities[quantity]} by week; this week: {_said(newest, unit)}"
    plot.show(drawn, key="weeks_figure", alt=said)
    plot.follow_the_look()
    if quantity == "moved":
        st.caption("Load × repetitions, summed. It tells how much was done, not how hard it was.")
    with st.expander("The same as a table", key="weeks_table"):
        rows = [
            {
                "week of": week.monday, "sessions": week.sessions, "sets": week.sets,
                f"moved, {unit}": round(_amount(week, "moved", unit)),
            }
            for week in reversed(found)
        ]  # fmt: skip
        day = {"week of": st.column_config.DateColumn(format="D MMM YYYY")}
        st.dataframe(rows, hide_index=True, key="weeks_rows", column_config=day, alt="The weeks, newest first")
        as_file.save(rows, "weeks", key="weeks_csv")


def _amount(week: TrainedWeek, quantity: str, unit: Unit) -> float:
    if quantity == "sets":
        return week.sets
    return from_kg(week.moved_kg, unit)


def _said(week: TrainedWeek, unit: Unit) -> str:
    moved = f"{_amount(week, 'moved', unit):,.0f} {unit} moved"
    return f"{counted(week.sessions, 'session')}, {counted(week.sets, 'set')}, {moved}"


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
