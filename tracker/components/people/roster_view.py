"""Members by a table: pasted or brought as a file, shown as it is understood, then taken; and their invitations."""

from __future__ import annotations

from html import escape
from typing import Any

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here
from tracker.desk.people import places, roster
from tracker.desk.people.roster import Person, RosterPreview, TakenRoster
from tracker.errors import TidemarkError
from tracker.exchange.problems import BadFileError
from tracker.exchange.roster import Roster, read_roster
from tracker.units import Unit
from tracker.wording import counted

TEXT, FILE, UNIT, PLACE, NONE = "roster_text", "roster_file", "roster_unit", "roster_place", ""
SHOWN = 12  # rows in sight; the others stand behind a touch
EXAMPLE = "name\tunit\tplace\tgroup\nAna Quay\tkg\tHarbour Hall\tEarly\nBo Weir\tlb\t\tEarly; Barbell"


def show(now: Here) -> None:
    """Draw where a table goes in, and what it would do."""
    st.text_area(
        "Paste your members", key=TEXT, height=150, placeholder=EXAMPLE,
        help="From a spreadsheet, with a heading: name, and where you have them unit, place, group. Or names alone, one a line.",
    )  # fmt: skip
    with st.expander("A file instead", key="roster_as_file", icon=":material/upload_file:"):
        st.file_uploader("CSV or text", type=["csv", "tsv", "txt"], key=FILE)
    found = _read()
    if found is None:
        _how()
        return
    known = [each.name for each in places.places(now.log)]
    with st.container(horizontal=True, vertical_alignment="bottom"):
        st.segmented_control("Where it says no unit", ("kg", "lb"), key=UNIT, default="kg", required=True)
        st.selectbox(
            "Where it says no place", [NONE, *known], key=PLACE, index=1 if len(known) == 1 else 0,
            format_func=lambda each: each or "nowhere in particular",
        )  # fmt: skip
    try:
        preview = roster.look_at(now.log, found, **_choices())
    except TidemarkError as error:
        _wrong(error)
        return
    _preview(preview)
    if preview.nothing:
        st.info("The log has all of them already. Add whoever is new to the table.", icon=":material/check:")
        return
    many = len(preview.new)
    label = f"Take {counted(many, 'member')}" if many else "Put them into their groups"
    st.button(
        label,
        key="roster_take",
        type="primary",
        width="stretch",
        icon=":material/group_add:",
        on_click=_take,
        args=(found,),
    )


def _choices() -> dict[str, Any]:
    unit: Unit = st.session_state.get(UNIT) or "kg"
    return {"unit": unit, "place": st.session_state.get(PLACE) or ""}


def _read() -> Roster | None:
    """Read what was brought; where it can't be, tell all that is wrong."""
    file, text = st.session_state.get(FILE), st.session_state.get(TEXT) or ""
    try:
        if text.strip():
            return read_roster(text)
        return read_roster(file.getvalue(), file.name) if file is not None else None
    except TidemarkError as error:
        _wrong(error)
        return None


def _wrong(error: TidemarkError) -> None:
    if not isinstance(error, BadFileError):
        st.error(as_typed(str(error)), icon=":material/error:")
        return
    many = len(error.problems)
    st.error(f"Nothing is taken yet: {counted(many, 'row')} can't be.", icon=":material/error:")
    st.html("".join(f'<p class="plain">{escape(str(each))}</p>' for each in error.problems))


def _how() -> None:
    st.caption(
        "Nothing is taken before you have seen how it is understood. Who is known already only joins new groups."
    )


def _preview(preview: RosterPreview) -> None:
    st.html(f'<p class="over">{escape(preview.words)}</p>')
    if preview.ignored:
        st.caption(as_typed(f"Not read: {', '.join(preview.ignored)}."))
    if preview.new_places:
        names = as_typed(", ".join(preview.new_places))
        st.info(
            f"New: {names}, with the usual kit of a gym. Look at it under Kit before loads are made.",
            icon=":material/shelves:",
        )
    st.html(_table(preview.people[:SHOWN]))
    if len(preview.people) > SHOWN:
        with st.expander(f"{len(preview.people) - SHOWN} more", key="roster_more"):
            st.html(_table(preview.people[SHOWN:]))


def _table(people: tuple[Person, ...]) -> str:
    return f'<table class="people-table">{"".join(map(_row, people))}</table>'


def _row(each: Person) -> str:
    said = [each.unit, each.place or "no place", ", ".join(each.groups) or "no group"] if each.new else []
    if not each.new:
        said = ["known already", f"joins {', '.join(each.joins)}" if each.joins else "stays as it is"]
    return f'<tr><th scope="row">{escape(each.name)}</th><td>{escape(" · ".join(said))}</td></tr>'


def _take(found: Roster) -> None:
    if do(roster.take, here().log, found, **_choices(), said=_said):
        st.session_state[TEXT] = ""


def _said(taken: TakenRoster) -> str:
    return f"Taken: {taken.preview.words}"
