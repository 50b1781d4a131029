"""Where and when: the place and bar that loads are made for, and the day that is written on."""

from __future__ import annotations

from datetime import date, timedelta

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import MEMBER, Here, here, moment_here
from tracker.components.frame.words import day_words, first_up
from tracker.desk.day.over_midnight import day_on
from tracker.desk.people import people, places
from tracker.errors import TidemarkError
from tracker.log.records import KitItemRecord, PlaceRecord

DAY = "day"  # in the address, so that a reload stays on the day
SESSION = "session"  # in the address: the session that somebody chose


def chosen_day(now: Here) -> date:
    """Return the day that is written on: the one in the address, else today, or the one that goes on over midnight."""
    if address := st.query_params.get(DAY, ""):
        return day_in(address, now.today)
    moment = moment_here()
    return day_on(now.log, now.member.id, moment) if moment.date() == now.today else now.today


def chosen_step() -> str | None:
    """Return the id of the session that was chosen, as the address has it; the log says whether it can be on."""
    return st.query_params.get(SESSION)


def carried(now: Here, day: date) -> dict[str, str]:
    """Return what a link within the app carries along: whose it is, and the day where it is not today."""
    return {MEMBER: now.member.id, **({} if day == now.today else {DAY: day.isoformat()})}


def day_in(address: str, today: date) -> date:
    """Return the day that an address names, where it names one that can be written on; else today."""
    try:
        day = date.fromisoformat(address)
        return people.check_day(day, today=today) if day != today else day
    except (ValueError, TidemarkError):
        return today


def show(place: PlaceRecord | None, bar: KitItemRecord | None, day: date) -> None:
    """Draw the place with its bar and the day, each to be changed."""
    now = here()
    with st.container(horizontal=True, gap="small", key="where"):
        with st.popover(as_typed(place_words(place, bar)), key="where_place", type="tertiary"):
            _place(now, place, bar, day)
        with st.popover(first_up(day_words(day, now.today)), key="where_day", type="tertiary"):
            st.session_state["where_date"] = day
            st.date_input(
                "Date",
                key="where_date",
                max_value=now.today,
                format="YYYY-MM-DD",
                on_change=_take_day,
            )
            before = now.today - timedelta(days=1)
            if day != before:
                st.button("Yesterday", key="where_yesterday", width="stretch", on_click=go_to, args=(before,))
    if day != now.today:
        with st.container(border=True):
            st.markdown(f"Date: **{day_words(day, now.today)}**")
            st.button("Back to today", key="where_today", on_click=_to_today)


def place_words(place: PlaceRecord | None, bar: KitItemRecord | None) -> str:
    """Name the place, and the bar that is taken there."""
    return " · ".join(each for each in (place.name if place else "No place yet", bar_words(bar)) if each)


def bar_words(bar: KitItemRecord | None) -> str:
    """Name a bar with its mass, once."""
    if bar is None:
        return ""
    return bar.label if bar.mass is None or str(bar.mass) in bar.label else f"{bar.label} of {bar.mass}"


def _place(now: Here, place: PlaceRecord | None, bar: KitItemRecord | None, day: date) -> None:
    known = {each.id: as_typed(each.name) for each in places.places(now.log)}
    if not known:
        st.write("No place is known yet: loads are made with a common bar and discs. Add yours on the page Kit.")
        return
    st.session_state["where_place_id"] = place.id if place else None
    st.radio("Place", list(known), format_func=known.__getitem__, key="where_place_id", on_change=_go, args=(day,))
    if place is not None and place.id != now.member.place_id:
        st.caption(f"{as_typed(place.name)} is for {day_words(day, now.today)} alone.")
        st.button("Keep it from now on", key="where_place_keep", on_click=_keep, args=(place,))
    bars = {each.id: as_typed(bar_words(each)) for each in place.of_kind("bar")} if place else {}
    if len(bars) > 1:
        st.session_state["where_bar_id"] = bar.id if bar else None
        st.radio("Bar", list(bars), format_func=bars.__getitem__, key="where_bar_id", on_change=_take_bar)


def _go(day: date) -> None:
    """Take a place for the day; the first one of all is kept."""
    now, place_id = here(), st.session_state["where_place_id"]
    if now.member.place_id is None:
        do(people.go_to_place, now.log, now.member.id, place_id, said="Place changed")
        return
    do(places.go_today, now.log, now.member.id, place_id, day, said=f"Place changed for {day_words(day, now.today)}")


def _keep(place: PlaceRecord) -> None:
    now = here()
    do(people.go_to_place, now.log, now.member.id, place.id, said=f"{place.name} is kept from now on")


def _take_bar() -> None:
    now = here()
    do(people.take_bar, now.log, now.member.id, st.session_state["where_bar_id"], said="Bar changed")


def _take_day() -> None:
    day: date | None = st.session_state["where_date"]
    if day is not None:
        go_to(day)


def go_to(day: date) -> None:
    """Write on another day from now on."""
    st.query_params[DAY] = day.isoformat()


def _to_today() -> None:
    st.query_params.pop(DAY, None)
    if chosen_day(here()) != here().today:  # by itself the day before would go on
        st.query_params[DAY] = here().today.isoformat()
