"""Which minutes of a piece by the minute were not done in full, and how much was done in them: said where somebody likes to."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.pieces.score_touches import ScoreForm
from tracker.conditioning.now import now_in_interval
from tracker.conditioning.words import name_of


def ask(scene: ScoreForm) -> None:
    """Ask once some were not done in full; a minute that is touched and left blank is one in which nothing was done."""
    kept, intervals = st.session_state.get(f"{scene.key}_kept"), scene.piece.intervals or 0
    if kept is None or kept >= intervals:
        return
    many = f"Which {name_of(scene.piece)}s were not? It may stay open."
    st.pills(many, range(1, intervals + 1), selection_mode="multi", key=f"{scene.key}_short")
    for number in _chosen(scene):
        st.number_input(
            as_typed(f"Done in {now_in_interval(scene.piece, number).head[:1].lower()}{now_in_interval(scene.piece, number).head[1:]}"),
            0, value=None, step=1, key=f"{scene.key}_short_{number}", placeholder="none",
        )  # fmt: skip


def said(scene: ScoreForm) -> list[str]:
    """Return what was said of them in the words that the log reads."""
    kept = st.session_state.get(f"{scene.key}_kept")
    if kept is None or kept >= (scene.piece.intervals or 0):
        return []
    name = name_of(scene.piece)
    return [f"{name} {n}: {int(st.session_state.get(f'{scene.key}_short_{n}') or 0)}" for n in _chosen(scene)]


def _chosen(scene: ScoreForm) -> list[int]:
    return sorted(st.session_state.get(f"{scene.key}_short") or ())
