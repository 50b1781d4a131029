"""What a member prefers, and their dated body mass."""

from __future__ import annotations

from datetime import date
from typing import Any, Literal

import streamlit as st

from tracker.components.frame.acts import do, tell
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.empty import way_to
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words
from tracker.desk.people import accounts, people, places
from tracker.errors import TidemarkError
from tracker.limits import MOST_TYPED
from tracker.units import parse_mass

SHOWN = 10  # body masses listed; the others stay in the log


def unit_and_place(now: Here) -> None:
    """Show first what is changed most: the unit and the place, each kept with its touch."""
    key, me = f"about_{now.member.id}", now.member
    names = {place.id: place.name for place in places.places(now.log)}
    st.session_state[f"{key}_unit"] = me.unit
    st.session_state[f"{key}_place"] = me.place_id if me.place_id in names else None
    with st.container(horizontal=True, vertical_alignment="bottom", key="unit_and_place"):
        st.segmented_control(
            "Loads in", ("kg", "lb"), key=f"{key}_unit", required=True, on_change=_take, args=(now, key, "unit")
        )
        st.selectbox(
            "Place", [None, *names], format_func=lambda each: names.get(each or "", "nowhere in particular"),
            key=f"{key}_place", on_change=_take, args=(now, key, "place"),
        )  # fmt: skip
    with st.container(key="behind_place"):
        way_to("kit", "Kit: bars, discs, dumbbells", icon=":material/shelves:")


def _take(now: Here, key: str, what: Literal["unit", "place"]) -> None:
    chosen = st.session_state[f"{key}_{what}"]
    said = f"Saved: loads in {chosen}" if what == "unit" else "Saved: your place"
    _write(now, said, **({"unit": chosen} if what == "unit" else {"place_id": chosen}))


def _write(now: Here, said: str, **new: Any) -> None:
    me = now.member
    kept = {
        "name": me.name, "unit": me.unit, "place_id": me.place_id, "no_heavy": me.no_heavy, "minor": me.minor,
        "alone": me.alone,
    }  # fmt: skip
    do(people.prefer, now.log, me.id, **{**kept, **new}, said=said)


SWITCHES = {
    "no_heavy": ("No tests, nothing heavy", "No tests and no loads over 80 % of the 1RM are offered. Nobody asks why."),
    "minor": ("I am under 18", "A test then wants a coach beside you, who decides."),
    "alone": ("I mostly train alone", "Loads are rounded down; bars over the body get a word about pins."),
}  # fmt: skip


def preferences(now: Here) -> None:
    """Ask for the name and what loads have to mind; each is written as soon as it is changed."""
    key, me = f"about_{now.member.id}", now.member
    st.text_input("Name", me.name, key=f"{key}_name", on_change=_rename, args=(now, key))
    with st.container(border=True, key="about_me", gap=None):
        for name, (label, means) in SWITCHES.items():
            st.session_state[f"{key}_{name}"] = getattr(me, name)
            st.toggle(label, key=f"{key}_{name}", on_change=_switch, args=(now, key, name))
            st.caption(means)


def sharing(now: Here) -> None:
    """Let the member say, where members sign in, whether the coach sees their log."""
    key = f"share_{now.member.id}"
    st.toggle(
        "Share my log with the coach", now.member.shared, key=key, on_change=_share, args=(now, key),
        help="Coach and owner then see your sets, maxes, scores and cautions, and can put sheets into your calendar. "
        "They can't change what you logged. Off: they see nothing of it.",
    )  # fmt: skip


def _share(now: Here, key: str) -> None:
    wanted = bool(st.session_state[key])
    said = "Your coach sees your log now" if wanted else "Your log is your own again"
    if not do(accounts.share, now.log, now.member.id, wanted, said=said):
        st.session_state[key] = not wanted


def _switch(now: Here, key: str, name: str) -> None:
    on = bool(st.session_state[f"{key}_{name}"])
    _write(now, f"Saved: {SWITCHES[name][0]}, {'on' if on else 'off'}", **{name: on})


def _rename(now: Here, key: str) -> None:
    _write(now, "Saved: your name", name=st.session_state[f"{key}_name"])


def body_mass(now: Here) -> None:
    """Ask for a body mass with its day, and list those that are known."""
    unit = now.member.unit
    st.caption("Needed only for lifts in which the body is lifted, such as pull-ups. Each value stays with its day.")
    with st.form("body_mass", clear_on_submit=False):
        st.text_input(f"Body mass, {unit}", key="body_mass_amount", max_chars=MOST_TYPED)
        st.date_input("Day", now.today, key="body_mass_day", max_value=now.today, format="YYYY-MM-DD")
        st.form_submit_button("Save", type="primary", width="stretch", on_click=_weigh, args=(now,))
    for day, mass in reversed(people.body_masses(now.log, now.member.id)[-SHOWN:]):
        with st.container(key=f"row_body_{day}", horizontal=True, vertical_alignment="center", wrap=False, gap="small"):
            st.html(f'<p class="plain"><b>{mass}</b> {day_words(day, now.today)}</p>')
            st.button("Remove", key=f"unweigh_{day}", help=f"Remove {mass}", on_click=_unweigh, args=(now, day))


def _weigh(now: Here) -> None:
    try:
        mass = parse_mass(st.session_state["body_mass_amount"], unit=now.member.unit, where="body mass")
    except TidemarkError as error:
        tell(error)
        return
    day = st.session_state["body_mass_day"] or now.today
    do(people.weigh, now.log, now.member.id, day, mass, said=f"Saved: {mass}, {day_words(day, now.today)}")


def _unweigh(now: Here, day: date) -> None:
    do(people.unweigh, now.log, now.member.id, day, said=f"Removed: body mass of {day_words(day, now.today)}")


def members(now: Here) -> None:
    """List who shares this log, and add somebody."""
    known = people.members(now.log)
    st.write("In this log: " + ", ".join(as_typed(each.name) for each in known) + ".")
    with st.form("add_member", clear_on_submit=False):
        st.text_input("Name of a new member", key="add_member_name")
        st.radio("Loads in", ("kg", "lb"), key="add_member_unit", horizontal=True)
        st.form_submit_button("Add the member", type="primary", width="stretch", on_click=_add_member, args=(now,))


def _add_member(now: Here) -> None:
    state = st.session_state
    do(
        people.add_member, now.log, state["add_member_name"], state["add_member_unit"],
        said=lambda member: f"Added {member.name}: choose the name above to log for them",
    )  # fmt: skip
