"""The time of each interval in a field of its own: what the clock says stands there, what is typed stays, a gap stays one."""

from __future__ import annotations

import streamlit as st

from tracker.components.pieces.score_touches import ScoreForm
from tracker.conditioning.times import time_words

MOST_FIELDS = 12  # more intervals than that are typed in one row
IN_A_ROW = 3


def ask(scene: ScoreForm) -> None:
    """Draw as many fields as there are intervals; they may be filled in any order, and one may stay empty."""
    fields = _fields(scene)
    _hear(scene, fields)
    for first in range(0, len(fields), IN_A_ROW):
        with st.container(horizontal=True, vertical_alignment="bottom", key=f"{scene.key}_each_row_{first}"):
            for number in range(first, min(first + IN_A_ROW, len(fields))):
                st.text_input(f"Interval {number + 1}", key=fields[number], placeholder="not timed")
    st.caption("Rest is not counted. One that nobody timed may stay empty, also for good.")


def applies(scene: ScoreForm) -> bool:
    """Whether a piece has few enough intervals for a field each."""
    return 0 < (scene.piece.intervals or 0) <= MOST_FIELDS


def text(scene: ScoreForm) -> str:
    """Return what stands in the fields in the words that the log reads; empty as long as that is nothing."""
    said = [str(st.session_state.get(each, "")).strip() for each in _fields(scene)]
    return ", ".join(each or "-" for each in said).rstrip("-, ") if any(said) else ""


def _fields(scene: ScoreForm) -> list[str]:
    return [f"{scene.key}_interval_{number}" for number in range(scene.piece.intervals or 0)]


def _hear(scene: ScoreForm, fields: list[str]) -> None:
    """Let a field that nobody changed by hand say what the clock says, also after a tap is taken back."""
    state, taps = st.session_state, scene.clock.clock.each_s if scene.clock else ()
    for number, key in enumerate(fields):
        told, heard = time_words(taps[number]) if number < len(taps) else "", f"{key}_clock"
        if state.get(key, "") == state.get(heard, ""):
            state[key] = told
        state[heard] = told
