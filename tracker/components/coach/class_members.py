"""Below the loads of a class: each member once, with what the loads are of, why one is not as asked, and with whom to share."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from html import escape
from itertools import groupby

import streamlit as st

from tracker.components.frame.words import first_up, reference_words
from tracker.desk.coach import class_print
from tracker.desk.coach.bars import bars_of, other_partners
from tracker.desk.coach.class_sheet import ClassLine, ClassRow, ClassSheet
from tracker.desk.coach.partners import Partners
from tracker.desk.day.lines import LESS_LIKELY, chance_words
from tracker.safety import Caution
from tracker.wording import counted


def first_words(sheet: ClassSheet) -> str:
    """Name in one line those who need a word before they load, and those whose max nobody knows; empty where nobody does."""
    first = [row.member.name for row in sheet.rows if class_print.speaks_first(row)]
    unknown = [row.member.name for row in sheet.rows if any(line.missing for line in row.lines)]
    said = [f"{class_print.SPEAK_FIRST} Speak first with {_and(first)}."] if first else []
    said += [f"{class_print.MISSING} No max known: {_and(unknown)}."] if unknown else []
    return " ".join(said)


def summary(sheet: ClassSheet) -> None:
    """Say above the loads whom to speak with; why stands with the member, below."""
    if words := first_words(sheet):
        st.html(f'<p class="plain"><b>{escape(words)}</b> Why stands below the loads.</p>')


def show(sheet: ClassSheet, day: date) -> None:
    """List each member of the class once, in the order of the loads; then what concerns all who lift such loads."""
    with st.expander("Member by member: why these loads", key="coach_reasons", icon=":material/help:"):
        bars = bars_of(sheet)
        pairs = [*(bar.partners for bar in bars if bar.partners), *other_partners(sheet)]
        numbers = {row.member.id: bar.number for bar in bars for row in bar.rows if bar.partners}
        rows = [row for bar in bars for row in bar.rows]
        st.html("".join(_member(row, pairs, numbers.get(row.member.id, 0), day) for row in rows))
        common = dict.fromkeys(each for row in sheet.rows for each in row.cautions if each not in class_print.ABOUT_ONE)
        if common:
            st.html('<p class="over">For all who lift these loads</p>' + "".join(map(_caution, common)))


def _and(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _member(row: ClassRow, pairs: list[Partners], bar: int, day: date) -> str:
    mark = f"{class_print.SPEAK_FIRST} " if class_print.speaks_first(row) else ""
    held = dict.fromkeys(line.held.text for line in row.lines if line.held)
    about = [*held, *(each.text for each in row.cautions if each in class_print.ABOUT_ONE)]
    said = [
        f"<p><b>{escape(mark + row.member.name)}</b>{escape(' speak first: ' + ' '.join(about) if about else '')}</p>"
    ]
    said += [f"<p>Told by {escape(row.member.name)}: {escape(' '.join(row.told.said))}</p>"] if row.told.said else []
    said += _lifts(row, day)
    said += [
        f"<p>{escape(_with(pair, row.member.name, bar))}</p>"
        for pair in pairs
        if row.member.name in (pair.first, pair.second)
    ]
    return f'<div class="class-why">{"".join(said)}</div>'


def _lifts(row: ClassRow, day: date) -> Iterator[str]:
    """Say what each lift is reckoned from, and then each reason once, with the loads that it is of."""
    for lift, lines in groupby(row.lines, key=lambda line: line.planned.lift.title):
        found = list(lines)
        known = dict.fromkeys(
            reference_words(line.reference, line.planned.of_lift or line.planned.lift, day)
            for line in found
            if line.reference
        )
        loads: dict[str, list[str]] = {}
        for line in found:
            for each in _details(line):
                loads.setdefault(each, []).append(str(line.made.load) if line.made else "")
        more = [
            each if len(of) == len(found) or not all(of) else f"{', '.join(dict.fromkeys(of))}: {each}"
            for each, of in loads.items()
        ]
        of_what = "; ".join(known) or ("no max known, by feel" if any(line.missing for line in found) else "by feel")
        yield f"<p>{escape(first_up(lift))}: {escape(of_what)}{'' if more else ', as asked'}</p>"
        yield f"<ul>{''.join(f'<li>{escape(each)}</li>' for each in more)}</ul>" if more else ""


def _details(line: ClassLine) -> tuple[str, ...]:
    unlikely = line.chance is not None and line.chance < LESS_LIKELY
    likely = f"{chance_words(line.chance, line.reps)}." if unlikely else ""
    found = (*(line.why if line.made else ()), line.to_do, likely)
    return tuple(first_up(each) for each in found if each)


def _with(pair: Partners, name: str, bar: int) -> str:
    """Say with whom a bar is shared, and how many discs that moves."""
    other = pair.second if name == pair.first else pair.first
    number = f"Bar {bar}" if bar else "A bar"
    moved = f"{counted(pair.changes, 'disc')} to move in {counted(pair.sets, 'set')}, both sides"
    return f"{number} shared with {other}, {pair.lift}: {moved}"


def _caution(each: Caution) -> str:
    return f'<p class="plain">{escape(each.text)} {escape(each.advice)} <small>({escape(each.basis)})</small></p>'
