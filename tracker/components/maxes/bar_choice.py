"""Where the load is made, and another bar in one touch."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.desk.people import people, places
from tracker.log.records import KitItemRecord, LiftRecord

BAR_LIFTS = ("barbell", "unasked")


def show(now: Here, lift: LiftRecord, *, key: str = "weights") -> None:
    """Name the place, and offer its bars where the lift is done with one."""
    place = places.place_of(now.log, now.member, now.today)
    if place is None:
        st.caption(f"No place chosen: reckoned with a common bar and discs in {now.member.unit}. Choose one under Kit.")
        return
    bars = place.of_kind("bar") if lift.implement in BAR_LIFTS else ()
    if len(bars) < 2:
        st.caption(f"At {as_typed(place.name)}" + (f", {as_typed(bar_name(bars[0]))}." if bars else "."))
        return
    used = places.bar_in_use(now.member, place)
    names = {bar.id: bar_name(bar) for bar in bars}
    field = f"{key}_bar"
    st.session_state[field] = used.id if used else bars[0].id
    st.pills(
        f"Bar at {as_typed(place.name)}", list(names), format_func=lambda each: as_typed(names[each]), key=field, required=True,
        on_change=_take, args=(now, field, names),
    )  # fmt: skip


def _take(now: Here, field: str, names: dict[str, str]) -> None:
    chosen = st.session_state[field]
    do(people.take_bar, now.log, now.member.id, chosen, said=f"Now with the {names[chosen]}")


def bar_name(bar: KitItemRecord) -> str:
    """Name a bar with its mass, once."""
    mass = str(bar.mass) if bar.mass else ""
    return bar.label if not mass or mass in bar.label else f"{bar.label}, {mass}" if bar.label else f"{mass} bar"
