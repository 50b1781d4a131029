"""What is next, said on a page that is about something else, with the way to it; and marked on the page that shows it."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame import where
from tracker.components.frame.empty import way_to
from tracker.components.frame.frame import Here
from tracker.desk.day.next import Next

PIECE = "piece"  # in the address


def marked(found: Next, body: str) -> str:
    """Mark HTML as what is next: the one element of a page that says so."""
    return f'<div data-next="{found.kind}" data-title="{escape(found.title, quote=True)}">{body}</div>'


def said(found: Next) -> str:
    """Say in a line what is next."""
    which = f", {found.which}" if found.which else ""
    return {
        "set": f"Next: {found.title}{which}: {found.words}",
        "piece": f"Next: the piece {found.title}",
        "rating": f"Next: {found.words}",
        "nothing": found.words,
    }[found.kind]


def show(now: Here, found: Next, *, here: str = "") -> None:
    """Say what is next, and lead to it where it is not `here`, the piece that this page is about."""
    with st.container(key="next_line", gap="xsmall"):
        _show(now, found, here)


def _show(now: Here, found: Next, here: str) -> None:
    st.html(marked(found, f'<p class="plain next-line">{escape(said(found))}</p>'))
    if found.kind == "piece" and found.piece is not None:
        if found.piece.piece_id != here:
            label = f"Next piece: {found.piece.title}"
            way_to("conditioning", label, icon=":material/timer:", carried=carried(now, found, piece=True))
        way_to("today", "Back to the day", icon=":material/today:", carried=carried(now, found))
        return
    label = {
        "set": f"Back to the day: {found.which}",
        "rating": "Back to the day: how was the session?",
    }.get(found.kind, "Back to the day")
    way_to("today", label, icon=":material/today:", carried=carried(now, found))


def carried(now: Here, found: Next, *, piece: bool = False) -> dict[str, str]:
    """Return what a link to what is next carries: the piece, the session, whose it is, the day where it is not today."""
    step = {where.SESSION: found.session.step_id} if found.session and found.kind != "nothing" else {}
    of_piece = {PIECE: found.piece.piece_id} if piece and found.piece else {}
    return {**of_piece, **step, **where.carried(now, found.day)}
