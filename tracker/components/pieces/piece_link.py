"""The piece of a session, said on the page of the day, with the way to its clock and form."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.frame import where
from tracker.components.frame.empty import way_to
from tracker.components.frame.frame import Here
from tracker.components.frame.next_line import PIECE, marked
from tracker.components.frame.words import first_up
from tracker.components.pieces import piece_parts, piece_side, piece_ticks
from tracker.desk.day.next import Next
from tracker.desk.day.pieces_here import PieceHere
from tracker.desk.pieces import last_piece
from tracker.log.pieces import PieceRow


def next_up(now: Here, found: Next) -> None:
    """Say large which piece is next, each movement with its options, ask whose side, and lead to its clock."""
    piece = found.piece
    if piece is None:
        return
    with st.container(border=True, key="next_piece"):
        head = f'<p class="over">Next: the piece</p><p class="big small">{escape(piece.title)}</p>'
        last = last_time(now, piece.row, found.day, easy=found.plan.easy)
        st.html(marked(found, f"{head}{board(piece)}{last}"))
        piece_side.show(piece.row)
        piece_ticks.show(now, piece.row, found.day, found.session.step_id if found.session else None)
        _way(now, found, piece)


def last_time(now: Here, row: PieceRow, day: date, *, easy: bool = False) -> str:
    """Return as HTML what was got in a piece last time; an empty text where there is nothing."""
    last = last_piece.last_piece(now.log, now.member.id, row.piece, day, easy=easy)
    lines = last.lines(day) if last else ()
    return "".join(f'<p class="plain before">{escape(each)}</p>' for each in lines)


def show_last(now: Here, row: PieceRow, day: date) -> None:
    """Draw the same, where there is something."""
    if lines := last_time(now, row, day):
        st.html(lines)


def board(piece: PieceHere) -> str:
    """Say what a piece asks, as it would stand on the wall: the scheme, the movements with their options, the notes."""
    lines = "".join(
        f"<li>{escape(each.words)}{''.join(f'<br><span>{escape(option)}</span>' for option in each.options)}</li>"
        for each in piece.movements
    )
    notes = "".join(f'<p class="plain note-of-coach">{escape(note)}</p>' for note in piece.notes)
    return f'<p class="plain">{escape(piece.scheme)}</p><ul class="board">{lines}</ul>{notes}'


def beside(now: Here, found: Next) -> None:
    """Name the other pieces of the session: what they ask, or what was got in them."""
    for piece in found.pieces:
        if piece is found.piece:
            continue
        with st.container(horizontal=True, vertical_alignment="center", gap="small", key=f"piece_{piece.piece_id}"):
            st.html(_beside(piece))
            _way(now, found, piece, f" of {piece.title}" if len(found.pieces) > 1 else "")


def _beside(piece: PieceHere) -> str:
    """Name a piece in a line with what was got, or with how it is scored and all that it asks behind a touch."""
    head = f"<b>Piece: {escape(piece.title)}.</b>"
    if piece.score:
        got = f"{first_up(piece.score)}{f', {piece.amount} in all' if piece.amount else ''}"
        return f'<p class="plain">{head} {escape(got)}</p>'
    return f'<details class="behind"><summary><span>{head} {escape(piece.scheme)}</span></summary><p class="plain small">{escape(piece.words)}</p></details>'


def _way(now: Here, found: Next, piece: PieceHere, of: str = "") -> None:
    step = {where.SESSION: found.session.step_id} if found.session else {}
    carried = {PIECE: piece.piece_id, **step, **where.carried(now, found.day)}
    with st.container(horizontal=True, gap="small", key=f"ways_{piece.piece_id}"):
        way_to("conditioning", f"Clock and score{of}", icon=":material/timer:", carried=carried)
        only = {**carried, piece_parts.SHOW: "score"}  # done without the clock, its score is a touch nearer
        way_to("conditioning", f"Score alone{of}", icon=":material/edit_note:", carried=only)
