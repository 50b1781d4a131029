"""Any wave as text, with quick choices; and how to round."""

from __future__ import annotations

from typing import cast

import streamlit as st

from tracker.prescription.plates import Rounding
from tracker.prescription.rounding import RoundingChoice

QUICK: tuple[str, ...] = (  # shapes that any coach writes; nobody's programme
    "1x5@70, 1x5@75, 3x5@80",
    "1x4@75, 1x4@80, 3x4@85",
    "1x3@80, 1x3@85, 3x3@90",
    "5x5@75",
    "3x8@65",
)


def ask(today: str = "", *, key: str = "weights") -> str:
    """Ask for the sets, beginning with those of the day's session for this lift; the quick choices fill the field.

    Another lift brings its own sets of today, unless somebody typed others meanwhile.
    """
    field, filled, first = f"{key}_wave", f"{key}_wave_filled", today or QUICK[0]
    state = st.session_state
    if field not in state or (state.get(filled) == state[field] != first):
        state[field] = state[filled] = first
    st.text_input(
        "Sets", key=field, persist_state="session", placeholder="3x5@80, 1x3@90",
        help="Sets x repetitions @ per cent, with a comma between: 1x4@72, 3x4@82.",
    )  # fmt: skip
    quick = tuple(dict.fromkeys((*([today] if today else []), *QUICK)))
    with st.popover("Quick choices", key=f"{key}_quick_box", type="tertiary", icon=":material/bolt:"):
        st.pills(
            "Quick choices", quick, format_func=lambda each: f"Today: {each}" if each == today else each,
            key=f"{key}_quick", on_change=_fill, args=(key,), label_visibility="collapsed",
        )  # fmt: skip
    return str(state[field])


def _fill(key: str) -> None:
    chosen = st.session_state.get(f"{key}_quick")
    if chosen:
        st.session_state[f"{key}_wave"] = chosen
        st.session_state[f"{key}_quick"] = None


def rounding(choice: RoundingChoice, *, key: str = "weights") -> Rounding:
    """Ask how to round; at first the way that care asks for, with its reasons."""
    names = {"nearest": "to the nearest", "down": "down"}
    chosen = st.segmented_control(
        "Round", list(names), format_func=names.__getitem__, default=choice.rounding, required=True,
        key=f"{key}_round_{choice.rounding}",
    )  # fmt: skip
    if choice.reasons and chosen == choice.rounding:
        st.caption(f"Down, because: {'; '.join(choice.reasons)}.")
    return cast("Rounding", chosen)
