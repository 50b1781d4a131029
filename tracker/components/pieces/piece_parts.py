"""The three parts of the page of pieces: do it, score it, look back; which one is open the browser knows, and a touch may lead on."""

from __future__ import annotations

from collections.abc import Sequence

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

KEY = "piece_part"
DO, SCORE, HISTORY = ":material/timer: Do", ":material/edit_note: Score", ":material/history: History"
SHOW = "show"  # in the address: the part that a link leads to
NAMED = {"do": DO, "score": SCORE, "history": HISTORY}


def show(*, ended: bool) -> Sequence[DeltaGenerator]:
    """Draw the parts and return them; where the clock has `ended`, the score comes first."""
    named = NAMED.get(st.query_params.pop(SHOW, ""))
    if named or KEY not in st.session_state:
        st.session_state[KEY] = named or (SCORE if ended else DO)
    return st.tabs([DO, SCORE, HISTORY], key=KEY, on_change="rerun")


def go(part: str) -> None:
    """Open a part: for callbacks."""
    st.session_state[KEY] = part
