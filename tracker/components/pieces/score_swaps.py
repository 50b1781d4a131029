"""What was done otherwise than prescribed: another movement, load, height or help; the coach's alternatives come first."""

from __future__ import annotations

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.conditioning.pairs import load_words
from tracker.conditioning.pieces import Piece
from tracker.desk.day.piece_at_place import options_here
from tracker.desk.pieces.piece_entry import SwapChoice, as_said, swap_choices, swap_note, swap_text
from tracker.log.pieces import PieceRow
from tracker.log.records import PlaceRecord
from tracker.log.scores import ScoreRow

AS_ASKED, OTHER = "as prescribed", "another movement"


def begin(row: PieceRow, key: str, place: PlaceRecord | None) -> None:
    """Let the form begin with the coach's options that are for this place."""
    for at, option in options_here(row.piece, place).items():
        st.session_state.setdefault(f"{key}_swap_{at}", option.movement)
        written = next((each for each in row.piece.tasks[at].options if each.movement == option.movement), option)
        if written.load is None and option.load is not None:  # the only pair that stands here
            st.session_state.setdefault(f"{key}_mark_{at}", load_words(option.load))


def show(row: PieceRow, key: str, last: ScoreRow | None) -> None:
    """Draw a choice for each movement, all as prescribed at first but for what `begin` chose."""
    piece = row.piece
    said = read(piece, key)
    label = "Something else than prescribed?" if not said else f"Not as prescribed: {as_typed(said)}"
    with st.expander(label, key=f"{key}_swaps"):
        before = as_said(last.score).swaps if last else ""
        if before:
            st.button(
                f"As last time: {as_typed(before)}", key=f"{key}_as_before", on_click=_as_before, args=(key, before)
            )
        if said and not st.session_state.get(f"{key}_whole"):
            st.button("All as prescribed", key=f"{key}_as_asked", on_click=_as_asked, args=(key, len(piece.tasks)))
        if st.session_state.get(f"{key}_whole"):
            st.button("As prescribed again", key=f"{key}_whole_off", on_click=_as_before, args=(key, ""))
            return
        for index, task in enumerate(piece.tasks):
            _movement(row, index, task.movement, key)
        st.caption("Options are shown as different; no result is converted from one to another.")


def _movement(row: PieceRow, index: int, name: str, key: str) -> None:
    choices = {choice.name: choice for choice in swap_choices(row, index)}
    chosen = st.selectbox(
        as_typed(name[:1].upper() + name[1:]), [AS_ASKED, *choices, OTHER], key=f"{key}_swap_{index}",
        format_func=lambda each: _words(choices[each]) if each in choices else each,
    )  # fmt: skip
    if chosen == OTHER:
        st.text_input("Which movement", key=f"{key}_other_{index}")
    st.text_input(
        "Load, height, target or help, if another", key=f"{key}_mark_{index}",
        placeholder="12 kg · 40 cm high · to 250 cm · with a green band",
    )  # fmt: skip
    if chosen != AS_ASKED and (note := swap_note(row.piece, index)):
        st.caption(as_typed(note))


def _words(choice: SwapChoice) -> str:
    whose = {"coach": " · your coach’s", "own": " · your own", "": ""}[choice.source]
    return choice.name + (f" ({choice.words})" if choice.words else "") + whose


def _as_asked(key: str, movements: int) -> None:
    for at in range(movements):
        st.session_state[f"{key}_swap_{at}"], st.session_state[f"{key}_mark_{at}"] = AS_ASKED, ""


def _as_before(key: str, text: str) -> None:
    st.session_state[f"{key}_whole"] = text


def read(piece: Piece, key: str) -> str:
    """Return what was said, in the words that the log reads."""
    state = st.session_state
    if whole := state.get(f"{key}_whole"):
        return str(whole)
    said = []
    for index, task in enumerate(piece.tasks):
        chosen = state.get(f"{key}_swap_{index}", AS_ASKED)
        name = {AS_ASKED: "", OTHER: state.get(f"{key}_other_{index}", "").strip()}.get(chosen, chosen)
        said.append(swap_text(task.movement, name, state.get(f"{key}_mark_{index}", "")))
    return "; ".join(each for each in said if each)
