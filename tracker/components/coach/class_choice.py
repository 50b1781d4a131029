"""Which class: its session, its members, the gym and the day; kept while the reader looks at other parts of the desk."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up
from tracker.desk.coach import class_sheet
from tracker.desk.people import people, places
from tracker.log.records import StepRow
from tracker.wording import counted

OWN_PLACE = ""
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
    steps = {each.id: each for each in class_sheet.sessions(now.log)}
    if not kept:
        likely, members = class_sheet.likely_class(now.log, now.today)
        everybody = [each.id for each in people.members(now.log)]
        kept.update(step=likely, members=list(members), everybody=everybody, place=OWN_PLACE, day=now.today)
    if with_session and steps:
        _select("step", "Session", {key: f"{step.wave}: {step.title}" for key, step in steps.items()})
        gyms = {OWN_PLACE: "Each at their own place", **{each.id: each.name for each in places.places(now.log)}}
        _select("place", "Where", gyms)
    with st.container(horizontal=True, gap="small"):
        who = _members(now, "members" if with_session else "everybody")
        _day(now)
    step = steps.get(kept["step"]) if kept["step"] else None
    return ClassChoice(step, who, kept["place"] or None, kept["day"])


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
    with st.popover(counted(len(kept[name]), "member"), key=f"{key}_who", icon=":material/group:"):
        st.pills(
            "Who is in the class" if name == "members" else "Whose results", list(names), format_func=names.__getitem__,
            key=key, selection_mode="multi", on_change=_keep, args=(name,),
        )  # fmt: skip
        st.button("All", key=f"{key}_all", on_click=_all, args=(name, list(names)))
    return tuple(kept[name])


def _day(now: Here) -> None:
    kept = st.session_state[KEPT]
    st.session_state["coach_day"] = kept["day"]
    with st.popover(first_up(day_words(kept["day"], now.today)), key="coach_when", icon=":material/event:"):
        st.date_input("Day", key="coach_day", on_change=_keep, args=("day",), format="YYYY-MM-DD")


def _keep(name: str) -> None:
    value = st.session_state[f"coach_{name}"]
    if value is not None:
        st.session_state[KEPT][name] = value


def _all(name: str, ids: list[str]) -> None:
    st.session_state[KEPT][name] = ids
