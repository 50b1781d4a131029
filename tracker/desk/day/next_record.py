"""What is next as plain values: for the command line, and for any page that knows no Python."""

from __future__ import annotations

from typing import Any

from tracker.desk.day.line_words import asked, made_of, part_of
from tracker.desk.day.lines import PlannedLine, chance_words
from tracker.desk.day.next import Next, Planned
from tracker.desk.day.pieces_here import PieceHere
from tracker.desk.maxes.words import first_up, load_words
from tracker.units import plain

Record = dict[str, Any]


def next_record(found: Next) -> Record:
    """Return a next thing and all that stands beside it: text, whole numbers, decimals as text, dates as ISO 8601."""
    warm_up = found.warm_up
    session = found.plan.session
    return {
        "member": found.plan.member.name,
        "day": found.day.isoformat(),
        "next": found.kind,
        "title": found.title,
        "words": found.words,
        "session": _planned(found.session),
        "warm_up": warm_up and {"lines": list(warm_up.lines), "done": warm_up.done, "left_out": warm_up.left_out},
        "ramp": [{"reps": each.reps, "load": plain(each.load.amount), "unit": each.load.unit} for each in found.ramp],
        "set": found.line and _set(found, found.line),
        "rest": found.rest_ends and {"seconds": found.rest_s, "ends": found.rest_ends.isoformat()},
        "piece": found.piece and found.piece.piece_id,
        "pieces": [_piece(each) for each in found.pieces],
        "rating": {"rating": session.rating if session else None, "asked": found.kind == "rating"},
        "then": [{"next": each.kind, "title": each.title, "words": each.words} for each in found.then],
        "planned": _planned(found.planned),
        "missed": [_planned(each) for each in found.missed],
    }


def _planned(session: Planned | None) -> Record | None:
    if session is None:
        return None
    return {"id": session.step_id, "title": session.title, "day": session.due.isoformat(), "words": session.words}


def _set(found: Next, line: PlannedLine) -> Record:
    load = line.made.load if line.made else None
    return {
        "key": line.key,
        "which": found.which,
        "lift": line.lift.title,
        "reps": line.reps,
        "load": plain(load.amount) if load else None,
        "unit": load.unit if load else None,
        "asked": first_up(asked(line)),
        "load_words": load_words(load, line.lift) if load else "",
        "made_of": made_of(line, ""),
        "chance": None if line.chance is None else round(line.chance, 3),
        "chance_words": chance_words(line.chance, line.reps),
        "part_of": part_of(line, found.day),
        "notes": list(line.notes),
        "test": line.planned.test,
        "rep_out": line.planned.rep_out,
    }


def _piece(piece: PieceHere) -> Record:
    return {
        "id": piece.piece_id,
        "title": piece.title,
        "words": piece.words,
        "scheme": piece.scheme,
        "movements": [{"words": each.words, "options": list(each.options)} for each in piece.movements],
        "notes": list(piece.notes),
        "asks_side": list(piece.asks_side),
        "yours": piece.yours,
        "partners": piece.partners,
        "score": piece.score,
        "done": piece.done,
    }
