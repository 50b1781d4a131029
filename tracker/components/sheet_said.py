"""A sheet as it was understood, and what can be read in two ways."""

from __future__ import annotations

from html import escape
from pathlib import Path

import streamlit as st

from tracker.components.as_typed import as_typed
from tracker.components.frame import Here
from tracker.components.words import first_up
from tracker.desk import sheets
from tracker.desk.sheets import SheetPreview
from tracker.errors import BadInputError
from tracker.prescription.sheet.model import Session
from tracker.prescription.sheet.words import ask_words, item_words

STYLE = Path(__file__).with_name("sheet.css")


def read(now: Here, text: str) -> SheetPreview | None:
    """Say a sheet back, and what was taken where it can be read in two ways; None where it can't be taken."""
    st.html(f"<style>{STYLE.read_text(encoding='utf-8')}</style>")
    try:
        preview = sheets.read_sheet(now.log, text)
    except BadInputError as error:
        st.error(as_typed(f"{error}"), icon=":material/error:")
        return None
    st.header("Understood as")
    for each in (preview.sheet.title, *preview.sheet.notes):
        if each:
            st.html(f'<p class="plain">{escape(each)}</p>')
    for ask in preview.asks:
        st.html(f'<p class="plain sheet-ask">{escape(ask_words(ask))}</p>')
    for session in preview.sheet.sessions:
        _session(session, open_now=len(preview.sheet.sessions) == 1)
    if preview.new_lifts:
        st.caption("New to the log, added when the sheet is taken:")
        st.html(f'<p class="plain">{escape("; ".join(preview.new_lifts))}</p>')
    return preview


def _session(session: Session, *, open_now: bool) -> None:
    words = [first_up(session.day_words), session.title]
    lines = [line for item in session.items for line in item_words(item)]
    body = "".join(f'<p class="plain">{escape(line)}</p>' for line in lines)
    title = ": ".join(part for part in words if part) or "The session"
    st.html(
        f'<details class="sheet-session"{" open" if open_now else ""}><summary>{escape(title)}</summary>{body}</details>'
    )
