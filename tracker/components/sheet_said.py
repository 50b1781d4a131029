"""A sheet as it was understood; or every slip in it, with its line and a line that would pass."""

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
from tracker.prescription.sheet import Problem, SheetErrors
from tracker.prescription.sheet.model import Session
from tracker.prescription.sheet.words import item_words
from tracker.wording import counted

STYLE = Path(__file__).with_name("sheet.css")
SHOWN = 100  # slips on the page; more are only counted


def read(now: Here, text: str) -> SheetPreview | None:
    """Say a sheet back, or tell its slips; None where it can't be taken."""
    st.html(f"<style>{STYLE.read_text(encoding='utf-8')}</style>")
    try:
        preview = sheets.read_sheet(now.log, text)
    except SheetErrors as errors:
        _slips(errors.problems)
        return None
    except BadInputError as error:
        st.error(as_typed(f"{error}"), icon=":material/error:")
        return None
    st.header("Understood as")
    for each in (preview.sheet.title, *preview.sheet.notes):
        if each:
            st.html(f'<p class="plain">{escape(each)}</p>')
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


def _slips(problems: tuple[Problem, ...]) -> None:
    st.error(f"Not understood: {counted(len(problems), 'line')}. Nothing was taken.", icon=":material/error:")
    rows = "".join(_row(problem) for problem in problems[:SHOWN])
    heads = "".join(f'<th scope="col">{head}</th>' for head in ("Line", "What is wrong", "A line that would pass"))
    st.html(f'<table class="sheet-slips"><thead><tr>{heads}</tr></thead><tbody>{rows}</tbody></table>')
    if len(problems) > SHOWN:
        st.caption(f"And {len(problems) - SHOWN:,} more.")


def _row(problem: Problem) -> str:
    typed = f"<br><code>{escape(problem.text)}</code>" if problem.text else ""
    what = f"{escape(problem.what)} Expected {escape(problem.expected)}.{typed}"
    example = f"<code>{escape(problem.example)}</code>" if problem.example else ""
    place = f'<td>{problem.line}<span class="sheet-column">, column {problem.column}</span></td>'
    return f"<tr>{place}<td>{what}</td><td>{example}</td></tr>"
