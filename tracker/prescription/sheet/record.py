"""A sheet as one plain document of keys and values."""

from __future__ import annotations

from typing import Any

from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    InReserve,
    Item,
    LiftBlock,
    Of,
    Percent,
    Rpe,
    Session,
    SetGroup,
    Sheet,
    Text,
)
from tracker.prescription.sheet.piece import Piece, piece_record
from tracker.prescription.sheet.words import said_back
from tracker.units import plain  # fmt: skip


def as_json(sheet: Sheet) -> dict[str, Any]:
    """Return all that was understood; what the sheet does not say is left out, days are counted from the first session."""
    return {
        "title": sheet.title,
        "date": sheet.starts.isoformat() if sheet.starts else None,
        "notes": list(sheet.notes),
        "sessions": [_session(each, day) for each, day in zip(sheet.sessions, sheet.offsets, strict=True)],
        "said": list(said_back(sheet)),
    }


def _session(session: Session, days_after_first: int) -> dict[str, Any]:
    return {
        "title": session.title,
        "day": session.day_words,
        "days_after_first": days_after_first,
        "line": session.line,
        "items": [item_record(item) for item in session.items],
    }


def item_record(item: Item) -> dict[str, Any]:
    """Return one item of a session, marked by its kind."""
    if isinstance(item, Text):
        return {"kind": item.kind, "line": item.line, "text": list(item.lines)}
    if isinstance(item, Piece):
        return {"kind": "piece", "line": item.line, "piece": piece_record(item)}
    return {"kind": "lift", "line": item.line} | _lift(item)


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
        sets=[_group(group) for group in lift.sets],
        alternatives=[_alternative(other) for other in lift.alternatives],
        notes=list(lift.notes),
    )


def _group(group: SetGroup | FindMax) -> dict[str, Any]:
    if isinstance(group, FindMax):
        return _given(
            find=f"{group.reps}RM", reps=group.reps, within_s=group.within_s, rest_s=group.rest_s, note=group.note
        )
    reps: Any = group.reps.parts[0] if len(group.reps.parts) == 1 else list(group.reps.parts)
    return _given(
        sets=group.sets, reps=reps, up_to=group.reps.high, or_more=group.reps.out, **_load(group),
        rest_s=group.rest_s, tempo=group.tempo, note=group.note,
    )  # fmt: skip


def _load(group: SetGroup) -> dict[str, Any]:
    load = group.load
    if load is None:
        return {}
    if isinstance(load, Percent):
        return {"percent": float(load.amount), "of": _of(load.of)}
    if isinstance(load, Rpe):
        return {"rpe": float(load.value)}
    if isinstance(load, InReserve):
        return {"in_reserve": float(load.reps)}
    return {"load": plain(load.amount), "unit": load.unit}


def _of(of: Of | None) -> dict[str, Any] | None:
    return None if of is None else _given(reps=of.reps, lift=of.lift)


def _alternative(other: Alternative) -> dict[str, Any]:
    sets = [_group(group) for group in other.sets]
    return _given(lift=other.lift, implement=other.implement, repetitions=other.rule, sets=sets)


def _given(**values: Any) -> dict[str, Any]:
    """Leave out what is not said; a reserve of 0 is said."""
    return {key: value for key, value in values.items() if not (value is None or value is False or value in ("", []))}
