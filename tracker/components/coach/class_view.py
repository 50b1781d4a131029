"""The load sheet of a class on the coach's own screen: with the reasons that the printed page keeps to itself."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from html import escape
from itertools import groupby

import streamlit as st

from tracker.components.coach.class_choice import ClassChoice
from tracker.components.frame.as_typed import as_typed
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up, load_words, reference_words
from tracker.conditioning.asked import movement_lines, scheme_words
from tracker.desk.coach import class_print, class_sheet
from tracker.desk.coach.class_sheet import ClassLine, ClassRow, ClassSheet
from tracker.desk.coach.send_result import file_word
from tracker.desk.day.lines import LESS_LIKELY, chance_words
from tracker.desk.sheet.sheet_words import parts_of
from tracker.log.records import StepRow
from tracker.wording import counted


def show(now: Here, choice: ClassChoice) -> None:
    """Draw the load sheet, and hand out its printable page."""
    if choice.step is None:
        return
    if not choice.member_ids:
        st.info("Nobody is in the class yet. Choose its members above.", icon=":material/group:")
        return
    log, step = now.log, choice.step
    with st.spinner("Reckoning the loads of the class"):  # kept until the next act; with many members it takes a moment
        sheet = class_sheet.class_sheet(log, step.id, choice.member_ids, choice.day, place_id=choice.place_id)
    st.download_button(
        "Page to print (A4)", class_print.print_sheet(sheet), mime="text/html", key="coach_page", type="primary",
        width="stretch", icon=":material/print:", on_click="ignore",
        file_name=f"class-{file_word(sheet.step.title or sheet.step.wave)}-{sheet.day.isoformat()}.html",
        help="Open it in a browser and print it. It says nothing of a member's reasons.",
    )  # fmt: skip
    _missing(sheet)
    before, closing = parts_of(sheet.step.text)
    _words(sheet.step, before)
    st.html("".join(_row(row, choice.day, own_place=sheet.place is None) for row in sheet.rows))
    _pieces(sheet)
    _section(_lines_of(closing))
    _partners(sheet)
    _cautions(sheet)


def _words(step: StepRow, before: Sequence[str]) -> None:
    """The coach's words on the session and its lifts, and other ways to do them, once for all members."""
    said = _lines_of(before)
    for lift, lines in class_print.lift_lines(step):
        said += f'<p class="class-lift">{escape(lift)}</p>' + _lines_of(map(first_up, lines))
    _section(said)


def _lines_of(lines: Iterable[str]) -> str:
    return "".join(f"<p>{escape(line)}</p>" for line in lines)


def _section(said: str) -> None:
    if said:
        st.html(f'<section class="class-row">{said}</section>')


def _missing(sheet: ClassSheet) -> None:
    names = [row.member.name for row in sheet.rows if any(line.missing for line in row.lines)]
    if names:
        said = f"No max is known for {as_typed(', '.join(names))}: by feel, or enter a tested or declared one."
        st.info(said, icon=":material/help:")


def _row(row: ClassRow, day: date, *, own_place: bool) -> str:
    place = f" <small>{escape(row.place.name if row.place else 'no place yet')}</small>" if own_place else ""
    held = dict.fromkeys(line.held.text for line in row.lines if line.held)
    marks = [*held, *(f"caution: {caution.key}" for caution in row.cautions)]
    said = "".join(f"<p>▲ {escape(each)}</p>" for each in marks)
    lifts = [(lift, list(lines)) for lift, lines in groupby(row.lines, key=lambda line: line.planned.lift.title)]
    tables = "".join(_lift(lift, lines, day) for lift, lines in lifts)
    return f'<section class="class-row"><h2>{escape(row.member.name)}{place}</h2>{said}{tables}</section>'


def _lift(lift: str, lines: Sequence[ClassLine], day: date) -> str:
    """Draw the lines of one lift; what their loads are reckoned from stands once."""
    known = dict.fromkeys(
        reference_words(line.reference, line.planned.of_lift or line.planned.lift, day)
        for line in lines
        if line.reference
    )
    of = f" <small>{escape(', '.join(known))}</small>" if known else ""
    rows = "".join(map(_line, lines))
    return f'<p class="class-lift">{escape(lift)}{of}</p><table class="class-table">{rows}</table>'


def _line(line: ClassLine) -> str:
    details = [line.made.words if line.made else "", line.note if line.made else "", line.to_do]
    if line.made and line.reps != line.planned.reps:
        details.insert(0, f"{counted(line.reps, 'repetition')}{' a side' if line.planned.lift.per_side else ''}")
    if line.chance is not None and line.chance < LESS_LIKELY:
        details.append(chance_words(line.chance))
    load = f"<b>{escape(load_words(line.made.load, line.planned.lift))}</b> " if line.made else ""
    small = " · ".join(escape(each) for each in details if each)
    return (
        f'<tr><th scope="row">{escape(class_print.asked(line.planned))}</th><td>{load}<small>{small}</small></td></tr>'
    )


def _pieces(sheet: ClassSheet) -> None:
    for piece in sheet.pieces:
        lines = (first_up(scheme_words(piece)), *movement_lines(piece, options=True), *piece.note.splitlines())
        _section(f"<h2>{escape(piece.title)}</h2>{_lines_of(lines)}")


def _partners(sheet: ClassSheet) -> None:
    if sheet.partners:
        st.header("Could share a bar")
        said = (
            f"{pair.first} and {pair.second}, {pair.lift}: {counted(pair.changes, 'disc')} to move in {counted(pair.sets, 'set')}, both sides"
            for pair in sheet.partners
        )
        st.html("".join(f'<p class="plain">{escape(each)}</p>' for each in said))


def _cautions(sheet: ClassSheet) -> None:
    found = dict.fromkeys(caution for row in sheet.rows for caution in row.cautions)
    if found:
        with st.expander("What the cautions say", key="coach_cautions"):
            for each in found:
                st.markdown(f"**{each.key}**: {each.text} {each.advice} ({each.basis})")
