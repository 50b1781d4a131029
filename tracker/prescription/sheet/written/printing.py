"""Writes a sheet as text that reads back to the same sheet."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from tracker.conditioning.times import time_words
from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    InReserve,
    Item,
    LiftBlock,
    MassRange,
    Of,
    Percent,
    Reps,
    Rpe,
    Session,
    SetGroup,
    Sheet,
    Text,
)
from tracker.prescription.sheet.piece import Count, Movement, PieceBlock
from tracker.units import plain  # fmt: skip

KIND_WORDS = {
    "as many as possible": "as many reps as possible in {}", "for time": "for time", "distance": "as far as possible in {}",
    "calories": "as many calories as possible in {}", "heaviest": "the heaviest load in {}", "unscored": "not scored",
}  # fmt: skip
OPEN_WORDS = {
    "as many as possible": "AMRAP",
    "distance": "max distance",
    "calories": "max calories",
    "heaviest": "the heaviest load",
}
SCORED_WORDS = {"lowest": "lowest counts", "completed": "finished counts"}

MANY = 10  # sets: of more the word is written, so that nobody takes their number for repetitions


def print_sheet(sheet: Sheet) -> str:
    """Write a sheet in the plainest form."""
    head = [f"Title: {sheet.title}"] if sheet.title else []
    head += [f"Date: {sheet.starts}"] if sheet.starts else []
    head += [f"Note: {note}" for note in sheet.notes]
    blocks = ["\n".join(head)] if head else []
    for session in sheet.sessions:
        blocks += _session(session)
    return "\n\n".join(blocks) + "\n"


def _session(session: Session) -> list[str]:
    title = f": {session.title}" if session.title else ""
    day = f"On {session.on}" if session.on is not None else session.day_words[:1].upper() + session.day_words[1:]
    heading = [day + title] if day else [session.title] if session.title else []
    return heading + ["\n".join(_item(item)) for item in session.items]


def _item(item: Item) -> Iterator[str]:
    if isinstance(item, Text):
        yield from (f"{item.kind.capitalize()}: {line}" for line in item.lines)
    elif isinstance(item, PieceBlock):
        yield from _piece(item)
    else:
        yield from _lift(item)


def _lift(lift: LiftBlock) -> Iterator[str]:
    parts = [lift.name, lift.implement, f"% of {of_words(lift.of)}" if lift.of else ""]
    parts += ["each side" if lift.each_side else "", *_pause(lift.rest_s, lift.tempo)]
    parts += [f"every {time_words(lift.every_s)}"] if lift.every_s else []
    yield ("superset with " if lift.joined else "") + ", ".join(part for part in parts if part)
    yield from (set_line(group) for group in lift.sets)
    yield from (_alternative(other) for other in lift.alternatives)
    yield from (f"Note: {note}" for note in lift.notes)


def _pause(rest_s: int | None, tempo: str) -> list[str]:
    return [*([f"rest {time_words(rest_s)}"] if rest_s else []), *([f"tempo {tempo}"] if tempo else [])]


def of_words(of: Of) -> str:
    if of.heavy:
        return f"today's heavy {of.reps}"
    share = f"{plain(of.percent)} % training max of " if of.percent is not None else ""
    return f"{share}{of.reps}RM {of.lift}".strip()


def set_line(group: SetGroup | FindMax) -> str:
    """Write sets as `3 x 5 @ 80 %, rest 3:00 (stay tall)`."""
    if isinstance(group, FindMax):
        what = f"build to a heavy {group.reps}" if group.heavy else f"find a {group.reps}RM"
        parts = [what + (f" in {time_words(group.within_s)}" if group.within_s else "")]
        parts += _pause(group.rest_s, "")
    else:
        bare = not group.reps.parts and not group.reps.out
        joint = (
            "sets of" if group.sets > MANY and len(group.reps.parts) == 1 else "x"
        )  # many sets of few are asked about
        sets = (
            f"{group.sets} set{'' if group.sets == 1 else 's'}" if bare else f"{group.sets} {joint} {_reps(group.reps)}"
        )
        parts = [sets + _load(group), *_pause(group.rest_s, group.tempo)]
    return ", ".join(parts) + (f" ({group.note})" if group.note else "")


def _reps(reps: Reps) -> str:
    if not reps.parts:
        return "max"
    text = " + ".join(str(part) for part in reps.parts)
    return f"{text} to {reps.high}" if reps.high else text + ("+" if reps.out else "")


def _load(group: SetGroup) -> str:
    load = group.load
    if load is None:
        return ""
    if isinstance(load, Percent):
        effort = f" {_effort(group.effort)}" if group.effort else ""
        return f" @ {_span(load.amount, load.high)} %" + (f" of {of_words(load.of)}" if load.of else "") + effort
    if isinstance(load, Rpe | InReserve):
        return f" @ {_effort(load)}"
    if isinstance(load, MassRange):
        return f" @ {plain(load.low.amount)}-{load.high}"
    return f" @ {load}" + (f" {_effort(group.effort)}" if group.effort else "")


def _span(low: Decimal, high: Decimal | None) -> str:
    return plain(low) if high is None else f"{plain(low)}-{plain(high)}"


def _effort(load: Rpe | InReserve) -> str:
    return (
        f"RPE {_span(load.value, load.high)}" if isinstance(load, Rpe) else f"{_span(load.reps, load.high)} in reserve"
    )


def _alternative(other: Alternative) -> str:
    when = f"{other.when} - " if other.when else ""
    what = f"or {when}{other.lift}, {other.implement}" if other.lift else f"or {when}{other.implement}"
    if other.rule == "own":
        return f"{what}: {'; '.join(set_line(group) for group in other.sets)}"
    return f"{what}, {'twice' if other.rule == 'doubled' else 'the same'}{' the' if other.rule == 'doubled' else ''} repetitions"


def _piece(piece: PieceBlock) -> Iterator[str]:
    yield f"Piece: {piece.title}".rstrip()
    yield kind_line(piece)
    for movement in piece.movements:
        yield movement_line(movement)
        yield from (f"or {movement_line(option)}" for option in movement.options)
    yield from (f"Note: {note}" for note in piece.notes)


def kind_line(piece: PieceBlock) -> str:
    """Write how a piece is done: `4 rounds, for time, cap 14:00`."""
    rounds = [f"{piece.rounds} rounds"] if piece.rounds else []
    timed = piece.kind in ("as many as possible", "distance", "calories", "heaviest")
    rest = f"{time_words(piece.rest_s)} rest" if piece.rest_s else ""
    options = [
        f"{piece.intervals} times" if piece.kind == "every minute" and piece.intervals else "",
        rest if piece.kind == "work and rest" else "",
        f"cap {time_words(piece.cap_s)}" if piece.cap_s and not timed and piece.kind != "unscored" else "",
        f"for {time_words(piece.cap_s)}" if piece.kind == "unscored" and piece.cap_s else "",
        f"rest {time_words(piece.rest_s)}" if rest and piece.kind != "work and rest" else "",
        f"{piece.intervals} rounds" if piece.intervals and piece.kind not in ("every minute", "work and rest") else "",
        _scheme(piece.scheme) if piece.scheme else "",
        "in turn" if piece.in_turn else "",
        SCORED_WORDS.get(piece.scored_by, ""),
        f"tie-break after {piece.tie_break}" if piece.tie_break else "",
        f"{piece.partners} partners" if piece.partners > 1 else "",
        piece.setting,
    ]
    return ", ".join([*rounds, _kind(piece), *(option for option in options if option)])


def _kind(piece: PieceBlock) -> str:
    if piece.kind == "every minute":
        return f"every {time_words(piece.work_s or 60)}"
    if piece.kind == "work and rest":
        work = f"{time_words(piece.work_s)} work" if piece.work_s else "intervals"
        return (f"{piece.intervals} x " if piece.intervals else "") + work
    words = KIND_WORDS[piece.kind]
    if "{}" not in words:
        return words
    return words.format(time_words(piece.cap_s)) if piece.cap_s else OPEN_WORDS[piece.kind]


def _scheme(count: Count) -> str:
    return str(count) if count.listed or count.step else f"{count} of each"


def movement_line(movement: Movement) -> str:
    """Write a movement: `12 wall ball, 9/6 kg ball, to 300 cm`; an option begins with whom it is for."""
    before = f"{movement.part}: " if movement.part else f"{movement.when}: " if movement.when else ""
    load = (
        f"{f'{movement.implements} x ' if movement.implements > 1 else ''}{movement.load} {movement.implement}".strip()
    )
    heights = movement.heights_cm
    counted = movement.count is not None or movement.sides is not None or movement.most
    marks = [
        "" if counted else {"m": "in metres", "cal": "in calories", "s": "in seconds"}.get(movement.measure, ""),
        load if movement.load else "",
        "each side" if movement.each_side else "",
        f"{plain(movement.height_cm)} cm high" if movement.height_cm else "",
        f"{plain(heights[0])}/{plain(heights[1])} cm high" if heights else "",
        f"to {plain(movement.target_cm)} cm" if movement.target_cm else "",
        f"with {movement.assistance}" if movement.assistance else "",
        movement.standard,
    ]
    return before + ", ".join([_count(movement) + movement.name, *(mark for mark in marks if mark)])


def _count(movement: Movement) -> str:
    unit = {"reps": "", "cal": " cal", "m": " m", "s": " s"}[movement.measure]
    if movement.sides is not None:
        return f"{movement.sides[0]}/{movement.sides[1]}{unit} "
    if movement.most:
        return f"max{unit} "
    return f"{movement.count}{unit} " if movement.count else ""
