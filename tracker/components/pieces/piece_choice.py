"""Which piece: that of today's step first, then what was done last; what it asks; and a new one, as a coach writes it."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame import kept
from tracker.components.frame.acts import do
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here, here
from tracker.components.frame.next_line import PIECE
from tracker.components.frame.words import first_up
from tracker.components.pieces import piece_touches
from tracker.conditioning.asked import movement_lines, scheme_words
from tracker.desk.day.piece_at_place import piece_here
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import PieceDay
from tracker.log.clocks import ClockRow
from tracker.log.pieces import PieceRow
from tracker.log.records import PlaceRecord

TYPED = "piece_typed"
EXAMPLE = """Lantern ladder
as many reps as possible in 12:00, 3 up by 3
kettlebell swing, 16 kg kettlebell
box step-over, 50 cm high
hand-release push-up
or push-up from the knees"""


def show(plan: PieceDay, clock: ClockRow | None) -> PieceRow | None:
    """Choose a piece; the one whose clock runs goes first. None where there is none yet."""
    if not plan.pieces:
        st.info("No piece is in the log yet. Write one down, or read a coach's sheet in.", icon=":material/info:")
        return None
    today = {row.id for row in plan.planned}
    names = {row.id: row.piece.title + (" · today" if row.id in today else "") for row in plan.pieces}
    first = clock.piece_id if clock and clock.piece_id in names else (*plan.open_pieces, *plan.pieces)[0].id
    chosen = kept.select(PIECE, "Piece", names, default=first)
    return next(each for each in plan.pieces if each.id == chosen)


def of_the_gym(now: Here) -> None:
    """Keep the pieces of the gym, for whoever keeps no log to score them in."""
    st.title("Pieces")
    known = conditioning.pieces(now.log)
    if known:
        names = {row.id: row.piece.title for row in known}
        chosen = kept.select(PIECE, "Piece", names, default=known[0].id)
        row = next(each for each in known if each.id == chosen)
        board(row)
        new_option(row)
        put_away(row)
    new_piece(now, open_now=not known)


def board(row: PieceRow, place: PlaceRecord | None = None) -> None:
    """Say what a piece asks, as it would stand on the wall; the coach's options for a place first."""
    shown = piece_here(row.piece, place)
    lines = "".join(f"<li>{escape(line)}</li>" for line in movement_lines(shown, options=True))
    st.html(f'<p class="over">{escape(first_up(scheme_words(shown)))}</p><ul class="board">{lines}</ul>')
    for note in row.piece.note.splitlines():  # each apart, for together markdown runs them into one
        st.caption(as_typed(note))


def new_piece(now: Here, *, open_now: bool) -> None:
    """Put a piece together by touches, or write it down as a coach would."""
    box = st.expander("Another piece", expanded=open_now, key="piece_new", on_change="rerun")
    if not (box.open or open_now):
        return
    with box:
        piece_touches.show(now, _taken)
    with box, st.expander("In words, as on a sheet", key="piece_words"), st.form("piece_form", border=False):
        st.text_area(
            "Its title, how it is scored, and a movement in each line", key=TYPED, height=190, placeholder=EXAMPLE,
            help="An alternative stands below its movement and begins with “or”.",
        )  # fmt: skip
        st.form_submit_button("Add the piece", on_click=_add, args=(now,))


def _add(now: Here) -> None:
    if do(conditioning.add_piece_in_words, now.log, st.session_state[TYPED], now.member_id, said=_taken):
        st.session_state[TYPED] = ""


def _taken(row: PieceRow) -> str:
    st.query_params[PIECE] = row.id
    return f"Added: {row.piece.title}, {scheme_words(row.piece)}"


def more(now: Here, row: PieceRow) -> None:
    """What is seldom wanted of a piece: another option, another piece, and not to be offered this one any more."""
    new_option(row)
    new_piece(now, open_now=False)
    put_away(row)


def new_option(row: PieceRow) -> None:
    """Give one of the movements another option, for everybody who does the piece from now on."""
    if not row.piece.tasks:
        return
    names = {number: task.movement for number, task in enumerate(row.piece.tasks)}
    with (
        st.expander("Another option for a movement", key="piece_option"),
        st.form(f"piece_option_{row.id}", border=False),
    ):
        st.selectbox("In place of", list(names), format_func=names.__getitem__, key=f"option_of_{row.id}")
        st.text_input("One could do", key=f"option_text_{row.id}", placeholder="such as push-up from the knees")
        st.caption("For everybody. Scores from before stay as they are, and an option is never converted.")
        st.form_submit_button("Add the option", on_click=_add_option, args=(row,))


def _add_option(row: PieceRow) -> None:
    now, state = here(), st.session_state
    said = f"Added an option to {row.piece.title}"
    task, text = state[f"option_of_{row.id}"], state[f"option_text_{row.id}"]
    if do(conditioning.add_option, now.log, row.id, task, text, now.member_id, said=said):
        state[f"option_text_{row.id}"] = ""


def put_away(row: PieceRow) -> None:
    """Stop offering a piece, behind a touch that says what becomes of it."""
    with st.expander("Put this piece away", key="piece_put_away"):
        st.caption("It is no longer offered to anybody in this log. Its scores stay, and Undo puts it back.")
        st.button("Put it away", key="piece_away", width="stretch", on_click=_away, args=(row,))


def _away(row: PieceRow) -> None:
    now = here()
    do(
        conditioning.remove_piece,
        now.log,
        row.id,
        now.member_id,
        said=f"{row.piece.title} is put away; its scores stay",
    )
