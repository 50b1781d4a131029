"""A piece as plain keys and values, for a file or a log: out, and back in with a clear word about each wrong key."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields
from decimal import Decimal
from typing import Any, get_args

from tracker.conditioning.ladder import Listed, Run, Steady
from tracker.conditioning.pieces import KINDS, MEASURES, Piece, ScoredBy, Task
from tracker.conditioning.plain_values import choice, decimal, flag, keyed, listed, place, text, whole
from tracker.conditioning.times import parse_time, time_words
from tracker.errors import BadInputError
from tracker.units import Mass, parse_unit, plain

TIMES = {"cap": "cap_s", "interval": "work_s", "rest": "rest_s"}  # as written, and as kept
PIECE_KEYS = {field.name for field in fields(Piece)} - set(TIMES.values()) - {"tasks"} | set(TIMES) | {"movement"}
MOST_DEPTH = 3  # of alternatives within alternatives
TASK_KEYS = {field.name for field in fields(Task)} - {"movement", "run"} | {"name", "first", "step", "reps", "unit"}

# What each value has to be, by its key; of a value that is not set nothing stands in the record.
_PIECE: dict[str, Callable[[Any, str], Any]] = {
    **dict.fromkeys(("title", "tie_break", "setting", "note"), text),
    "kind": lambda value, where: choice(value, KINDS, where),
    "scored_by": lambda value, where: choice(value, get_args(ScoredBy), where),
    **dict.fromkeys(("rounds", "intervals", "partners"), whole),
    "in_turn": flag,
}
_TASK: dict[str, Callable[[Any, str], Any]] = {
    **dict.fromkeys(("implement", "assistance", "standard"), text),
    "measure": lambda value, where: choice(value, MEASURES, where),
    "implements": whole,
    "per_side": flag,
    **dict.fromkeys(("height_cm", "target_cm"), decimal),
}


def piece_from(record: Mapping[str, Any], *, where: str = "") -> Piece:
    """Read a piece from keys and values; its `movement` is a list of such records.

    Raises:
        BadInputError: for a key that is not known, a value that can't be, or a piece that can't be.
    """
    where = where or place(keyed(record, "piece").get("title", "piece"))
    _known(keyed(record, where), PIECE_KEYS, where)
    values = {key: value for key, value in record.items() if key not in TIMES and key != "movement"}
    values = {key: _PIECE[key](value, f"{where}, {key}") for key, value in values.items()}
    values |= {
        TIMES[key]: parse_time(_time(record[key], f"{where}, {key}"), where=f"{where}, {key}")
        for key in TIMES
        if key in record
    }
    tasks = tuple(task_from(each, where=where) for each in listed(record.get("movement", []), f"{where}, movement"))
    try:
        return Piece(**values, tasks=tasks)
    except TypeError as err:
        raise BadInputError("It has no title or no kind.", where=where, mend="Say both.") from err


def record_of(piece: Piece) -> dict[str, Any]:
    """Return the plain record that `piece_from` reads back to an equal piece."""
    record = {f.name: getattr(piece, f.name) for f in fields(Piece) if getattr(piece, f.name) != f.default}
    record = {key: value for key, value in record.items() if key not in (*TIMES.values(), "tasks")}
    record |= {key: time_words(getattr(piece, kept)) for key, kept in TIMES.items() if getattr(piece, kept)}
    return record | {"movement": [task_record(task) for task in piece.tasks]}


def task_from(record: Mapping[str, Any], *, where: str, depth: int = 0) -> Task:
    """Read one movement from keys and values."""
    where = f"{where}, {place(keyed(record, where).get('name', 'movement'))}"
    _known(record, TASK_KEYS, where)
    values: dict[str, Any] = {key: _TASK[key](record[key], f"{where}, {key}") for key in _TASK if key in record}
    if "load" in record:
        values["load"] = Mass(
            decimal(record["load"], where), parse_unit(text(record.get("unit", ""), where), where=where)
        )
    given = listed(record.get("options", ()), f"{where}, options")
    if given and depth >= MOST_DEPTH:
        raise BadInputError("An alternative has alternatives of its own.", where=where, mend="Leave them out.")
    options = tuple(task_from(option, where=where, depth=depth + 1) for option in given)
    return Task(text(record.get("name", ""), where), _run(record, where), options=options, **values)


def _run(record: Mapping[str, Any], where: str) -> Run:
    if "reps" in record and isinstance(record["reps"], list):
        return Listed(tuple(whole(each, where) for each in listed(record["reps"], where)))
    first = record.get("first", record.get("reps", 1))
    return Steady(whole(first, where), whole(record.get("step", 0), where))


def task_record(task: Task) -> dict[str, Any]:
    """Return the plain record that `task_from` reads back to an equal task."""
    record: dict[str, Any] = {"name": task.movement}
    if isinstance(task.run, Listed):
        record["reps"] = list(task.run.reps)
    else:
        record |= {"first": task.run.first, "step": task.run.step}
    for field in fields(Task)[2:]:
        value = getattr(task, field.name)
        if value == field.default:
            continue
        if isinstance(value, Mass):
            record |= {"load": plain(value.amount), "unit": value.unit}
        elif field.name == "options":
            record["options"] = [task_record(option) for option in value]
        else:
            record[field.name] = plain(value) if isinstance(value, Decimal) else value
    return record


def _known(record: Mapping[str, Any], keys: set[str], where: str) -> None:
    for key in record:
        if key not in keys:
            raise BadInputError(
                f"{key[:40]!a} is not known here.", where=where, mend=f"Known are {', '.join(sorted(keys))}."
            )


def _time(value: object, where: str) -> str:
    """Return a time as it is written; whole seconds may stand as a number."""
    return text(value, where)[:40] if isinstance(value, str) else str(whole(value, where))
