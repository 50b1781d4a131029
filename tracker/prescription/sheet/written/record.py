"""A sheet as one plain document of keys and values."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING, Any

from tracker.conditioning.times import time_words
from tracker.prescription.sheet.asks import Ask
from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    InReserve,
    Item,
    LiftBlock,
    MassRange,
    Of,
    Percent,
    Rpe,
    Session,
    SetGroup,
    Sheet,
    Text,
)
from tracker.prescription.sheet.piece import Count, Movement, Pair, PieceBlock
from tracker.prescription.sheet.written.said_back import said_back
from tracker.units import plain  # fmt: skip

if TYPE_CHECKING:
    from collections.abc import Sequence


def as_json(sheet: Sheet, asks: Sequence[Ask] = ()) -> dict[str, Any]:
    """Return all that was understood; what the sheet does not say is left out, days are counted from the first session."""
    return {
        "title": sheet.title,
        "date": sheet.starts.isoformat() if sheet.starts else None,
        "notes": list(sheet.notes),
        "sessions": [_session(each, day) for each, day in zip(sheet.sessions, sheet.offsets, strict=True)],
        "asks": [ask_record(each) for each in asks],
        "said": list(said_back(sheet)),
    }


def ask_record(ask: Ask) -> dict[str, Any]:
    """Return what can be read in two ways; `key` and the codes of `choices` are what an answer is kept by."""
    return {
        "line": ask.line, "lines": list(ask.lines), "text": ask.text, "question": ask.question, "taken": ask.taken.words,
        "others": [each.words for each in ask.others], "key": ask.key,
        "choices": {each.code: each.words for each in (ask.taken, *ask.others)},
    }  # fmt: skip


def _session(session: Session, days_after_first: int) -> dict[str, Any]:
    return {
        "title": session.title,
        "day": session.day_words,
        "days_after_first": days_after_first,
        "line": session.line,
        "items": [item_record(item) for item in session.items],
    }


def item_record(item: Item) -> dict[str, Any]:
    """Return one item of a session, marked by its kind, with its lines as they were typed."""
    if isinstance(item, Text):
        return {"kind": item.kind, "line": item.line, "text": list(item.lines)}
    if isinstance(item, PieceBlock):
        return {"kind": "piece", "line": item.line, "text": list(item.text), "piece": _piece(item)}
    return {"kind": "lift", "line": item.line, "text": list(item.text)} | _lift(item)


def _piece(piece: PieceBlock) -> dict[str, Any]:
    """Return a piece's record with what follows from it: the length of a clock, the rounds of a list, the time of each of several."""
    record = piece_record(piece)
    lists = {len(each["reps"]) for each in record["movement"] if "reps" in each}
    if "rounds" not in record and len(lists) == 1 and piece.kind == "for time":
        record["rounds"] = lists.pop()
    if piece.kind == "every minute" and piece.cap_s is None and piece.work_s and piece.intervals:
        record["cap"] = time_words(piece.work_s * piece.intervals)
    if piece.kind == "as many as possible" and piece.work_s is None and piece.cap_s and (piece.intervals or 0) > 1:
        record["interval"] = time_words(piece.cap_s)
    return record


def piece_record(piece: PieceBlock) -> dict[str, Any]:
    """Return the piece as keys and values: times as 8:41, loads as text with their unit.

    What the sheet does not say is left out; with `each_side` an amount is for each side. A pair of amounts is `sides`, a pair of loads a list, the larger first.
    """
    times = {"cap": piece.cap_s, "interval": piece.work_s, "rest": piece.rest_s or None}
    values: dict[str, Any] = {
        "rounds": piece.rounds_done, "intervals": piece.intervals, "in_turn": piece.in_turn, "scored_by": piece.scored_by,
        "tie_break": piece.tie_break, "partners": piece.partners, "setting": piece.setting, "note": "\n".join(piece.notes),
    }  # fmt: skip
    usual = {"scored_by": "total", "partners": 1}
    record: dict[str, Any] = {"title": piece.title, "kind": piece.kind}
    record |= {key: time_words(seconds) for key, seconds in times.items() if seconds}
    record |= {key: value for key, value in values.items() if value and value != usual.get(key)}
    return record | {"movement": [_movement(each, piece.count_of(each)) for each in piece.movements]}


def _movement(movement: Movement, count: Count | None) -> dict[str, Any]:
    record: dict[str, Any] = {"name": movement.name}
    if count is not None and count.listed:
        record["reps"] = list(count.reps)
    elif count is not None:
        record |= {"first": count.reps[0], "step": count.step}
    if movement.sides is not None:
        record["sides"] = list(movement.sides)
    if isinstance(movement.load, Pair):
        both = (movement.load.larger, movement.load.smaller)
        record |= {"load": [plain(each.amount) for each in both], "unit": movement.load.larger.unit}
    elif movement.load is not None:
        record |= {"load": plain(movement.load.amount), "unit": movement.load.unit}
    heights = [float(each) for each in movement.heights_cm] if movement.heights_cm else None
    values: dict[str, Any] = {
        "measure": movement.measure if movement.measure != "reps" else "", "implement": movement.implement,
        "implements": movement.implements if movement.implements > 1 else 0,
        "each_side": movement.each_side, "height_cm": heights or (None if movement.height_cm is None else plain(movement.height_cm)),
        "target_cm": None if movement.target_cm is None else plain(movement.target_cm),
        "assistance": movement.assistance, "standard": movement.standard, "most": movement.most, "part": movement.part,
        "when": movement.when, "options": [_movement(each, each.count) for each in movement.options],
    }  # fmt: skip
    return record | {key: value for key, value in values.items() if value}


def _lift(lift: LiftBlock) -> dict[str, Any]:
    return _given(
        lift=lift.name,
        implement=lift.implement,
        complex=list(lift.names) if len(lift.names) > 1 else None,
        of=_of(lift.of),
        each_side=lift.each_side,
        superset=lift.joined,
        rest_s=lift.rest_s,
        tempo=lift.tempo,
        every_s=lift.every_s,
        sets=[_group(group) for group in lift.sets],
        alternatives=[_alternative(other) for other in lift.alternatives],
        notes=list(lift.notes),
    )


def _group(group: SetGroup | FindMax) -> dict[str, Any]:
    if isinstance(group, FindMax):
        find = f"heavy {group.reps}" if group.heavy else f"{group.reps}RM"
        return _given(find=find, reps=group.reps, within_s=group.within_s, rest_s=group.rest_s, note=group.note)
    parts = group.reps.parts
    reps: Any = None if not parts else parts[0] if len(parts) == 1 else list(parts)
    return _given(
        sets=group.sets, reps=reps, up_to=group.reps.high, or_more=group.reps.out, **{**_load(group.effort), **_load(group.load)},
        rest_s=group.rest_s, tempo=group.tempo, note=group.note,
    )  # fmt: skip


def _load(load: Any) -> dict[str, Any]:
    if isinstance(load, Percent):
        return {"percent": _span(load.amount, load.high), "of": _of(load.of)}
    if isinstance(load, Rpe):
        return {"rpe": _span(load.value, load.high)}
    if isinstance(load, InReserve):
        return {"in_reserve": _span(load.reps, load.high)}
    if isinstance(load, Pair):
        return {"load": [plain(load.larger.amount), plain(load.smaller.amount)], "unit": load.larger.unit}
    if isinstance(load, MassRange):
        return {"load": plain(load.low.amount), "load_up_to": plain(load.high.amount), "unit": load.low.unit}
    return {} if load is None else {"load": plain(load.amount), "unit": load.unit}


def _span(low: Decimal, high: Decimal | None) -> float | list[float]:
    return float(low) if high is None else [float(low), float(high)]


def _of(of: Of | None) -> dict[str, Any] | None:
    if of is None:
        return None
    return _given(
        reps=of.reps, lift=of.lift, percent=float(of.percent) if of.percent is not None else None, heavy=of.heavy
    )


def _alternative(other: Alternative) -> dict[str, Any]:
    sets = [_group(group) for group in other.sets]
    return _given(lift=other.lift, implement=other.implement, repetitions=other.rule, when=other.when, sets=sets)


def _given(**values: Any) -> dict[str, Any]:
    """Leave out what is not said; a reserve of 0 is said."""
    return {key: value for key, value in values.items() if not (value is None or value is False or value in ("", []))}
