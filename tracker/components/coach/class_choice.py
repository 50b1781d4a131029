"""Which class: its session, its members, the gym and the day; kept while the reader looks at other parts of the desk."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import streamlit as st

from tracker.components.frame import kept as address
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, moment_here
from tracker.components.frame.words import day_words, first_up
from tracker.desk.coach import class_sheet, classes, hand_out
from tracker.desk.coach.class_sheet import DatedSession
from tracker.desk.people import people, places
from tracker.log.records import StepRow
from tracker.wording import counted

OWN_PLACE = ""
NO_CLASS = "by-hand"
KEPT = "coach_kept"  # what was chosen, since Streamlit forgets a widget that is not drawn


@dataclass(frozen=True, slots=True)
class ClassChoice:
    """What was chosen; `step` is None where no session is in the log."""

    step: StepRow | None
    member_ids: tuple[str, ...]
    place_id: str | None
    day: date


def style() -> None:
    st.html(f"<style>{(Path(__file__).parent / 'coach.css').read_text(encoding='utf-8')}</style>")


def nobody_shares() -> None:
    """Say why there is nobody to choose."""
    st.info("Nobody shares a log with you yet. Members do so under Preferences.", icon=":material/group:")


def choose(now: Here, *, with_session: bool) -> ClassChoice:
    """Draw what the part of the desk needs to know."""
    kept: dict[str, Any] = st.session_state.setdefault(KEPT, {})
    dated = {each.step.id: each for each in class_sheet.dated_sessions(now.log, now.today)}
    steps = {key: each.step for key, each in dated.items()}
    if not kept:
        likely, members = class_sheet.likely_class(now.log, now.today)
        everybody = [each.id for each in people.members(now.log)]
        kept.update(step=likely, members=list(members), everybody=everybody, place=OWN_PLACE, day=now.today)
    _class(now, dated)
    if with_session and steps:
        _select("step", "Session", _names(dated, now.today))
        _follow(dated)
    elif kept["day"] > now.today:
        kept["day"] = now.today  # there are no results of a day that is to come
    with st.container(horizontal=True, gap="xsmall"):
        who = _members(now, "members" if with_session else "everybody")
        if with_session and steps:
            gyms = {OWN_PLACE: "Own places", **{each.id: each.name for each in places.places(now.log)}}
            with st.popover(gyms.get(kept["place"], gyms[OWN_PLACE]), key="coach_where"):
                _select("place", "Where", {**gyms, OWN_PLACE: "Each at their own place"})
        _day(now)
    step = steps.get(kept["step"]) if kept["step"] else None
    return ClassChoice(step, who, kept["place"] or None, kept["day"])


def _class(now: Here, dated: Mapping[str, DatedSession]) -> None:
    """Take the class that is on or comes next, or another one: its members, its place, and what it was handed.

    The log keeps the classes, so that nothing is chosen anew on another day or another phone.
    """
    known = classes.classes(now.log)
    if not known:
        return
    likely = classes.class_now(known, moment_here())
    names = {NO_CLASS: "Members by hand", **{each.id: each.name for each in known}}
    chosen = address.select("class", "Class", names, default=likely.id if likely else NO_CLASS)
    choice = st.session_state[KEPT]
    if chosen == NO_CLASS or choice.get("class") == chosen:
        choice["class"] = chosen
        return
    found = next(each for each in known if each.id == chosen)
    waves = {each.wave_id for each in hand_out.handed(now.log, chosen)}
    step = next((key for key, each in dated.items() if each.step.wave_id in waves), choice["step"])
    choice["members"] = choice["everybody"] = list(classes.members_seen(now.log, chosen))
    choice["place"] = found.place_id or OWN_PLACE
    choice["class"], choice["step"], choice["followed"] = chosen, step, step
    if step in dated and dated[step].day is not None:
        choice["day"] = dated[step].day


def _names(dated: Mapping[str, DatedSession], today: date) -> dict[str, str]:
    """Say each session with its day first, and its wave only where two would be called the same."""
    short = {key: _named(each, today) for key, each in dated.items()}
    often = Counter(short.values())
    return {
        key: f"{said} ({dated[key].step.wave})" if often[said] > 1 and dated[key].step.title else said
        for key, said in short.items()
    }


def _named(session: DatedSession, today: date) -> str:
    """Say a session with its day first: `Today: Front squat, week 2`."""
    when = first_up(day_words(session.day, today)) if session.day else "No date"
    return f"{when}: {session.step.title or session.step.wave}"


def _follow(dated: Mapping[str, DatedSession]) -> None:
    """Another session was chosen: take its day, and the members who have it on that day."""
    kept = st.session_state[KEPT]
    found = dated.get(kept["step"])
    if found is not None and kept.get("followed", kept["step"]) != kept["step"] and found.day is not None:
        kept["day"], kept["members"] = found.day, list(found.member_ids)
    kept["followed"] = kept["step"]


def _select(name: str, label: str, options: Mapping[str, str]) -> None:
    kept = st.session_state[KEPT]
    if kept[name] not in options:
        kept[name] = next(iter(options))
    st.session_state[f"coach_{name}"] = kept[name]
    st.selectbox(
        label, list(options), format_func=options.__getitem__, key=f"coach_{name}", on_change=_keep, args=(name,)
    )


def _members(now: Here, name: str) -> tuple[str, ...]:
    """Choose from all; the class of a session and those whose results are looked at are kept apart."""
    kept, key = st.session_state[KEPT], f"coach_{name}"
    names = {each.id: as_typed(each.name) for each in people.members(now.log)}
    st.session_state[key] = kept[name] = [each for each in kept[name] if each in names]
    with st.popover(counted(len(kept[name]), "member"), key=f"{key}_who"):
        st.pills(
            "Who is in the class" if name == "members" else "Whose results", list(names), format_func=names.__getitem__,
            key=key, selection_mode="multi", on_change=_keep, args=(name,),
        )  # fmt: skip
        st.button("All", key=f"{key}_all", on_click=_all, args=(name, list(names)))
    return tuple(kept[name])


def _day(now: Here) -> None:
    kept = st.session_state[KEPT]
    st.session_state["coach_day"] = kept["day"]
    with st.popover(first_up(day_words(kept["day"], now.today)), key="coach_when"):
        st.date_input("Day", key="coach_day", on_change=_keep, args=("day",), format="YYYY-MM-DD")


def _keep(name: str) -> None:
    value = st.session_state[f"coach_{name}"]
    if value is not None:
        st.session_state[KEPT][name] = value


def _all(name: str, ids: list[str]) -> None:
    st.session_state[KEPT][name] = ids
