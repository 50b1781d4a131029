"""Which of two written numbers is the member's: asked once at the first piece that has pairs, and changed by a touch."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here
from tracker.conditioning.pieces import SIDES, Side
from tracker.conditioning.sides import other_side, side_words
from tracker.desk.pieces import piece_side
from tracker.desk.pieces.piece_side import QUESTION
from tracker.log.pieces import PieceRow

ASK = "not chosen"  # the first piece with pairs asks
WORDS: dict[Side, str] = {"larger": "the larger", "smaller": "the smaller"}


def show(row: PieceRow) -> None:
    """Ask for the side where it is not known, or say which it is beside the way to the other; nothing without pairs."""
    if not row.written.paired:
        return
    with st.container(border=True, key="piece_side"):
        if row.piece.paired:
            st.markdown(f"**{QUESTION}**")
            with st.container(horizontal=True, key="side_choice"):
                for side in SIDES:
                    _touch(row, side, as_typed(side_words(row.written, side)))
            st.caption("It is kept for later pieces; you can change it at each of them and in Preferences.")
            return
        side = row.piece.side or "larger"
        st.html(f'<p class="plain">Yours: <b>{escape(row.piece.yours)}</b></p>')
        other = other_side(side)
        _touch(row, other, f"Today the other one: {as_typed(side_words(row.written, other))}")


def _touch(row: PieceRow, side: Side, words: str) -> None:
    st.button(words, key=f"side_{side}", on_click=_choose, args=(row, side))


def _choose(row: PieceRow, side: Side) -> None:
    now = here()
    said = f"{row.piece.title}: {side_words(row.written, side)}"
    do(piece_side.choose_side, now.log, now.member.id, side, row.id, said=said)


def preference(now: Here) -> None:
    """Let the member say for all pieces which of two numbers is theirs."""
    key, side = f"side_of_{now.member.id}", piece_side.side_of(now.log, now.member.id)
    st.session_state[key] = side or ASK
    words: dict[str, str] = {**({} if side else {ASK: ASK}), **WORDS}  # once chosen, it is one of the two
    st.radio(
        "Where a coach writes two, such as 43/30 kg, I take", list(words), key=key, horizontal=True,
        format_func=words.__getitem__, on_change=_prefer, args=(now, key),
        help="Coaches write pairs for two groups. You choose; nothing else decides it. At each piece you can take the other one.",
    )  # fmt: skip


def _prefer(now: Here, key: str) -> None:
    side: Side = st.session_state[key]
    do(piece_side.choose_side, now.log, now.member.id, side, said=f"Saved: of two, {WORDS[side]} is yours")
