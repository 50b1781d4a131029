"""What a member prefers, and their dated body mass."""

from __future__ import annotations

from datetime import date

import streamlit as st

from tracker.components.frame.acts import do, tell
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words
from tracker.desk.people import accounts, people, places
from tracker.errors import TidemarkError
from tracker.limits import MOST_TYPED
from tracker.units import parse_mass

SHOWN = 10  # body masses listed; the others stay in the log


def preferences(now: Here) -> None:
    """Ask what the member prefers; all of it is written in one act."""
    key, me = f"about_{now.member.id}", now.member
    names = {place.id: place.name for place in places.places(now.log)}
    options = [None, *names]
    with st.form(f"{key}_form"):
        st.text_input("Name", me.name, key=f"{key}_name")
        st.radio("My loads are in", ("kg", "lb"), index=("kg", "lb").index(me.unit), key=f"{key}_unit", horizontal=True)
        st.selectbox(
            "I train at", options, index=options.index(me.place_id) if me.place_id in names else 0,
            format_func=lambda each: names.get(each or "", "nowhere in particular"), key=f"{key}_place",
        )  # fmt: skip
        st.toggle(
            "No tests, nothing heavy", me.no_heavy, key=f"{key}_no_heavy",
            help="No tests and no loads over 80 % of the 1RM are offered. Nobody asks why; switch it back when you like.",
        )  # fmt: skip
        st.toggle(
            "I am under 18", me.minor, key=f"{key}_minor", help="Then a test wants a coach beside you, who decides."
        )
        st.toggle(
            "I mostly train alone", me.alone, key=f"{key}_alone",
            help="Loads are rounded down, and bars over the body get a word about pins.",
        )  # fmt: skip
        st.form_submit_button("Save", type="primary", width="stretch", on_click=_prefer, args=(now, key))


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


def _prefer(now: Here, key: str) -> None:
    state = st.session_state
    do(
        people.prefer, now.log, now.member.id, name=state[f"{key}_name"], unit=state[f"{key}_unit"],
        place_id=state[f"{key}_place"], no_heavy=state[f"{key}_no_heavy"], minor=state[f"{key}_minor"],
        alone=state[f"{key}_alone"], said="Saved: your preferences",
    )  # fmt: skip


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
