"""The load sheet of a class on the coach's own screen: with the reasons that the printed page keeps to itself."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from itertools import groupby, zip_longest

import streamlit as st

from tracker.components.coach import class_members
from tracker.components.coach.class_choice import ClassChoice
from tracker.components.frame.frame import Here
from tracker.components.frame.words import first_up
from tracker.conditioning.asked import movement_lines, scheme_words
from tracker.desk.coach import class_print, class_sheet
from tracker.desk.coach.bars import AtOneBar, bars_of
from tracker.desk.coach.class_sheet import ClassRow, ClassSheet
from tracker.desk.coach.send_result import file_word
from tracker.desk.sheet.sheet_words import parts_of
from tracker.exchange.class_page import PageCell
from tracker.log.records import PlannedSetRow

MOST_COLUMNS = 3  # that a phone holds; more are moved sideways


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
    class_members.summary(sheet)
    before, closing = parts_of(sheet.step.text)
    _section(_lines_of(before))
    bars = bars_of(sheet)
    own_place = sheet.place is None and len({row.place.name if row.place else "" for row in sheet.rows}) > 1
    notes = iter(class_print.lift_notes(step))
    for lift, group in groupby(step.sets, key=lambda planned: planned.lift.title):
        blocks = [list(each) for _, each in groupby(group, key=lambda planned: planned.block)]
        st.html(_loads(lift, blocks, next(notes), bars, own_place=own_place))
    class_members.show(sheet, choice.day)
    _pieces(sheet)
    _section(_lines_of(closing))


def _loads(
    lift: str,
    blocks: Sequence[Sequence[PlannedSetRow]],
    notes: Sequence[str],
    bars: Sequence[AtOneBar],
    *,
    own_place: bool,
) -> str:
    """Draw the loads of one lift: a row a member, those who share a bar together, what is asked above each column."""
    columns = [planned for block in blocks for planned in block]
    heads = "".join(f'<th scope="col">{_asked(planned)}</th>' for planned in columns)
    parts: list[str] = []
    for bar in bars:
        rows = "".join(_row(row, blocks, bar, own_place=own_place) for row in bar.rows)
        parts.append(f"<tbody{' class=class-shared' if bar.partners else ''}>{rows}</tbody>")
    table = (
        f'<table class="class-loads"><thead><tr><th scope="col">Who</th>{heads}</tr></thead>{"".join(parts)}</table>'
    )
    wide = len(columns) > MOST_COLUMNS
    reach = f' tabindex="0" role="region" aria-label="Loads of {escape(lift)}"' if wide else ""
    said = "".join(f"<p>{escape(line)}</p>" for line in notes)
    if columns[0].lift.implement == "barbell":
        said += '<small class="class-soft">Below each load: the discs of one side</small>'
    return (
        f'<section class="class-lift-part"><h2>{escape(first_up(lift))}</h2>{said}'
        f'<div class="class-scroll{" class-wide" if wide else ""}"{reach}>{table}</div></section>'
    )


def _asked(planned: PlannedSetRow) -> str:
    """Say what is asked in two lines: `3 × 4`, and of what."""
    many, at, rest = class_print.asked(planned).partition(" at ")
    return f"{_together(many)}{f'<small>{_together(rest)}</small>' if at else ''}"


def _together(words: str) -> str:
    return escape(words).replace(" × ", "\u00a0×\u00a0").replace(" %", "\u00a0%")


def _row(row: ClassRow, blocks: Sequence[Sequence[PlannedSetRow]], bar: AtOneBar, *, own_place: bool) -> str:
    below = [f"bar {bar.number}"] if bar.partners else []
    below += [row.place.name if row.place else "no place yet"] if own_place else []
    mark = f" {class_print.SPEAK_FIRST}" if class_print.speaks_first(row) else ""
    cells = "".join(
        _cell(cell, because)
        for block in blocks
        for cell, because in _because(row, class_print.cells_of(row, block), block)
    )
    small = f"<small>{escape(', '.join(below))}</small>" if below else ""
    return f'<tr><th scope="row">{escape(row.member.name)}{mark}{small}</th>{cells}</tr>'


def _because(
    row: ClassRow, cells: Sequence[PageCell], headed: Sequence[PlannedSetRow]
) -> Iterator[tuple[PageCell, str]]:
    """Put beside each cell why its repetitions are others than its heading asks for, where they are."""
    lines = {line.planned.id: line for line in row.lines}
    for cell, planned in zip_longest(cells, headed[: len(cells)]):
        line = lines.get(planned.id) if planned and len(cells) == len(headed) else None
        yield cell, " ".join(line.why) if line and line.made and line.reps != planned.reps else ""


def _cell(cell: PageCell, because: str = "") -> str:
    load = f"<b>{escape(' '.join(part for part in (cell.load, cell.reps) if part))}</b>" if cell.load else ""
    detail = "".join(f"<small>{escape(each)}</small>" for each in (cell.detail, because) if each)
    span = f' colspan="{cell.span}"' if cell.span > 1 else ""
    return f"<td{span}>{load}{detail}</td>"


def _lines_of(lines: Iterable[str]) -> str:
    return "".join(f"<p>{escape(line)}</p>" for line in lines)


def _section(said: str) -> None:
    if said:
        st.html(f'<section class="class-row">{said}</section>')


def _pieces(sheet: ClassSheet) -> None:
    for piece in sheet.pieces:
        moves = "".join(f"<li>{escape(line)}</li>" for line in movement_lines(piece, options=True))
        scheme, notes = _lines_of([first_up(scheme_words(piece))]), _lines_of(piece.note.splitlines())
        _section(f"<h2>{escape(piece.title)}</h2>{scheme}<ul>{moves}</ul>{notes}")
