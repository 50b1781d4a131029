"""The piece of today's step, said on the page of the day, with the way to its clock and form."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.frame import where
from tracker.components.frame.empty import way_to
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up
from tracker.components.pieces.piece_choice import PIECE
from tracker.conditioning.asked import asked_words
from tracker.conditioning.words import score_words
from tracker.desk.day.today import DayPlan
from tracker.desk.pieces import conditioning, last_piece
from tracker.log.pieces import PieceRow


def next_up(now: Here, plan: DayPlan) -> None:
    """Say large which piece comes after the last set, with the way to it."""
    row = plan.open_pieces[0]
    with st.container(border=True, key="next_piece"):
        st.html(
            f'<p class="over">Next: the piece</p><p class="big small">{escape(row.piece.title)}</p>'
            f'<p class="plain">{escape(first_up(asked_words(row.piece)))}</p>{last_time(now, row, plan.day, easy=plan.easy)}'
        )
        _way(now, plan, row)


def last_time(now: Here, row: PieceRow, day: date, *, easy: bool = False) -> str:
    """Return as HTML what was got in a piece last time; an empty text where there is nothing."""
    last = last_piece.last_piece(now.log, now.member.id, row.piece, day, easy=easy)
    lines = last.lines(day) if last else ()
    return "".join(f'<p class="plain before">{escape(each)}</p>' for each in lines)


def show_last(now: Here, row: PieceRow, day: date) -> None:
    """Draw the same, where there is something."""
    if lines := last_time(now, row, day):
        st.html(lines)


def show(now: Here, plan: DayPlan, *, but_first_open: bool) -> None:
    """Name the pieces of the step, or what was got in them; `but_first_open`: that one is said by `next_up`."""
    rows = [row for row in plan.pieces if not (but_first_open and row in plan.open_pieces[:1])]
    if not rows:
        return
    day = conditioning.piece_day(now.log, now.member.id, plan.day, member_step_id=where.chosen_step())
    got = {row.score.piece.title.casefold(): score_words(row.score) for row in day.scores}
    for row in rows:
        said = got.get(row.piece.title.casefold()) or asked_words(row.piece)
        st.html(f'<p class="plain"><b>Piece: {escape(row.piece.title)}.</b> {escape(first_up(said))}</p>')
        _way(now, plan, row, f" of {row.piece.title}" if len(plan.pieces) > 1 else "")


def _way(now: Here, plan: DayPlan, row: PieceRow, of: str = "") -> None:
    step = {where.SESSION: plan.step.id} if plan.step else {}
    carried = {PIECE: row.id, **step, **where.carried(now, plan.day)}
    way_to("conditioning", f"Clock and score{of}", icon=":material/timer:", carried=carried)


def back(now: Here, day: conditioning.PieceDay) -> None:
    """After a score: the way to the next piece of the session, or back to the day and its rating."""
    if not day.scores:
        return
    step = {where.SESSION: day.step.id} if day.step else {}
    carried = {**step, **where.carried(now, day.day)}
    if day.open_pieces:
        row = day.open_pieces[0]
        way_to(
            "conditioning",
            f"Next piece: {row.piece.title}",
            icon=":material/timer:",
            carried={PIECE: row.id, **carried},
        )
    label = "Back to the day" if day.rated or day.open_pieces else "Back to the day: how was the session?"
    way_to("today", label, icon=":material/today:", carried=carried)
