"""The piece of today's step, said on the page of the day, with the way to its clock and form."""

from __future__ import annotations

from datetime import date
from html import escape

import streamlit as st

from tracker.components.empty import way_to
from tracker.components.frame import Here
from tracker.components.words import first_up
from tracker.conditioning.asked import asked_words
from tracker.conditioning.words import score_words
from tracker.desk import conditioning, sheets
from tracker.log.records import MemberStepRow


def show(now: Here, step: MemberStepRow | None, day: date) -> None:
    """Name the pieces that belong to the day's step, or what was got in them; nothing where there is none."""
    plan = conditioning.piece_day(now.log, now.member.id, day)
    got = {row.piece_id: score_words(row.score) for row in plan.scores}
    for row in plan.planned:
        said = got.get(row.id) or asked_words(row.piece)
        st.html(f'<p class="plain"><b>Piece: {escape(row.piece.title)}.</b> {escape(first_up(said))}</p>')
    known = {row.piece.title for row in plan.planned}
    # A sheet may name a piece that nobody has entered yet: the page of pieces asks for it.
    others = [title for title in (sheets.pieces_of(now.log, step) if step else ()) if title not in known]
    for title in others:
        st.html(f'<p class="plain"><b>Piece: {escape(title)}.</b></p>')
    if known or others:
        way_to("conditioning", "Clock and score", icon=":material/timer:")
