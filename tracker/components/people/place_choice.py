"""Which place is looked at, and the way to a new one."""

from __future__ import annotations

from typing import get_args

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.people import pictures
from tracker.desk.people import kit, people, places
from tracker.desk.people.ready_places import TITLES, Ready, inside
from tracker.log.records import PlaceRecord
from tracker.units import Unit

NEW = "new place"


def show(now: Here, known: tuple[PlaceRecord, ...]) -> PlaceRecord | None:
    """Choose a place to look at, at first the member's own; None where a new one is being made."""
    names = {each.id: as_typed(each.name) for each in known} | {NEW: "+ New place"}
    wanted = st.session_state.get("kit_place")
    if wanted not in names:
        own = now.someone.place_id if now.someone else None
        st.session_state["kit_place"] = own if own in names else next(iter(names))
    chosen = st.pills(
        "Place", list(names), format_func=names.__getitem__, key="kit_place", required=True, persist_state="session"
    )
    return next((each for each in known if each.id == chosen), None)


def here_or_not(now: Here, place: PlaceRecord) -> None:
    """Say whether the member trains here, and offer to come here in one touch."""
    if now.someone is None:
        return
    if now.member.place_id == place.id:
        st.markdown(f":material/check: **{as_typed(now.member.name)} trains here.** Loads are made with this kit.")
        return
    st.button(
        f"{as_typed(now.member.name)} trains here",
        key="kit_go",
        type="primary",
        width="stretch",
        on_click=_go,
        args=(now, place),
    )


def _go(now: Here, place: PlaceRecord) -> None:
    do(people.go_to_place, now.log, now.member.id, place.id, said=f"{now.member.name} trains at {place.name}")


def new_place(now: Here) -> None:
    """Ask for a new place: its name and unit, and a touch on the ready kit that it starts with."""
    st.text_input("Name of the place", key="kit_new_name")
    unit: Unit | None = st.segmented_control(
        "Masses there are in", ("kg", "lb"), default=now.unit, key="kit_new_unit", required=True
    )
    st.markdown("**What stands there?**")
    for kind in get_args(Ready):
        words = inside(kind, unit or now.unit) if kind != "floor" else "Add kit one by one."
        pictures.choice(
            kind,
            TITLES[kind] if kind != "floor" else "Nothing yet",
            words,
            key=f"kit_new_{kind}",
            on_click=_add,
            args=(now, kind),
        )


def _add(now: Here, kind: Ready) -> None:
    state = st.session_state
    do(
        kit.begin_place, now.log, state["kit_new_name"], state["kit_new_unit"] or now.unit, now.member_id, ready=kind, said=_added
    )  # fmt: skip


def _added(place: PlaceRecord) -> str:
    st.session_state["kit_place"] = place.id
    return f"Added {place.name}"


def facts(now: Here, place: PlaceRecord) -> None:
    """Rename a place, say its unit and pins, or remove it."""
    with st.expander("Name, unit and pins of this place", key="kit_facts"):
        key = f"kit_facts_{place.id}"
        with st.form(f"{key}_form", border=False):
            st.text_input("Name", place.name, key=f"{key}_name")
            st.radio("Unit", ("kg", "lb"), index=("kg", "lb").index(place.unit), key=f"{key}_unit", horizontal=True)
            st.checkbox("Pins or safety arms", place.pins, key=f"{key}_pins")
            st.form_submit_button("Save", width="stretch", on_click=_change, args=(now, place, key))
        st.button("Remove this place", key="kit_remove_place", on_click=_remove, args=(now, place))


def _change(now: Here, place: PlaceRecord, key: str) -> None:
    state = st.session_state
    do(
        kit.change_facts, now.log, place, now.member_id, name=state[f"{key}_name"], unit=state[f"{key}_unit"],
        pins=state[f"{key}_pins"], said="Saved",
    )  # fmt: skip


def _remove(now: Here, place: PlaceRecord) -> None:
    do(places.remove_place, now.log, place.id, now.member_id, said=f"Removed {place.name}; what was done there stays")
