"""What stands in the place of the next thing where nothing is next: why, and nothing that asks for more."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.frame.next_line import marked
from tracker.desk.day.next import Next


def show(found: Next) -> None:
    """Say that all is done, that it was ended, or that nothing is planned."""
    if found.to_end:
        return  # the coach's words stand there, with the way to say that it is done
    session = found.plan.session if found.plan.step is not None else None
    rated = f"Rated {session.rating} of 10." if session and session.rating is not None else ""
    note = f"You noted: {session.note}" if session and session.note.strip() else ""
    more = "".join(f'<p class="plain">{escape(each)}</p>' for each in (rated, note) if each)
    mark = "" if found.plan.step is None else "⚑ " if found.plan.closed else "✓ "
    st.html(marked(found, f'<p class="plain over-line">{mark}{escape(found.words)}</p>{more}'))
