"""A session as members will see it: its words, lifts with their sets, pieces, and the other ways to do them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from decimal import Decimal
from html import escape

from tracker.components.frame.words import first_up, full_day
from tracker.components.sheet.sheet_lines import implement_said, movement_words, of_said
from tracker.conditioning.times import time_words
from tracker.prescription.sheet.model import (
    WEEKDAYS,
    Alternative,
    FindMax,
    InReserve,
    Item,
    LiftBlock,
    Load,
    MassRange,
    Percent,
    Reps,
    Rpe,
    Session,
    SetGroup,
    Text,
)
from tracker.prescription.sheet.piece import Movement, Pair, PieceBlock
from tracker.prescription.sheet.written.printing import kind_line
from tracker.prescription.sheet.written.said_back import of_words
from tracker.units import plain
from tracker.wording import counted

_UNIT = re.compile(r"(\d) (%|kg\b|lb\b|cm\b|m\b|s\b|cal\b)")  # a number stays with its unit


def day_of(session: Session) -> str:
    """Say the day of a session and what it is called; empty where the sheet says neither."""
    day = f"{WEEKDAYS[session.on.weekday()]} {full_day(session.on)}" if session.on else session.day_words
    return ": ".join(first_up(part) for part in (day, session.title) if part)


def contents(session: Session) -> str:
    """Say what is in a session in a few words: its lifts and pieces by name."""
    names = [item.name for item in session.items if isinstance(item, LiftBlock)]
    names += [item.title or kind_line(item) for item in session.items if isinstance(item, PieceBlock)]
    return first_up(", ".join(names)) or "The coach's words"


def item_html(item: Item) -> str:
    """Draw one thing of a session as HTML."""
    if isinstance(item, Text):
        return _text(item)
    return _piece(item) if isinstance(item, PieceBlock) else _lift(item)


def any_taken(session: Session) -> bool:
    """Whether something stands in a session that the sheet does not say."""
    return 'class="sheet-taken"' in "".join(map(item_html, session.items))


def with_units(text: str) -> str:
    """Escape a text, and keep each number on one line with its unit."""
    return _UNIT.sub("\\1\u00a0\\2", escape(text))


def _text(text: Text) -> str:
    head = "" if text.kind == "note" else f"<b>{text.kind.capitalize()}</b> "
    return f'<p class="plan-words">{head}{"<br>".join(map(with_units, text.lines))}</p>'


def _lift(lift: LiftBlock) -> str:
    marks = [] if lift.implement == "unasked" else [_taken(lift.implement, not implement_said(lift))]
    marks += ["each side"] if lift.each_side else []
    marks += [f"a set every {time_words(lift.every_s)}"] if lift.every_s else []
    marks += [f"rest {time_words(lift.rest_s)}"] if lift.rest_s else []
    marks += [f"tempo {escape(lift.tempo)}"] if lift.tempo else []
    turn = '<span class="plan-turn">in turn with</span> ' if lift.joined else ""
    rows = "".join(_sets(group, lift) for group in lift.sets)
    below = "".join(f'<p class="plan-or">{with_units(_other(each, lift))}</p>' for each in lift.alternatives)
    below += "".join(f'<p class="plan-note">{with_units(note)}</p>' for note in lift.notes)
    head = f"<h3>{turn}{with_units(first_up(lift.name))}<small>{', '.join(marks)}</small></h3>"
    return f'<div class="plan-part">{head}<table class="plan-sets">{rows}</table>{below}</div>'


def _taken(words: str, taken: bool) -> str:
    return f'<span class="sheet-taken">{with_units(words)}</span>' if taken else with_units(words)


def _sets(group: SetGroup | FindMax, lift: LiftBlock) -> str:
    small = [f"rest {time_words(group.rest_s)}"] if group.rest_s else []
    if isinstance(group, FindMax):
        many, load = ("Heavy", f"{group.reps} for today") if group.heavy else ("Test", f"your {group.reps}RM")
        small += [f"within {time_words(group.within_s)}"] if group.within_s else []
        small += ["build up, no test"] if group.heavy else []
        load = escape(load)
    else:
        many, load = _many(group), _load(group, lift)
        small += [f"tempo {group.tempo}"] if group.tempo else []
    small += [first_up(group.note)] if group.note else []
    beside = f"<small>{with_units(' · '.join(small))}</small>" if small else ""
    return f'<tr><th scope="row">{many}</th><td>{load}{beside}</td></tr>'


def _many(group: SetGroup) -> str:
    return (
        f"{group.sets}\u00a0×\u00a0{_reps(group.reps)}"
        if group.reps.parts or group.reps.out
        else counted(group.sets, "set")
    )


def _reps(reps: Reps) -> str:
    if not reps.parts:
        return "max"
    said = "\u2009+\u2009".join(map(str, reps.parts))
    return f"{said}\u2013{reps.high}" if reps.high else f"{said}{'+' if reps.out else ''}"


def _load(group: SetGroup, lift: LiftBlock) -> str:
    load = group.load
    effort = f", {_effort(group.effort)}" if group.effort is not None else ""
    if load is None:
        return escape(effort.removeprefix(", ") or "by feel")
    if isinstance(load, Percent):
        of = load.of or lift.of
        share = f" {_taken(f'of {of_words(of)}', not of_said(lift))}" if of else ""
        return f"{_span(load.amount, load.high)}\u00a0%{share}{escape(effort)}"
    return with_units(_load_words(load) + effort)


def _load_words(load: Load) -> str:
    if isinstance(load, Rpe | InReserve):
        return _effort(load)
    if isinstance(load, MassRange):
        return f"{plain(load.low.amount)} to {load.high}"
    return f"{load}, your side of it" if isinstance(load, Pair) else str(load)


def _effort(load: Rpe | InReserve) -> str:
    return f"RPE {_span(load.value, load.high)}" if isinstance(load, Rpe) else f"leave {_span(load.reps, load.high)}"


def _span(low: Decimal, high: Decimal | None) -> str:
    return plain(low) if high is None else f"{plain(low)}\u2013{plain(high)}"


def _other(other: Alternative, lift: LiftBlock) -> str:
    what = f"{other.lift}, {other.implement}" if other.lift else f"with {other.implement}"
    when = f"{other.when}: " if other.when else "or "
    if other.rule == "own":
        sets = "; ".join(map(_own_sets, other.sets))
        return f"{when}{what}, {sets}"
    return f"{when}{what}, " + ("twice the repetitions" if other.rule == "doubled" else "the same repetitions")


def _own_sets(group: SetGroup | FindMax) -> str:
    if isinstance(group, FindMax):
        return f"{'heavy' if group.heavy else 'test of the'} {group.reps}{'' if group.heavy else 'RM'}"
    load = group.load
    if isinstance(load, Percent):
        return f"{_many(group)} at {_span(load.amount, load.high)} %"
    return _many(group) + (f" at {_load_words(load)}" if load is not None else "")


def _piece(piece: PieceBlock) -> str:
    rows = "".join(map(_movement, piece.movements))
    kind = first_up(kind_line(piece))
    head = (
        f"<h3>{with_units(first_up(piece.title))}<small>{with_units(kind)}</small></h3>"
        if piece.title
        else f"<h3>{with_units(kind)}</h3>"
    )
    notes = "".join(f'<p class="plan-note">{with_units(note)}</p>' for note in piece.notes)
    listed = f'<ul class="plan-moves">{rows}</ul>' if rows else ""
    return f'<div class="plan-part">{head}{listed}{notes}</div>'


def _movement(movement: Movement) -> str:
    options = "".join(f'<span class="plan-or">{with_units(each)}</span>' for each in _options(movement))
    return f"<li>{with_units(movement_words(movement))}{options}</li>"


def _options(movement: Movement) -> Iterator[str]:
    for option in movement.options:
        words = movement_words(option)
        yield words if option.when else f"or {words}"
