"""A sheet said back in plain words, so that the coach sees what was understood."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from tracker.conditioning.times import time_words
from tracker.prescription.sheet.asks import Ask
from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    InReserve,
    Item,
    LiftBlock,
    Load,
    MassRange,
    Of,
    Percent,
    Reps,
    Rpe,
    SetGroup,
    Sheet,
    Text,
)
from tracker.prescription.sheet.piece import Movement, Pair, PieceBlock
from tracker.prescription.sheet.written.printing import kind_line, movement_line
from tracker.units import plain  # fmt: skip


def said_back(sheet: Sheet) -> tuple[str, ...]:
    """Say a sheet in sentences, one for each thing in it."""
    return tuple(_said(sheet))


def _said(sheet: Sheet) -> Iterator[str]:
    if sheet.title:
        yield (
            f"{sheet.title}, {_many(len(sheet.sessions), 'session')}"
            + (f", from {sheet.starts}" if sheet.starts else "")
            + "."
        )
    yield from sheet.notes
    for session in sheet.sessions:
        if session.day_words or session.title:
            yield ": ".join(part for part in (_capital(session.day_words), session.title) if part) + "."
        for item in session.items:
            yield from item_words(item)


def item_words(item: Item) -> Iterator[str]:
    """Say one item of a session."""
    if isinstance(item, Text):
        head = "" if item.kind == "note" else f"{item.kind.capitalize()}: "
        yield head + " / ".join(item.lines)
    elif isinstance(item, PieceBlock):
        yield piece_words(item)
    else:
        yield from lift_words(item)


def lift_words(lift: LiftBlock) -> Iterator[str]:
    """Say a lift: its sets, then its alternatives and notes."""
    turn = "in turn with the lift above, " if lift.joined else ""
    side = ", on each side" if lift.each_side else ""
    sets = "; ".join(group_words(group, lift.of, lift) for group in lift.sets)
    yield (
        f"{turn}{lift.name}, {lift.implement}{side}: {sets}."[:1].upper()
        + f"{turn}{lift.name}, {lift.implement}{side}: {sets}."[1:]
    )
    yield from (f"Otherwise {alternative_words(other, lift)}." for other in lift.alternatives)
    yield from lift.notes


def ask_words(ask: Ask) -> str:
    """Say what can be read in two ways, and which reading was taken."""
    where = f"Line {ask.line}" if len(ask.lines) < 2 else f"Lines {', '.join(str(each) for each in ask.lines)}"
    others = ", or ".join(each.words for each in ask.others)
    return f"{where}: {ask.question} Taken: {ask.taken.words}. It could be {others}."


def group_words(group: SetGroup | FindMax, of: Of | None, lift: LiftBlock | None = None) -> str:
    """Say sets: 3 sets of 5 repetitions at 80 % of your 3RM, 3:00 rest."""
    rest_s = group.rest_s or (lift.rest_s if lift else None)
    rest = f", {time_words(rest_s)} rest" if rest_s else ""
    note = f" ({group.note})" if group.note else ""
    if isinstance(group, FindMax):
        within = f" within {time_words(group.within_s)}" if group.within_s else ""
        if group.heavy:
            return f"build up to a heavy set of {_many(group.reps, 'repetition')}, heavy for today and no test{within}{rest}{note}"
        return f"a test: find the most load for {_many(group.reps, 'repetition')}{within}{rest}{note}"
    tempo = group.tempo or (lift.tempo if lift else "")
    at = _load_words(group, of)
    return (
        f"{_many(group.sets, 'set')} of {reps_words(group.reps)}{at}{f', tempo {tempo}' if tempo else ''}{rest}{note}"
    )


def reps_words(reps: Reps) -> str:
    if not reps.parts:
        return "as many repetitions as there are" if reps.out else "so many repetitions as you were told"
    if reps.out:
        return f"{reps.total} or more repetitions, as many as there are"
    if reps.high:
        return f"{reps.parts[0]} to {reps.high} repetitions"
    return " + ".join(str(part) for part in reps.parts) + f" repetition{'' if reps.parts == (1,) else 's'}"


def _load_words(group: SetGroup, of: Of | None) -> str:
    effort = f", {_effort_words(group.effort).strip()}" if group.effort is not None else ""
    if group.load is None:
        return " by feel" + effort
    return f" {load_words(group.load, of)}{effort}"


def load_words(load: Load, of: Of | None) -> str:
    """Say a load: at 70 to 75 % of your 3RM, at RPE 8, at 60 kg."""
    if isinstance(load, Percent):
        known = load.of or of
        return f"at {_span(load.amount, load.high)} %" + (f" of {of_words(known)}" if known else "")
    if isinstance(load, Rpe | InReserve):
        return _effort_words(load).strip()
    if isinstance(load, MassRange):
        return f"at {plain(load.low.amount)} to {load.high}"
    return f"at {load}, your side of it" if isinstance(load, Pair) else f"at {load}"


def _effort_words(load: Rpe | InReserve) -> str:
    if isinstance(load, Rpe):
        return f" at RPE {_span(load.value, load.high)}"
    if load.high is not None:
        return f" with {_span(load.reps, load.high)} repetitions left in reserve"
    return f" with {_amount(load.reps)} left in reserve"


def _span(low: Decimal, high: Decimal | None) -> str:
    return plain(low) if high is None else f"{plain(low)} to {plain(high)}"


def of_words(of: Of) -> str:
    """Say what a percentage is of: your 3RM, your 1RM clean, a training max of 90 % of your 1RM, today's heavy 3."""
    if of.heavy:
        return f"today's heavy {of.reps}"
    own = f"your {of.reps}RM {of.lift}".rstrip()
    return own if of.percent is None else f"a training max of {plain(of.percent)} % of {own}"


def alternative_words(other: Alternative, lift: LiftBlock) -> str:
    """Say an alternative: with dumbbells, twice the repetitions."""
    what = f"{other.lift}, {other.implement}" if other.lift else f"with {other.implement}"
    if other.rule == "own":
        return f"{what}: " + "; ".join(group_words(group, lift.of) for group in other.sets)
    return f"{what}, " + ("twice the repetitions" if other.rule == "doubled" else "the same repetitions")


def piece_words(piece: PieceBlock) -> str:
    """Say a piece: how it is done, then its movements with the coach's options."""
    movements = "; ".join(_movement_words(each) for each in piece.movements)
    notes = " / ".join(piece.notes)
    head = ", ".join(part for part in (piece.title, kind_line(piece)) if part)
    return head[:1].upper() + head[1:] + (f": {movements}." if movements else ".") + (f" {notes}" if notes else "")


def _movement_words(movement: Movement) -> str:
    options = ", or ".join(movement_line(each) for each in movement.options)
    return movement_line(movement) + (f" (or {options})" if options else "")


def _many(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"


def _amount(value: Decimal) -> str:
    return f"{plain(value)} repetition{'' if value == 1 else 's'}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
