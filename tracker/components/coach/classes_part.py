"""The classes of the week: who did the session, what was handed out, and each class with its group, times and coach."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.coach import copy_button
from tracker.components.frame import empty, kept
from tracker.components.frame.acts import do, touch
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here, moment_here
from tracker.components.frame.words import day_words, first_up
from tracker.desk.coach import classes, hand_out, who_did
from tracker.desk.coach.who_did import SAID, Did, WhoDid
from tracker.desk.people import groups, people, places
from tracker.log.classes import ClassRecord
from tracker.log.who import HERE, who
from tracker.wording import counted

NOBODY = "nobody in particular"


def show(now: Here) -> None:
    """Draw the class that is on or next, and who did its session; below it the classes themselves."""
    known = classes.classes(now.log)
    if known:
        first = classes.class_now(known, moment_here())
        names = {each.id: each.name for each in known}
        chosen = kept.select("class", "Class", names, default=first.id if first else known[0].id)
        found = next(each for each in known if each.id == chosen)
        _head(found)
        _who_did(now, found)
        empty.way_to("sheet", "Give it a session", icon=":material/assignment:")
        _change(now, found)
    else:
        st.info("There is no class yet. A class is a name, who is in it, and when it is.", icon=":material/groups:")
        if who().role in ("owner", HERE.role):
            empty.way_to("roster", "Members: a table, invitations, groups", icon=":material/group_add:")
    _add(now)


def _head(found: ClassRecord) -> None:
    said = [classes.times_words(found.times), found.group, counted(found.total, "member"), found.coach]
    st.html(f'<p class="plain">{escape(" · ".join(each for each in said if each))}</p>')


def _who_did(now: Here, found: ClassRecord) -> None:
    days = {each.day.isoformat(): each for each in who_did.class_days(now.log, found.id)}
    if not days:
        st.caption("Nothing was handed to this class yet.")
        return
    past = [key for key, each in days.items() if each.day <= now.today]
    labels = {key: f"{first_up(day_words(each.day, now.today))}: {each.title}" for key, each in days.items()}
    chosen = kept.select("session_of", "Session", labels, default=past[0] if past else list(days)[-1])
    told = who_did.who_did_it(now.log, found.id, days[chosen].day, today=now.today)
    st.html(f'<p class="over">{escape(told.words)}</p>{_table(told)}')
    if told.unseen:
        st.caption(
            f"{counted(told.unseen, 'member')} keep their log to themselves: nothing of what they do is known here."
        )
    _copy(told)
    with st.expander("Sessions given", key="class_handed", icon=":material/history:"):
        for each in hand_out.handed(now.log, found.id):
            by, of = f" by {each.handed_by}" if each.handed_by else "", f", {each.group} alone" if each.group else ""
            st.html(f'<p class="plain">{escape(f"{each.wave}: from {each.started.isoformat()}{by}{of}")}</p>')


def _table(told: WhoDid) -> str:
    rows = sorted(told.rows, key=lambda each: (list(SAID).index(each.how), each.member.name.casefold()))
    return f'<table class="class-table">{"".join(map(_row, rows))}</table>'


def _row(each: Did) -> str:
    results = "".join(f"<small>{escape(one)}</small>" for one in each.results)
    return f'<tr><th scope="row" class="who">{escape(each.member.name)}</th><td>{escape(first_up(SAID[each.how]))}{results}</td></tr>'


def _copy(told: WhoDid) -> None:
    names = st.toggle("With names and results", key="class_names") if told.rows else False
    if names:
        st.caption("They were shared with you alone: ask before you post them where others read.")
    copy_button.show(
        told.text(names=names), label="Copy the text", done="Copied: paste it where you like.",
        failed="This browser does not copy: open the text below and mark it.", key="class_copy",
    )  # fmt: skip
    with st.expander("The text as it is copied", key="class_text"):
        st.code(told.text(names=names), language=None, wrap_lines=True)


def _fields(now: Here, key: str, found: ClassRecord | None) -> None:
    """Ask for all of a class: a new one, or one that is there."""
    teams = {each.id: f"{each.name}, {counted(each.total, 'member')}" for each in groups.groups(now.log)}
    halls = {each.id: each.name for each in places.places(now.log)}
    names = {each.id: each.name for each in people.members(now.log)}
    group, place = (found.group_id, found.place_id) if found else (None, None)
    st.text_input("Name", found.name if found else "", key=f"{key}_name", placeholder="Evening")
    st.text_input(
        "When",
        classes.times_words(found.times) if found else "",
        key=f"{key}_times",
        placeholder="Mon 18:00, Thu 18:00",
    )
    st.selectbox(
        "All of a group", [None, *teams], index=[None, *teams].index(group) if group in teams else 0, key=f"{key}_group",
        format_func=lambda each: teams.get(each or "", "no group"),
    )  # fmt: skip
    st.multiselect(
        "And these", list(names), [each for each in found.alone_ids if each in names] if found else [],
        format_func=names.__getitem__, key=f"{key}_alone", placeholder=NOBODY,
    )  # fmt: skip
    st.selectbox(
        "Where", [None, *halls], index=[None, *halls].index(place) if place in halls else 0, key=f"{key}_place",
        format_func=lambda each: halls.get(each or "", "each at their own place"),
    )  # fmt: skip
    st.text_input("Coach", found.coach if found else who().name, key=f"{key}_coach")


def _said_of(key: str) -> tuple[str, str, dict[str, object]]:
    state = st.session_state
    values = {
        "group_id": state[f"{key}_group"],
        "member_ids": list(state[f"{key}_alone"]),
        "place_id": state[f"{key}_place"],
    }
    return state[f"{key}_name"], state[f"{key}_times"], {**values, "coach": state[f"{key}_coach"].strip()}


def _add(now: Here) -> None:
    box = st.expander("A new class", key="class_new", on_change="rerun", icon=":material/add:")
    if not box.open:
        return
    with box, st.form("class_add", clear_on_submit=False):
        _fields(now, "class_new", None)
        st.form_submit_button("Add the class", type="primary", width="stretch", on_click=_added)


def _added() -> None:
    name, times, values = _said_of("class_new")
    if do(classes.add_class, here().log, name, times, **values, said=f"Added: {as_typed(name)}"):
        st.session_state["class_new_name"] = ""


def _change(now: Here, found: ClassRecord) -> None:
    box = st.expander("Change this class", key="class_edit", on_change="rerun", icon=":material/edit:")
    if not box.open:
        return
    with box:
        with st.form(f"class_{found.id}"):
            _fields(now, f"class_{found.id}", found)
            st.form_submit_button("Save", type="primary", width="stretch", on_click=_changed, args=(found,))
        st.button(
            "Remove the class", key="class_gone", on_click=touch, args=(classes.remove_class, now.log, found.id),
            kwargs={"said": lambda name: f"Removed: {name}; what it was handed stays in the calendars"},
        )  # fmt: skip


def _changed(found: ClassRecord) -> None:
    name, times, values = _said_of(f"class_{found.id}")
    do(classes.change_class, here().log, found.id, name, times, **values, said="Saved: the class")
