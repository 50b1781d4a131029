"""Bringing a file: chosen, understood, asked about where two readings are possible, shown, and only then taken."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import streamlit as st

from tracker.components.frame import long_work
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.desk.files import foreign
from tracker.desk.files.foreign import Brought, Reading
from tracker.desk.files.import_sets import Imported
from tracker.errors import TidemarkError
from tracker.exchange.foreign_values import ORDERS
from tracker.exchange.mapping import NEEDED, ROLES, Mapping
from tracker.exchange.tables import MOST_BYTES
from tracker.wording import counted

SHOWN = 4  # rows of the file itself
WORDS = {
    "date": "Day", "lift": "Lift", "load": "Load", "unit": "kg or lb, by row", "reps": "Repetitions", "rir": "Repetitions left (RIR)",
    "body mass": "Body mass", "outcome": "How it ended", "kind": "What kind of set", "member": "Whose set", "note": "Note",
    "equal sets": "How many equal sets", "order": "Place in the session", "session": "Session", "place": "Place",
    "implement": "Implement", "implements": "How many implements", "per side": "Per side", "left out": "Why left out",
}  # fmt: skip
FIRST = (*NEEDED, "unit", "rir", "equal sets", "note")  # the others are a touch away


def show(now: Here) -> None:
    """Draw all steps from choosing a file to taking it."""
    st.caption("A table with a row for each set. You see how it is read before anything is saved.")
    limit = MOST_BYTES // 1024**2
    file = st.file_uploader(
        f"File of sets: CSV, TSV, TXT or XLSX, at most {limit}\u00a0MB (megabytes)", type=["csv", "tsv", "txt", "xlsx"],
        key="bring_file", max_upload_size=limit,
    )  # fmt: skip
    if file is None:
        return
    key = f"bring_{file.file_id}_{(now.member_id or '')[:8]}"
    brought = _looked_at(now, file.getvalue(), file.name, key)
    if brought is None:
        return
    mapping = _mapping(brought, key)
    reading = foreign.as_understood(brought.table, mapping, now.today)
    asked = _asked(mapping, reading, key)
    if asked != mapping:
        mapping, reading = asked, foreign.as_understood(brought.table, asked, now.today)
    if reading.questions:
        _as_they_stand(brought)
        st.info("Answer what is asked above; nothing is imported before.", icon=":material/help:")
    else:
        _first_rows(reading)
    st.button(
        f"Import {counted(len(brought.table.rows), 'row')}", type="primary", width="stretch", key=f"{key}_take",
        disabled=bool(reading.questions), on_click=_take, args=(now, brought, mapping),
    )  # fmt: skip


def _looked_at(now: Here, content: bytes, name: str, key: str) -> Brought | None:
    """Read the file once, not with every touch; what was refused is not read again either."""
    sheet = st.session_state.get(f"{key}_sheet", "")
    kept = st.session_state.get("bring_kept")
    what = (key, sheet, now.member_id)  # the columns are remembered for each member
    if kept is None or kept[0] != what:
        try:
            with st.spinner("Reading the file"):
                brought = foreign.look_at(now.log, content, name, now.today, sheet=sheet, whose=_whose(now))
        except foreign.BusyError as error:
            st.error(f"{error}", icon=":material/error:")
            return None
        except TidemarkError as error:
            brought = error
        st.session_state["bring_kept"] = kept = (what, brought)
    brought = kept[1]
    if isinstance(brought, TidemarkError):
        st.error(f"{brought}", icon=":material/error:")
        return None
    if len(brought.table.sheets) > 1:
        st.selectbox("Sheet", brought.table.sheets, key=f"{key}_sheet")
    known = " Its columns are remembered from the last time." if brought.remembered else ""
    how = as_typed(brought.table.how) if brought.table.sheets else brought.table.how  # a sheet has the name that it has
    st.write(f"{counted(len(brought.table.rows), 'row')}; {how}.{known}")
    return brought


def _mapping(brought: Brought, key: str) -> Mapping:
    """Let every fact be read from another column than was guessed."""
    mapping = brought.mapping
    chosen: dict[str, int] = {}
    st.header("Which column is which")
    for role in FIRST:
        _choose(role, brought, key, chosen)
    with st.expander("More columns"):
        for role in ROLES:
            if role not in FIRST:
                _choose(role, brought, key, chosen)
    return replace(mapping, columns=chosen)


def _choose(role: str, brought: Brought, key: str, chosen: dict[str, int]) -> None:
    table, guessed = brought.table, brought.mapping.columns.get(role)
    options = [None, *range(len(table.heading))]
    at = st.selectbox(
        WORDS[role], options, index=options.index(guessed), key=f"{key}_{role}_{table.sheets[:1]}",
        format_func=lambda each: "not in the file" if each is None else table.place(each),
    )  # fmt: skip
    if at is not None:
        chosen[role] = at


def _asked(mapping: Mapping, reading: Reading, key: str) -> Mapping:
    """Ask for what no cell says: kg or lb, and the order of day and month."""
    if reading.questions.unit or (mapping.unit and "unit" not in mapping.columns):
        options = ("kg", "lb")
        at = options.index(mapping.unit) if mapping.unit else None
        mapping = replace(
            mapping, unit=st.radio("The loads are in", options, index=at, horizontal=True, key=f"{key}_unit_of_all")
        )
    if reading.questions.date_orders:
        order = st.radio(
            "The dates are written", reading.questions.date_orders, index=None, key=f"{key}_order",
            format_func=ORDERS.__getitem__, help="Both can be read from this file; only you know.",
        )  # fmt: skip
        mapping = replace(mapping, date_order=order)
    return mapping


def _as_they_stand(brought: Brought) -> None:
    """Show some rows of the file itself, from which a question can be answered."""
    table = brought.table
    st.header("The first rows, as they stand")
    names = [as_typed(table.place(at)) for at in range(len(table.heading))]
    st.table([dict(zip(names, map(as_typed, cells), strict=True)) for _, cells in table.rows[:SHOWN]])


def _first_rows(reading: Reading) -> None:
    """Show the first rows as they are understood, and what is wrong with those that are not."""
    st.header("The first rows, as understood")
    good = [row for row in reading.rows if not row.problem]
    if good:
        heading = [role for role in WORDS if any(row.cells.get(role) for row in good)]
        st.table(
            [
                {"Line": str(row.line)} | {WORDS[role]: as_typed(row.cells.get(role, "")) for role in heading}
                for row in good
            ]
        )
    for row in reading.rows:
        if row.problem:
            st.text(f"Line {row.line}, {row.problem}")


def _take(now: Here, brought: Brought, mapping: Mapping) -> None:
    act = partial(foreign.take, now.log, brought.table, mapping, member=_whose(now), today=now.today)
    long_work.begin("Taking the file", act, _taken)


def _whose(now: Here) -> str:
    """Name whose the rows are that name nobody; empty where there is nobody, and each row has to."""
    return now.someone.name if now.someone else ""


def _taken(done: Imported) -> str:
    known = f", {done.known:,} were in the log already" if done.known else ""
    new = f"; new lifts: {', '.join(done.lifts)}" if done.lifts else ""
    return f"Taken: {counted(done.added, 'set')}{known}{new}"
