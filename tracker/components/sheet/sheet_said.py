"""A sheet as it was understood: the session that members will see, its questions as touches, each line behind a touch."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from html import escape
from itertools import groupby
from pathlib import Path

import streamlit as st

from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up
from tracker.components.sheet.session_view import any_taken, contents, day_of, item_html, with_units
from tracker.components.sheet.sheet_lines import LABELS, READ, Became, LineSaid, glance, kept_as_words, lines_said
from tracker.components.sheet.sheet_paste import TEXT
from tracker.desk.maxes.words import full_day
from tracker.desk.sheet import sheets
from tracker.desk.sheet.sheets import Question, SheetPreview
from tracker.prescription.sheet import SheetErrors
from tracker.prescription.sheet.model import Session
from tracker.wording import counted

STYLE = Path(__file__).with_name("sheet.css")
ANSWERS = "sheet_answers"
WORDS_ALONE = "Note: "  # before a line it makes words of it, in every sheet
MOST_FOLDS = 8  # sessions that are folded one by one: more are no page on a phone
MOST_TOUCHES = 80  # lines with a touch of their own; a longer sheet is put right in its text
ABOVE = (-1, -1)  # where a question stands that is of no item on the screen


def answers() -> dict[str, str]:
    """Return what was answered of the sheet in the field."""
    return dict(st.session_state.get(ANSWERS) or {})


def style() -> None:
    st.html(f"<style>{STYLE.read_text(encoding='utf-8')}</style>")


def read(now: Here, text: str) -> SheetPreview | None:
    """Show the sessions of a sheet as members will see them; None where there is nothing in it."""
    try:
        preview = sheets.read_sheet(now.log, text, today=now.today, answers=answers(), by=now.member_id)
    except SheetErrors:
        st.info(
            "There is nothing to read in it: no word and no number. Paste what your coach wrote.",
            icon=":material/edit_note:",
        )
        return None
    sessions = preview.sheet.sessions
    waiting = dict(_questions(preview))
    opened = sum(question.answer == "open" for question in preview.questions)
    asked = f" {counted(opened, 'question')} to answer." if opened else ""
    head = preview.sheet.title or (day_of(sessions[0]) if len(sessions) == 1 else "") or "As members will see it"
    st.html(
        f'<h2 class="plan-head">{escape(head)}</h2><p class="plain small soft">{escape(glance(preview) + asked)}</p>'
    )
    if preview.sheet.notes:
        st.html("".join(f'<p class="plan-words">{with_units(each)}</p>' for each in preview.sheet.notes))
    _ask(waiting.get(ABOVE, ()), opened)
    _session(0, sessions[0], waiting, opened, headed=head != day_of(sessions[0]))
    _others(preview, opened)
    _small_print(preview)
    _lines(preview)
    return preview


def _others(preview: SheetPreview, opened: int) -> None:
    """Fold the sessions after the first: each for itself, or, where there are many, by weeks."""
    sessions = preview.sheet.sessions
    if len(sessions) <= MOST_FOLDS:
        for place, session in enumerate(sessions[1:], start=1):
            words = ": ".join(part for part in (day_of(session), "" if session.title else contents(session)) if part)
            box = st.expander(as_typed(words), key=f"sheet_session_{place}", on_change="rerun")
            if box.open:
                with box:
                    _session(place, session, {}, opened, headed=False)
        return
    numbered = list(enumerate(preview.sheet.offsets))[1:]
    for week, found in groupby(numbered, key=lambda each: each[1] // 7):
        places = [place for place, _ in found]
        many = counted(len(places), "session") if week else f"{len(places)} more"
        on = sessions[places[0]].on
        words = f"Week {week + 1}: {many}{f', from {full_day(on)}' if on else ''}"
        box = st.expander(words, key=f"sheet_week_{week}", on_change="rerun")
        if box.open:
            with box:
                for place in places:
                    _session(place, sessions[place], {}, opened, headed=True)


def _session(
    place: int,
    session: Session,
    waiting: dict[tuple[int, int], tuple[tuple[int, Question], ...]],
    opened: int,
    *,
    headed: bool,
) -> None:
    """Draw the parts of a session, and below a part what is asked of it."""
    html = f'<h2 class="plan-day">{escape(day_of(session))}</h2>' if headed and day_of(session) else ""
    for index, item in enumerate(session.items):
        html += item_html(item)
        if found := waiting.get((place, index)):
            st.html(f'<section class="plan">{html}</section>')
            html = ""
            _ask(found, opened)
    if html:
        st.html(f'<section class="plan">{html}</section>')


def _questions(preview: SheetPreview) -> Iterator[tuple[tuple[int, int], tuple[tuple[int, Question], ...]]]:
    """Say below which part of the first session each question stands: what was answered, and the first that was not."""
    of_line = {line.number: (line.session, line.item) for line in preview.lines}
    shown: dict[tuple[int, int], list[tuple[int, Question]]] = {}
    first = next((each for each in preview.questions if each.answer == "open"), None)
    for number, question in enumerate(preview.questions):
        if question.answer == "open" and question is not first:
            continue
        place = of_line.get(question.ask.line, ABOVE)
        shown.setdefault(place if place[0] == 0 and place[1] >= 0 else ABOVE, []).append((number, question))
    return ((place, tuple(found)) for place, found in shown.items())


def _ask(found: tuple[tuple[int, Question], ...], opened: int) -> None:
    for number, question in found:
        ask, open_one = question.ask, question.answer == "open"
        known = {"open": "", "now": "as you answered", "before": "as you answered before"}[question.answer]
        said = f' <span class="sheet-known">{known}</span>' if known else ""
        more = f' <span class="soft">(then {opened - 1} more)</span>' if open_one and opened > 1 else ""
        line = f"<code>{escape(ask.text.strip())}</code>"
        with st.container(border=open_one, key=f"sheet_ask_{number}", gap="xsmall"):
            st.html(f'<p class="plain"><b>{escape(ask.question)}</b> {line}{said}{more}</p>')
            with st.container(horizontal=True, gap="small", key=f"sheet_choices_{number}"):
                for choice in (ask.taken, *ask.others):
                    stands = choice == ask.taken
                    label = as_typed(first_up(choice.words))
                    st.button(
                        f"{label} ✓" if stands else label, key=f"sheet_answer_{number}_{choice.code}",
                        type="primary" if stands and open_one else "secondary", on_click=_answer, args=(question.key, choice.code),
                    )  # fmt: skip


def _answer(key: str, code: str) -> None:
    st.session_state[ANSWERS] = {**answers(), key: code}


def _small_print(preview: SheetPreview) -> None:
    said = []
    if any(map(any_taken, preview.sheet.sessions)):
        said.append('<span class="sheet-taken">Dotted</span>: not in the message, read as usual.')
    if preview.new_lifts:
        said.append(f"New to the log: {escape('; '.join(preview.new_lifts))}.")
    if said:
        st.html(f'<p class="plain small soft">{" ".join(said)}</p>')


def _lines(preview: SheetPreview) -> None:
    box = st.expander("How each line was read", key="sheet_lines_box", on_change="rerun", icon=":material/list:")
    if not box.open:
        return
    found = lines_said(preview)
    with box, st.container(key="sheet_lines", gap=None):
        if words := kept_as_words(preview):
            st.html(f'<p class="plain small soft">{words}.</p>')
        for line in found[:MOST_TOUCHES]:
            with st.container(
                horizontal=True, key=f"sheet_line_{line.number}", gap="small", vertical_alignment="center"
            ):
                st.html(_line(line))
                if line.kind in READ:
                    st.button(
                        "Keep as words", key=f"sheet_words_{line.number}", type="tertiary", on_click=_words, args=(line.number,),
                        help=f"Line {line.number} is no {LABELS[line.kind].lower()}: keep it as the coach's words",
                    )  # fmt: skip
                elif line.typed.lstrip().startswith(WORDS_ALONE):
                    st.button(
                        "Read again",
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
    words = with_units(part.words)
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
