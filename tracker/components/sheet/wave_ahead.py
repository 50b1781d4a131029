"""Coming sessions as a picture of weeks, in words, and behind a touch set by set: with the load, now and on its day."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.charts.plan import PlanBar, plan_figure, plan_words
from tracker.components.frame import plot
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up, load_words
from tracker.desk.ahead import plan
from tracker.desk.ahead.plan import RULE, SUPPOSED, WaveAhead, WeekAhead
from tracker.desk.ahead.sets_ahead import SessionAhead, SetsAhead
from tracker.desk.day.lines import chance_words
from tracker.log.who import HERE as HOUSEHOLD
from tracker.log.who import who
from tracker.prescription.sheet.model import Sheet
from tracker.units import plain

WORDS = {"": "", "likely": "likely", "easy": "easy", "less likely": "may not go up", "unlikely": "probably too heavy"}
MOST_SHOWN = 60  # sessions set by set; more are no page to read


def picture(found: WaveAhead, *, key: str) -> None:
    """Draw the weeks, and say where they are likely, too heavy or easy."""
    bars = [_bar(week) for week in found.weeks]
    if len(bars) > 1:
        plot.show(plan_figure(bars, dark=plot.is_dark()), key=key, alt=plan_words(bars))
    st.html("".join(f'<p class="plain">{escape(line)}</p>' for line in found.words))


def _bar(week: WeekAhead) -> PlanBar:
    low, high = week.percents or (None, None)
    words = f"least likely set: {chance_words(week.least)}" if week.least is not None else ""
    return PlanBar(week.number, None if low is None else float(low), None if high is None else float(high), week.hard, week.test, words)  # fmt: skip


def set_by_set(now: Here, found: WaveAhead, *, key: str) -> None:
    """Behind a touch: each session's loads, with the chance now and as foretold for its day."""
    box = st.expander("Set by set: loads and chances", key=key, icon=":material/list:", on_change="rerun")
    if not box.open:
        return
    with box:
        rows = [_row(now, session, each) for session in found.sessions[:MOST_SHOWN] for each in session.sets]
        st.html(
            '<div class="ahead-scroll" tabindex="0" role="region" aria-label="Sets ahead"><table class="ahead">'
            '<thead><tr><th scope="col">Day</th><th scope="col">Sets</th><th scope="col">Load</th><th scope="col">Now</th>'
            f'<th scope="col">Then</th></tr></thead><tbody>{"".join(rows)}</tbody></table></div>'
        )
        st.caption(f"{RULE} {SUPPOSED}")


def _row(now: Here, session: SessionAhead, each: SetsAhead) -> str:
    asked = "test" if each.test else f"{each.sets}\u00a0×\u00a0{each.reps}"
    at = f"<small>{plain(each.percent)}\u00a0%</small>" if each.percent is not None else ""
    load = escape(load_words(each.made.load, each.lift)) if each.made else "–"
    word = WORDS[each.verdict]
    return (
        f'<tr><th scope="row">{escape(first_up(day_words(session.day, now.today)))}<small>{escape(each.lift.name)}</small></th>'
        f"<td>{asked}{at}</td><td>{load}</td><td>{_percent(each.now)}</td>"
        f"<td>{_percent(each.then)}<small>{escape(word)}</small></td></tr>"
    )


def _percent(chance: float | None) -> str:
    return "–" if chance is None else f"{min(max(round(chance * 100), 1), 99)}\u00a0%"


def of_sheet(now: Here, sheet: Sheet) -> None:
    """Behind a touch below a sheet that was read: how likely its sets are, for oneself and for a class."""
    if now.someone is None:
        return
    box = st.expander("How likely are these sets", key="ahead_of_sheet", icon=":material/percent:", on_change="rerun")
    if box.open:
        with box:
            found = plan.foresee(now.log, now.member, sheet, now.today)
            picture(found, key="ahead_figure")
            set_by_set(now, found, key="ahead_sets")
    of_class(now, sheet)


def of_class(now: Here, sheet: Sheet) -> None:
    """Behind a touch, for coach and household: who of a class will find which week too heavy."""
    members = class_of(now)
    if len(members) < 2:
        return
    box = st.expander("How likely for each member", key="ahead_of_class", icon=":material/group:", on_change="rerun")
    if not box.open:
        return
    with box:
        with st.spinner("Working out the sets of each member"):
            found = plan.of_class(now.log, members, sheet, now.today)
        rows = "".join(
            f"<tr><th scope='row'>{escape(each.member.name)}</th><td>{_of_member(each)}</td></tr>" for each in found
        )
        st.html(
            f'<table class="ahead"><thead><tr><th scope="col">Who</th><th scope="col">On the day</th></tr></thead><tbody>{rows}</tbody></table>'
        )
        st.caption(f"{RULE} {SUPPOSED}")


def class_of(now: Here) -> tuple[str, ...]:
    """Return the ids of those whom whoever looks leads, as many as a class has."""
    from tracker.desk.people import people

    person = who()
    if person.role != HOUSEHOLD.role and not person.leads:
        return ()
    return tuple(each.id for each in people.members(now.log))[: plan.MOST_MEMBERS]


def _of_member(found: WaveAhead) -> str:
    worst = next((week for week in found.weeks if week.least is not None and week.least < plan.LESS_LIKELY), None)
    words = " ".join(found.words)
    if worst is not None:
        return f"{escape(words)} <b>From week {worst.number} on.</b>"
    return escape(words)
