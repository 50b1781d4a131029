"""A sheet as it was understood: what can be read in two ways as touches, and each line beside what became of it."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape
from pathlib import Path

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up
from tracker.components.sheet.sheet_lines import LABELS, READ, Became, LineSaid, glance, lines_said
from tracker.components.sheet.sheet_paste import TEXT
from tracker.desk.sheet import sheets
from tracker.desk.sheet.sheets import Question, SheetPreview
from tracker.prescription.sheet import SheetErrors

STYLE = Path(__file__).with_name("sheet.css")
ANSWERS = "sheet_answers"
_UNIT = re.compile(r"(\d) (%|kg\b|lb\b|cm\b|m\b|s\b|cal\b)")  # a number stays with its unit
WORDS_ALONE = "Note: "  # before a line it makes words of it, in every sheet
MOST_TOUCHES = 80  # lines with a touch of their own; a longer sheet is put right in its text


def answers() -> dict[str, str]:
    """Return what was answered of the sheet in the field."""
    return dict(st.session_state.get(ANSWERS) or {})


def read(now: Here, text: str) -> SheetPreview | None:
    """Say a sheet back line by line, and ask what can be read in two ways; None where there is nothing in it."""
    st.html(f"<style>{STYLE.read_text(encoding='utf-8')}</style>")
    try:
        preview = sheets.read_sheet(now.log, text, today=now.today, answers=answers(), by=now.member_id)
    except SheetErrors:
        st.info(
            "There is nothing to read in it: no word and no number. Paste what your coach wrote.",
            icon=":material/edit_note:",
        )
        return None
    st.header("Understood as")
    st.html(f'<p class="plain sheet-glance">{escape(glance(preview))}</p>')
    _questions(preview.questions)
    _lines(preview)
    if preview.new_lifts:
        st.html(
            f'<p class="plain sheet-new">New to the log, added with the sheet: {escape("; ".join(preview.new_lifts))}.</p>'
        )
    return preview


def _questions(questions: tuple[Question, ...]) -> None:
    for place, question in enumerate(questions):
        ask = question.ask
        known = {"open": "", "now": "as you answered", "before": "as you answered before"}[question.answer]
        where = f"line {ask.line}" if len(ask.lines) < 2 else "lines " + ", ".join(str(each) for each in ask.lines[:6])
        said = f'<span class="sheet-known">{known}</span>' if known else ""
        with st.container(border=True, key=f"sheet_ask_{place}"):
            st.html(
                f'<p class="plain"><b>{escape(ask.question)}</b> {said}</p>'
                f'<p class="plain sheet-where">{escape(first_up(where))}: <code>{escape(ask.text.strip())}</code></p>'
            )
            with st.container(horizontal=True, gap="small", key=f"sheet_choices_{place}"):
                for choice in (ask.taken, *ask.others):
                    stands = choice == ask.taken
                    label = as_typed(first_up(choice.words))
                    st.button(
                        f"{label} ✓" if stands else label, key=f"sheet_answer_{place}_{choice.code}",
                        type="primary" if stands else "secondary", on_click=_answer, args=(question.key, choice.code),
                    )  # fmt: skip


def _answer(key: str, code: str) -> None:
    st.session_state[ANSWERS] = {**answers(), key: code}


def _lines(preview: SheetPreview) -> None:
    found = lines_said(preview)
    st.html(
        '<p class="plain sheet-legend">Each line as it was typed, and what became of it. '
        '<span class="sheet-taken">Like this</span>: the sheet does not say it, it was taken as usual.</p>'
    )
    with st.container(key="sheet_lines", gap=None):
        for line in found[:MOST_TOUCHES]:
            with st.container(
                horizontal=True, key=f"sheet_line_{line.number}", gap="small", vertical_alignment="center"
            ):
                st.html(_line(line))
                if line.kind in READ:
                    st.button(
                        "Just words", key=f"sheet_words_{line.number}", type="tertiary", on_click=_words, args=(line.number,),
                        help=f"Line {line.number} is no {LABELS[line.kind].lower()}: keep it as the coach's words",
                    )  # fmt: skip
                elif line.typed.lstrip().startswith(WORDS_ALONE):
                    st.button(
                        "Read it",
                        key=f"sheet_again_{line.number}",
                        type="tertiary",
                        on_click=_again,
                        args=(line.number,),
                    )
        if found[MOST_TOUCHES:]:
            st.html("".join(_line(line) for line in found[MOST_TOUCHES:]))


def _line(line: LineSaid) -> str:
    became = "".join(
        f'<p class="plain{" sheet-head" if parts[0].head else ""}">{"".join(map(_part, parts))}</p>'
        for parts in line.became
    )
    return (
        f'<div class="sheet-line sheet-{line.kind}"><div class="sheet-typed">{escape(line.typed.strip())}</div>'
        f'<div class="sheet-became"><span class="sheet-label">{LABELS[line.kind]}</span><div>{became}</div></div></div>'
    )


def _part(part: Became) -> str:
    words = _UNIT.sub("\\1\u00a0\\2", escape(part.words))
    return f'<span class="sheet-taken">{words}</span>' if part.taken else words


def _words(number: int) -> None:
    _rewrite(number, lambda line: WORDS_ALONE + line.strip())


def _again(number: int) -> None:
    _rewrite(number, lambda line: line.lstrip().removeprefix(WORDS_ALONE))


def _rewrite(number: int, how: Callable[[str], str]) -> None:
    """Write one line of the text in the field anew; all others stay as they are."""
    lines = str(st.session_state.get(TEXT) or "").split("\n")
    if 1 <= number <= len(lines):
        lines[number - 1] = how(lines[number - 1])
        st.session_state[TEXT] = "\n".join(lines)
