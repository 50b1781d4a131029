"""Which of two written loads is the member's: asked at the set that has them, and changed by a touch."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import here
from tracker.components.frame.words import load_words
from tracker.conditioning.pieces import SIDES, Side
from tracker.desk.day.lines import PlannedLine
from tracker.desk.sheet import lift_side


def show(line: PlannedLine) -> None:
    """Ask which of the two loads is theirs, or offer the other one; nothing where a set has one load."""
    pair = lift_side.pair_of(line.planned)
    if pair is None:
        return
    words = {side: load_words(load, line.lift) for side, load in zip(SIDES, pair, strict=True)}
    with st.container(key="lift_side"):
        if line.planned.load is None:
            st.html('<p class="plain"><b>Which of the two loads is yours?</b> It is kept; you can change it.</p>')
        with st.container(horizontal=True, gap="small", key="lift_side_choice"):
            for side, load in zip(SIDES, pair, strict=True):
                if line.planned.load == load:
                    continue
                label = words[side] if line.planned.load is None else f"The other one: {words[side]}"
                st.button(as_typed(label), key=f"lift_side_{side}", on_click=_choose, args=(side, words[side]))


def _choose(side: Side, words: str) -> None:
    now = here()
    do(lift_side.choose_lift_side, now.log, now.member.id, side, said=f"Kept: {words} is yours of the two")
