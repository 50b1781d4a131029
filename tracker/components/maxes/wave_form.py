"""Any wave as text, with quick choices; and how to round."""

from __future__ import annotations

import re
from typing import cast

import streamlit as st

from tracker.prescription.plates import Rounding
from tracker.prescription.rounding import RoundingChoice

SETS = re.compile(r"(\d+)\s*[x×]\s*(\d+)\s*@\s*(\d+(?:[.,]\d+)?)\s*%?")
QUICK: tuple[str, ...] = (  # shapes that any coach writes; nobody's programme
    "1x5@70, 1x5@75, 3x5@80",
    "1x4@75, 1x4@80, 3x4@85",
    "1x3@80, 1x3@85, 3x3@90",
    "5x5@75",
    "3x8@65",
)


def ask(today: str = "", *, key: str = "weights") -> str:
    """Ask for other sets than those of the day's session for this lift, behind a touch: the ladder says which they are.

    The quick choices fill the field. Another lift brings its own sets of today, unless somebody typed others meanwhile.
    """
    field, filled, first = f"{key}_wave", f"{key}_wave_filled", today or QUICK[0]
    state = st.session_state
    if field not in state or (state.get(filled) == state[field] != first):
        state[field] = state[filled] = first
    quick = tuple(dict.fromkeys((*([today] if today else []), *QUICK)))
    head = "Today's sets" if today and state[field] == today else "Sets"
    label = f"{head}: {in_words(str(state[field]))}"
    with st.expander(label, key=f"{key}_quick_box", icon=":material/edit:", on_change="rerun"):
        st.pills(
            "Quick choices", quick, format_func=lambda each: f"Today: {in_words(each)}" if each == today else in_words(each),
            key=f"{key}_quick", on_change=_fill, args=(key,),
        )  # fmt: skip
        st.text_input(
            "Sets", key=field, persist_state="session", placeholder="3x5@80, 1x3@90",
            help="Sets x repetitions @ per cent, with a comma between: 1x4@72, 3x4@82.",
        )  # fmt: skip
    return str(state[field])


def in_words(wave: str) -> str:
    """Say sets as one speaks: `5 reps at 70 %, 3 × 5 at 80 %`; what is no list of such sets stays as it is typed.

    >>> in_words("1x4@74, 1x4@79.5, 3x4@84"), in_words("5x5@75"), in_words("five sets")
    ('4 reps at 74 %, 4 at 79.5 %, 3 × 4 at 84 %', '5 × 5 reps at 75 %', 'five sets')
    """
    said: list[str] = []
    for part in wave.split(","):
        found = SETS.fullmatch(part.strip())
        if found is None:
            return wave
        sets, reps, percent = found.groups()
        unit = "" if said else " rep" if reps == "1" else " reps"
        said.append(f"{'' if sets == '1' else f'{sets} × '}{reps}{unit} at {percent} %")
    return ", ".join(said)


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
