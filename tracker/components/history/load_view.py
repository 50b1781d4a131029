"""Training load by week as it was published, what is missing from it, and what was lifted beside it. No verdict, no colour."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.charts.records import WeekBar
from tracker.charts.weeks import weeks_figure
from tracker.components.frame import as_file, plot
from tracker.components.frame.acts import do
from tracker.components.frame.frame import here
from tracker.components.frame.words import day_words, first_up, full_day
from tracker.conditioning.load import ANCHORS
from tracker.desk.day import training
from tracker.desk.history import training_load
from tracker.desk.history.training_load import LoadReport, LoadWeek
from tracker.limits import MOST_MINUTES, MOST_RATING
from tracker.log.records import SessionRow
from tracker.units import from_kg
from tracker.wording import counted

SOURCE = (
    "Load: rating of the whole session × its minutes, in arbitrary units (Foster et al. 2001, J Strength Cond Res "
    "15(1):109–115). Monotony: mean of the seven days' loads over their standard deviation; load × monotony: the two "
    "multiplied (Foster 1998, Med Sci Sports Exerc 30(7):1164–1168). Which standard deviation that paper used was not "
    "found, so both are given: divided by 6 (sample) and by 7 (population). Neither has a limit that holds for everybody. "
    "A ratio of recent to earlier load is left out on purpose: in a randomised trial, steering by it prevented nothing "
    "(Dalen-Lorentsen et al. 2021, Br J Sports Med 55(2):108–114)."
)


def weeks(report: LoadReport) -> None:
    """Draw the weeks, and say of the last whole one how it stands to the four before."""
    if report.back:
        st.html(f'<p class="plain">{escape(first_up(report.back))}.</p>')
    bars = [WeekBar(each.week.first, each.week.known_load, each.words, each.week.load is None) for each in report.weeks]
    drawn = weeks_figure(bars, quantity="load", unit="rating × min", dark=plot.is_dark())
    plot.show(drawn, key="load_figure", alt="Training load by week; the table below holds the same.")
    if any(each.week.load is None for each in report.weeks):
        st.caption("Hatched: at least so much; a rating, or what happened on a day, is not known.")
    if report.against:
        load, minutes = report.against.load, report.against.minutes
        st.write(f"Last whole week against the mean of the four before it: load {load:+,.0f}, minutes {minutes:+,.0f}.")
    else:
        st.caption("Last week against the four before it: not known, because a rating or a day is missing.")


def this_week(report: LoadReport) -> None:
    """Say the figures of the week that is on and of the one before."""
    for each, name in ((report.weeks[-1], "This week"), (report.weeks[-2], "Last week")):
        st.html(f'<p class="plain"><b>{name}:</b> load {escape(each.words)}. {_facts(each)}</p>')
        st.html(f'<p class="plain"><small>{escape(_monotony(each))}</small></p>')


def _facts(week: LoadWeek) -> str:
    sessions = f"{week.week.sessions} session{'' if week.week.sessions == 1 else 's'}"
    hard = f"{week.week.hard_sessions} rated 7 or more"
    rest = f"{week.week.rest_days} day{'' if week.week.rest_days == 1 else 's'} of rest said"
    return (
        f"{sessions}, {week.week.minutes:.0f} min, {hard}, {rest}; moved {_tonnes(week)}, {week.hard_sets} hard sets."
    )


def _monotony(each: LoadWeek) -> str:
    sample, population = each.week.monotony(), each.week.monotony("population")
    if sample is None or population is None:
        why = "a day or a rating is not known" if each.week.load is None else "all days are alike"
        return f"Monotony and load × monotony: none, because {why}."
    products = each.week.load_x_monotony() or 0.0, each.week.load_x_monotony("population") or 0.0
    return f"Monotony {sample:.2f} (sample SD) or {population:.2f} (population SD); load × monotony {products[0]:,.0f} or {products[1]:,.0f}."


def _tonnes(week: LoadWeek) -> str:
    """What was moved, in the member's unit."""
    if here().member.unit == "lb":
        return f"{from_kg(week.tonnage_kg, 'lb'):,.0f} lb"
    return f"{week.tonnage_kg / 1000:.1f} t"


def table(report: LoadReport) -> None:
    """All weeks as a table, newest first, and each lift of the last weeks."""
    with st.expander("Every week", key="load_table"):
        every = [
            {
                "week of": full_day(each.week.first), "load": each.words, "minutes": f"{each.week.minutes:.0f}",
                "moved": _tonnes(each), "hard sets": str(each.hard_sets),
            }
            for each in reversed(report.weeks)
        ]  # fmt: skip
        st.table(every, hide_index=True)
        as_file.save(every, "load by week", key="load_csv")
        st.caption(
            "Hard set: a work set with 3 repetitions or fewer left, a miss or a test. Our choice. Sets whose repetitions left were not said may or may not be hard."
        )
    with st.expander("Lifts, this week and last", key="load_lifts"):
        rows = [
            {"week of": full_day(week.week.first), "lift": each.lift, "sets": str(each.sets), "hard": str(each.hard_sets), "reps": f"{each.reps:,}"}
            for week in reversed(report.weeks[-2:])
            for each in week.volume
        ]  # fmt: skip
        if rows:
            st.table(rows, hide_index=True)
        else:
            st.caption("No sets in these two weeks.")


def source() -> None:
    """Name the definitions, and why there is no ratio."""
    with st.expander("What these figures are", key="load_source"):
        st.write(SOURCE)


def ask_ratings(report: LoadReport, today: date) -> None:
    """Offer to rate the sessions whose rating or minutes are missing; late is better than not."""
    if not report.unrated:
        return
    names = {row.id: f"{day_words(row.day, today)}{f', {row.label}' if row.label else ''}" for row in report.unrated}
    known = {row.id: row for row in report.unrated}
    with st.expander(
        f"{len(names)} session{'' if len(names) == 1 else 's'} without rating or minutes", key="load_unrated"
    ):
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
        training.rate_session, now.log, row.id, now.member.id, rating=state[f"load_rating_{row.id}"],
        minutes=None if minutes is None else int(minutes), note=row.note, said="Saved: how the session was",
    )  # fmt: skip


def ask_rest(report: LoadReport, today: date) -> None:
    """Ask about the last days without an entry: a day is a rest day only where somebody says so."""
    if not report.open_days:
        return
    names = {day.isoformat(): day_words(day, today) for day in report.open_days}
    with (
        st.expander(f"{counted(len(names), 'day')} of the last 14 without an entry", key="load_rest"),
        st.form("load_rest_form", border=False),
    ):
        st.pills(
            "On which of them did you rest?",
            list(names),
            format_func=names.__getitem__,
            selection_mode="multi",
            key="load_rested",
        )
        st.form_submit_button("I rested on these", on_click=_rest)


def _rest() -> None:
    now = here()
    days = [date.fromisoformat(each) for each in st.session_state["load_rested"]]
    if days:
        do(
            training_load.say_rested_on_all,
            now.log,
            now.member.id,
            days,
            said=f"Rest said of {len(days)} day{'' if len(days) == 1 else 's'}",
        )
