"""Puts a piece together by touches: kind, time, and movements from the table of names; nothing has to be written."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.frame import Here
from tracker.conditioning.named import many, measured
from tracker.conditioning.pieces import Measure
from tracker.desk.pieces import piece_by_touches as desk
from tracker.desk.pieces.piece_by_touches import MEASURES, WAYS, Part
from tracker.log.pieces import PieceRow

PARTS, WAY, MOVEMENT = "touched_parts", "touched_way", "touched_movement"
KEYS = ("minutes", "rounds", "title")
LABELS = {
    "as many rounds as possible": "As many rounds as possible", "for time": "For time", "every minute": "Every minute",
    "as far as possible": "As far as possible",
}  # fmt: skip


def show(now: Here, said: Callable[[PieceRow], str]) -> None:
    """Draw the choice of kind and time, the movements that are in it, and the fields of one more."""
    state = st.session_state
    state.setdefault(PARTS, [])
    way = st.segmented_control(
        "How it goes", WAYS, format_func=LABELS.__getitem__, key=WAY, required=True, default=WAYS[0]
    )
    minutes = {"for time": "Cap, minutes (blank: none)", "every minute": "How many minutes"}.get(way, "Minutes")
    with st.container(horizontal=True, gap="small"):
        st.number_input(minutes, 1, desk.MOST_MINUTES, value=None, step=1, key="touched_minutes")
        if way == "for time":
            st.number_input("Rounds", 1, desk.MOST_ROUNDS, value=1, step=1, key="touched_rounds")
    for number, part in enumerate(state[PARTS]):
        with st.container(
            key=f"row_touched_{number}", horizontal=True, vertical_alignment="center", wrap=False, gap="small"
        ):
            st.html(f'<p class="plain"><b>{escape(_words(part, way, now))}</b></p>')
            st.button("Leave out", key=f"touched_out_{number}", on_click=_out, args=(number,))
    _one_more(now, way)
    st.text_input("Title (blank: what it asks)", key="touched_title")
    st.button(
        "Take this piece", key="touched_add", type="primary", width="stretch", disabled=not state[PARTS], on_click=_add,
        args=(now, said),
    )  # fmt: skip


def _words(part: Part, way: str, now: Here) -> str:
    load = f", {part.load}{'' if part.load[-1:].isalpha() else f' {now.member.unit}'}" if part.load else ""
    if way == "as far as possible":
        return f"{part.movement}, in {MEASURES[part.measure]}"
    return f"{many(measured(part.movement, part.measure), part.amount)}{load}"


def _one_more(now: Here, way: str) -> None:
    state = st.session_state
    st.selectbox(
        "Movement", desk.movements(), index=None, key=MOVEMENT, placeholder="choose, or type a name of your own",
        accept_new_options=True, on_change=_chosen,
    )  # fmt: skip
    if not state.get(MOVEMENT):
        return
    with st.container(horizontal=True, gap="small", vertical_alignment="bottom"):
        if way != "as far as possible":
            st.number_input("How much each round", 1, 100_000, value=10, step=1, key="touched_amount")
        measures: tuple[Measure, ...] = ("m", "cal") if way == "as far as possible" else tuple(MEASURES)
        if state.get("touched_measure") not in measures:
            state["touched_measure"] = measures[0]
        st.segmented_control(
            "Counted in", measures, format_func=MEASURES.__getitem__, key="touched_measure", required=True
        )
        if way != "as far as possible":
            st.text_input(f"Load, {now.member.unit} (blank: none)", key="touched_load", max_chars=20)
    st.button("Add the movement", key="touched_more", width="stretch", on_click=_more)


def _chosen() -> None:
    """Count a movement in what it is usually counted in; it can be changed."""
    name = st.session_state.get(MOVEMENT)
    if name:
        st.session_state["touched_measure"] = desk.usual_measure(name)


def _more() -> None:
    state = st.session_state
    part = Part(
        str(state[MOVEMENT]).strip(), int(state.get("touched_amount") or 1), state.get("touched_measure") or "reps",
        str(state.get("touched_load") or "").strip(),
    )  # fmt: skip
    state[PARTS] = [*state[PARTS], part]
    state[MOVEMENT] = None
    state["touched_load"] = ""


def _out(number: int) -> None:
    parts = st.session_state[PARTS]
    st.session_state[PARTS] = [*parts[:number], *parts[number + 1 :]]


def _add(now: Here, said: Callable[[PieceRow], str]) -> None:
    state = st.session_state
    rounds = state.get("touched_rounds") if state[WAY] == "for time" else None
    done = do(
        desk.add_by_touches, now.log, state[WAY], tuple(state[PARTS]), minutes=state.get("touched_minutes"), rounds=rounds,
        title=state.get("touched_title") or "", unit=now.member.unit, member_id=now.member_id, said=said,
    )  # fmt: skip
    if done:
        state[PARTS] = []
        for each in KEYS:
            state.pop(f"touched_{each}", None)
