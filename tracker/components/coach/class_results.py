"""The day's results of a class: every lift in one table, every piece like with like."""

from __future__ import annotations

from html import escape

import streamlit as st

from tracker.components.coach.class_choice import ClassChoice
from tracker.components.frame.frame import Here
from tracker.components.frame.words import day_words, first_up, load_words, set_words
from tracker.desk.coach.class_table import ClassTable, LiftLine, LiftTable, LikeGroup, PieceTable, class_table

# A set each: made, missed, cut short, or not begun; told apart by form, not by colour.
MARKS: dict[str, str] = {"done": "●", "missed": "✕", "cut": "◐"}


def show(now: Here, choice: ClassChoice) -> None:
    """Draw what the chosen members did on the day."""
    table = class_table(now.log, choice.member_ids, choice.day)
    st.header(first_up(day_words(choice.day, now.today)))
    if not table.lifts and not table.pieces:
        if table.missing:
            st.html(_missing(table) + _absent(table))
        else:
            st.info("Nothing of these members is known on this day.", icon=":material/info:")
        return
    st.html(_missing(table) + "".join(map(_lift, table.lifts)) + "".join(map(_piece, table.pieces)) + _absent(table))


def _lift(table: LiftTable) -> str:
    rows = "".join(map(_line, table.lines))
    return f'<p class="class-lift">{escape(first_up(table.lift.title))}</p><table class="class-table">{rows}</table>'


def _line(line: LiftLine) -> str:
    marks = "".join(MARKS[row.outcome] * times for times, row in line.sets)
    counts = [f"{line.count('done')} done"]
    counts += [f"{line.count('missed')} missed"] if line.count("missed") else []
    counts += [f"{line.count('cut')} cut short"] if line.count("cut") else []
    best = line.heaviest
    top = f"<b>{escape(load_words(best.load, best.lift))}</b> " if best else ""
    sets = "; ".join(f"{times} sets of {set_words(row)}" if times > 1 else set_words(row) for times, row in line.sets)
    return (
        f'<tr><th scope="row" class="who">{escape(line.member.name)}</th>'
        f'<td>{top}<span role="img" aria-label="{escape(", ".join(counts))}">{marks}</span><small>{escape(sets)}</small></td></tr>'
    )


def _missing(table: ClassTable) -> str:
    """Whose planned session of the day is not all in."""
    if not table.missing:
        return ""
    rows = "".join(
        f'<tr><th scope="row" class="who">{escape(each.member.name)}</th><td>{escape(first_up(each.came))}</td></tr>'
        for each in table.missing
    )
    return f'<p class="class-lift">Still missing</p><table class="class-table">{rows}</table>'


def _piece(table: PieceTable) -> str:
    groups = "".join(_group(group, first=group is table.groups[0]) for group in table.groups)
    return f'<p class="class-lift">{escape(table.title)}</p>{groups}'


def _group(group: LikeGroup, *, first: bool) -> str:
    head = (
        ""
        if first
        else f"<p><small>Not to be compared with those above: {escape('; '.join(group.differs))}</small></p>"
    )
    rows = "".join(
        f'<tr><th scope="row" class="who">{escape(line.member.name)}</th><td><b>{escape(line.said)}</b> '
        f"<small>{escape(' · '.join(each for each in (line.best, line.own, line.where, *line.swaps) if each))}</small></td></tr>"
        for line in group.lines
    )
    return f'{head}<table class="class-table">{rows}</table>'


def _absent(table: ClassTable) -> str:
    told = {each.member.id for each in table.missing}
    free = [each.name for each in table.absent if each.id not in told]
    return f'<p class="plain"><small>No session planned or done: {escape(", ".join(free))}.</small></p>' if free else ""
