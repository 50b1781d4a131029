"""The load sheet of a class, put into the words of a printed page.

A page hangs where everybody reads it, so what concerns one person alone (a break, an age, a switch of their own) is only
the sign for "speak first"; the coach's own page says why.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from tracker.conditioning.asked import movement_lines, scheme_words
from tracker.conditioning.pieces import Piece
from tracker.desk.coach.bars import bars_of, other_partners
from tracker.desk.coach.class_sheet import ClassLine, ClassRow, ClassSheet
from tracker.desk.maxes.words import first_up
from tracker.desk.sheet.sheet_words import parts_of
from tracker.exchange.class_page import ClassPage, PageCell, PageRow, class_page
from tracker.log.records import PlannedSetRow, StepRow
from tracker.prescription.substitution import FEEL_RIR
from tracker.safety import MINOR, NEW, RETURN, STALE, Caution
from tracker.units import Mass, plain
from tracker.wording import counted

ABOUT_ONE: tuple[Caution, ...] = (RETURN, STALE, NEW, MINOR)  # cautions that say something about a person
SPEAK_FIRST = "▲"
MISSING = "○"


def print_sheet(sheet: ClassSheet) -> str:
    """Return the page as a complete HTML document, made for A4."""
    return class_page(page_of(sheet))


def page_of(sheet: ClassSheet) -> ClassPage:
    """Put a load sheet into the words of the page."""
    place = f" · {sheet.place.name}" if sheet.place else ""
    columns = tuple((planned.lift.title, asked(planned)) for planned in sheet.step.sets)
    rows = tuple(
        replace(_row(row, sheet.step, own_place=sheet.place is None), bar=bar.number)
        for bar in bars_of(sheet)
        for row in bar.rows
    )
    before, closing = parts_of(sheet.step.text)
    return ClassPage(
        sheet.step.title or sheet.step.wave,
        f"{sheet.day:%a} {sheet.day.day} {sheet.day:%b %Y}{place}",
        columns,
        rows,
        tuple(_foot(sheet)),
        tuple((piece.title, piece_words(piece)) for piece in sheet.pieces),
        said=before,
        closing=closing,
        notes=lift_notes(sheet.step),
    )


def lift_notes(step: StepRow) -> tuple[tuple[str, ...], ...]:
    """Return what is said of each lift, in the order of the headings: equal lifts in a row have one heading."""
    said: dict[str, list[str]] = {}
    for lift, lines in lift_lines(step):
        said.setdefault(lift, []).extend(lines)
    titles = [title for title, _ in groupby(step.sets, key=lambda planned: planned.lift.title)]
    return tuple(tuple(map(first_up, said.pop(title, ()))) for title in titles)


def piece_words(piece: Piece) -> str:
    """Say what a piece asks in one line, with the coach's options and notes."""
    return "; ".join((scheme_words(piece), *movement_lines(piece, options=True), *piece.note.splitlines()))


def lift_lines(step: StepRow) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """List for each lift the coach's notes and the other ways to do it; lifts without any are left out."""
    found: list[tuple[str, tuple[str, ...]]] = []
    for block, sets in groupby(step.sets, key=lambda planned: planned.block):
        planned = list(sets)
        notes = [note for each in planned for note in each.lift_notes]
        ways = groupby((each for each in step.ways if each.block == block), key=lambda way: way.way)
        lines = (*notes, *(_way_words(list(way)) for _, way in ways))
        if lines:
            found.append((planned[0].lift.title, lines))
    return tuple(found)


def _way_words(way: Sequence[PlannedSetRow]) -> str:
    """Say another way to do a lift: `or front squat, dumbbells, twice the repetitions`."""
    rule = {"doubled": "twice the repetitions", "same": "the same repetitions"}.get(way[0].rule)
    return f"or {way[0].lift.title}, {rule or '; '.join(map(asked, way))}"


def asked(planned: PlannedSetRow) -> str:
    """Say what a line asks: `3 × 4 at 82 % of 3RM`."""
    if planned.test:
        return f"test of the {planned.reps}RM"
    reps = f"{planned.reps}-{planned.high_reps}" if planned.high_reps else str(planned.reps)
    side = " each side" if planned.each_side else ""
    parts = [f"{planned.sets} × {reps}{'+' if planned.rep_out else ''}{side}"]
    if planned.percent is not None:
        whose = f"{planned.of_lift.title} " if planned.of_lift else ""
        parts.append(f"at {plain(planned.percent)} % of {whose}{planned.of_reps}RM")
    elif planned.load:
        parts.append(f"at {planned.load}")
    parts += [f"leave {plain(planned.reserve)}"] if planned.reserve is not None else []
    return ", ".join(each for each in (" ".join(parts), planned.own_words) if each)


def _row(row: ClassRow, step: StepRow, *, own_place: bool) -> PageRow:
    place = row.place.name if own_place and row.place else ""
    below = " · ".join(part for part in (f"{SPEAK_FIRST} speak first" if speaks_first(row) else "", place) if part)
    return PageRow(row.member.name, below, tuple(_cells(row, step)))


def speaks_first(row: ClassRow) -> bool:
    """Whether a member should speak with the coach before loading."""
    held = any(line.held for line in row.lines)
    return held or row.told.speak_first or any(caution in ABOUT_ONE for caution in row.cautions)


def _cells(row: ClassRow, step: StepRow) -> Iterator[PageCell]:
    """Put each line below its heading; what is done another way stands across the headings of its block."""
    for _, headed in groupby(step.sets, key=lambda planned: planned.block):
        yield from cells_of(row, list(headed))


def cells_of(row: ClassRow, headed: Sequence[PlannedSetRow]) -> tuple[PageCell, ...]:
    """Return what a member does below the headings of one block: a cell for each, or one across them for another way."""
    wanted = [planned.id for planned in headed]
    lines = [line for line in row.lines if line.planned.id in wanted]
    if [line.planned.id for line in lines] == wanted:
        return tuple(map(_cell, lines))
    return (_another_way([line for line in row.lines if line.planned.block == headed[0].block], len(headed)),)


def _another_way(lines: Sequence[ClassLine], span: int) -> PageCell:
    cells = list(map(_cell, lines))
    said = "; ".join(dict.fromkeys(f"{line.planned.lift.title}, {asked(line.planned)}" for line in lines))
    if not any(cell.load for cell in cells):
        return PageCell("", f"{said}: {', '.join(dict.fromkeys(cell.detail for cell in cells))}", span=span)
    loads = dict.fromkeys(f"{cell.load or 'by feel'} {cell.reps}".strip() for cell in cells)
    return PageCell(" · ".join(loads), said, span=span)


def _cell(line: ClassLine) -> PageCell:
    if line.held:
        return PageCell("", f"{SPEAK_FIRST} speak with the coach")
    if line.made is None:
        return PageCell(*_without_load(line))
    load = line.made.load
    many = line.planned.lift.implements
    shown = f"{many} × {load}" if many > 1 else _signed(load) if line.planned.lift.body else str(load)
    other_reps = f"for {counted(line.reps, 'rep')}" if line.reps != line.planned.reps else ""
    return PageCell(shown, discs(line.made.per_side, load), other_reps)


def _without_load(line: ClassLine) -> tuple[str, str]:
    if line.instead and line.instead.load and line.instead.reps:
        return f"2 × {line.instead.load}", f"dumbbells, {counted(line.instead.reps, 'repetition')}"
    if line.instead and line.instead.reps:
        with_what = "dumbbells: " if line.planned.lift.implement == "barbell" else ""
        return "", f"{MISSING} {with_what}{line.instead.reps} by feel, leave {FEEL_RIR}"
    if line.others:
        return "", f"{MISSING} {' or '.join(line.others)}: by feel, leave {FEEL_RIR}"
    if line.missing:
        return "", f"{MISSING} no {line.planned.of_reps}RM: by feel, leave {FEEL_RIR}"
    if line.planned.test:
        return "", "up to today's max"
    return "", "by feel" if line.planned.percent is None else "nothing here: ask the coach"


def discs(per_side: tuple[Mass, ...], load: Mass) -> str:
    """Say the discs of one side in short; with their unit where it is not that of the load."""
    alike = all(disc.unit == load.unit for disc in per_side)
    return " + ".join(plain(disc.amount) if alike else str(disc) for disc in per_side)


def _signed(load: Mass) -> str:
    return (
        f"+{load}"
        if load.amount > 0
        else "body mass"
        if load.amount == 0
        else f"−{plain(abs(load.amount))} {load.unit}"
    )


def _foot(sheet: ClassSheet) -> list[str]:
    lines = [line for row in sheet.rows for line in row.lines]
    said = ["Below each load: the discs on each side, heaviest first, in the unit of the load; blank is the empty bar."]
    if any(line.reps != line.planned.reps for line in lines if line.made):
        said.append("Underlined: other repetitions, for what stands here.")
    if any(MISSING in cell.detail for row in sheet.rows for cell in _cells(row, sheet.step)):
        said.append(f"{MISSING} No max is known: choose by feel, leave {FEEL_RIR} repetitions, and log it.")
    if any(map(speaks_first, sheet.rows)):
        said.append(f"{SPEAK_FIRST} Speak with the coach before loading.")
    if any(bar.partners for bar in bars_of(sheet)):
        said.append("Two at one number can share a bar: few discs change between their sets. Who stands first begins.")
    if others := other_partners(sheet):
        pairs = ", ".join(f"{pair.first} with {pair.second} ({pair.lift})" for pair in others)
        said.append(f"Could share a bar: {pairs}.")
    common = dict.fromkeys(caution for row in sheet.rows for caution in row.cautions if caution not in ABOUT_ONE)
    said += [caution.text for caution in common if caution.status == "published" or caution.advice]
    return [*said, "Your coach, your clinician and the rules of the place go before this page."]
