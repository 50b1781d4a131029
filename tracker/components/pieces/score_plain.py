"""Asks for the score of a piece in which repetitions say no place: its time, one number, or only that it was done."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.pieces.score_touches import ScoreForm
from tracker.conditioning.pieces import IN_ROUNDS

ABOUT, UNKNOWN = "Only about so", "Time not known"
FINISHED, CAPPED, STOPPED, WORDS = "Finished", "Ran into the cap", "Stopped early", "In words"


def applies(scene: ScoreForm) -> bool:
    """Whether the piece is of a kind that is scored by how far one came, and yet has no places."""
    return scene.piece.kind in IN_ROUNDS and bool(scene.piece.tasks) and not scene.piece.placed


def ask(scene: ScoreForm, time: str) -> None:
    """Ask for what can be said of it; `time` is what the clock says."""
    key, piece = scene.key, scene.piece
    if piece.uncounted:
        kept = "its time is the score" if piece.kind == "for time" else "one number is the score, or that it was done"
        st.caption(as_typed(f"Not scored by rounds and repetitions, because {piece.uncounted}: {kept}."))
    if piece.kind == "for time":
        asked = not scene.says_its_end
        st.segmented_control(
            "Did you finish?" if asked else "Say it", _ways(scene), default=None if asked else FINISHED,
            key=scene.way_key, required=not asked, label_visibility="visible" if asked else "collapsed",
        )  # fmt: skip
    way = _way(scene)
    if way == FINISHED:
        ask_time(scene, time)
    elif way == STOPPED:
        st.session_state.setdefault(f"{scene.timed}_time", time)
        st.text_input("Stopped at", key=f"{scene.timed}_time", placeholder="6:30")
    elif way is None:
        return
    elif way == CAPPED:
        st.caption("It is kept as run into the cap. What was missing goes into the note.")
    else:
        unit = piece.one_number_in
        label = {"reps": "Repetitions in all", "cal": "Calories", "m": "Metres", "s": "Seconds"}[unit]
        st.number_input(label, 0, value=None, step=1, key=f"{key}_amount")


def ask_time(scene: ScoreForm, time: str) -> None:
    """Ask when it was finished; `time` is what the clock says. A time may be only about so, or known to nobody."""
    unknown = st.session_state.get(f"{scene.key}_sure") == UNKNOWN
    st.session_state.setdefault(f"{scene.timed}_time", time)
    st.text_input("Time", key=f"{scene.timed}_time", placeholder="8:41", disabled=unknown)
    st.pills("How sure", [ABOUT, UNKNOWN], key=f"{scene.key}_sure", label_visibility="collapsed")


def time_text(scene: ScoreForm) -> str:
    """Return when it was finished in the words that the log reads; empty as long as nobody has said."""
    sure = st.session_state.get(f"{scene.key}_sure")
    at = str(st.session_state.get(f"{scene.timed}_time", "")).strip()
    return "done, time not known" if sure == UNKNOWN else f"about {at}" if sure == ABOUT and at else at


def text(scene: ScoreForm) -> str:
    """Return the result in the words that the log reads; empty as long as there is nothing to log."""
    state, way = st.session_state, _way(scene)
    if way == CAPPED:
        return "cap"
    at = str(state.get(f"{scene.timed}_time", "")).strip()
    if way == FINISHED:
        return time_text(scene)
    if way == STOPPED:
        return f"stopped at {at}" if at else "stopped"
    if way is None:
        return ""
    amount = state.get(f"{scene.key}_amount")
    if amount is None:
        return "done" if scene.piece.uncounted else ""
    return str(int(amount))


def _ways(scene: ScoreForm) -> list[str]:
    return [FINISHED, *([CAPPED] if scene.piece.cap_s else []), STOPPED]


def _way(scene: ScoreForm) -> str | None:
    """Which way of ending was chosen; empty for a piece without such ways, None where it is asked and not yet said."""
    return (scene.way(_ways(scene)) or None) if scene.piece.kind == "for time" else ""
