"""A piece as plain keys and values, for a file or a log: out, and back in with a clear word about each wrong key."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from decimal import Decimal
from typing import Any, cast

from tracker.conditioning.ladder import Listed, Run, Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.times import parse_time, time_words
from tracker.errors import BadInputError
from tracker.units import Mass, parse_decimal, parse_unit, plain

TIMES = {"cap": "cap_s", "interval": "work_s", "rest": "rest_s"}  # as written, and as kept
PIECE_KEYS = {field.name for field in fields(Piece)} - set(TIMES.values()) - {"tasks"} | set(TIMES) | {"movement"}
TASK_KEYS = {field.name for field in fields(Task)} - {"movement", "run"} | {"name", "first", "step", "reps", "unit"}


def piece_from(record: Mapping[str, Any], *, where: str = "") -> Piece:
    """Read a piece from keys and values; its `movement` is a list of such records.

    Raises:
        BadInputError: for a key that is not known, a value that can't be, or a piece that can't be.
    """
    place = where or str(record.get("title", "piece"))
    _known(record, PIECE_KEYS, place)
    values = {key: value for key, value in record.items() if key not in TIMES and key != "movement"}
    values |= {TIMES[key]: parse_time(str(record[key]), where=f"{place}, {key}") for key in TIMES if key in record}
    tasks = tuple(task_from(each, where=place) for each in cast("list[Mapping[str, Any]]", record.get("movement", [])))
    for key in ("rounds", "intervals", "partners"):
        if key in values:
            values[key] = _whole(values[key], f"{place}, {key}")
    return Piece(**values, tasks=tasks)


def record_of(piece: Piece) -> dict[str, Any]:
    """Return the plain record that `piece_from` reads back to an equal piece."""
    record = {f.name: getattr(piece, f.name) for f in fields(Piece) if getattr(piece, f.name) != f.default}
    record = {key: value for key, value in record.items() if key not in (*TIMES.values(), "tasks")}
    record |= {key: time_words(getattr(piece, kept)) for key, kept in TIMES.items() if getattr(piece, kept)}
    return record | {"movement": [task_record(task) for task in piece.tasks]}


def task_from(record: Mapping[str, Any], *, where: str) -> Task:
    """Read one movement from keys and values."""
    where = f"{where}, {record.get('name', 'movement')}"
    _known(record, TASK_KEYS, where)
    values = {
        key: value for key, value in record.items() if key in TASK_KEYS - {"name", "first", "step", "reps", "unit"}
    }
    if "load" in values:
        values["load"] = Mass(
            parse_decimal(str(record["load"]), where=where), parse_unit(str(record.get("unit", "")), where=where)
        )
    for key in ("height_cm", "target_cm"):
        if key in values:
            values[key] = parse_decimal(str(values[key]), where=where)
    if "implements" in values:
        values["implements"] = _whole(values["implements"], where)
    options = tuple(task_from(option, where=where) for option in values.pop("options", ()))
    return Task(str(record.get("name", "")), _run(record, where), options=options, **values)


def _run(record: Mapping[str, Any], where: str) -> Run:
    if "reps" in record and isinstance(record["reps"], list):
        return Listed(tuple(_whole(each, where) for each in record["reps"]))
    first = record.get("first", record.get("reps", 1))
    return Steady(_whole(first, where), _whole(record.get("step", 0), where))


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
                f"{key!r} is not known here.", where=where, mend=f"Known are {', '.join(sorted(keys))}."
            )


def _whole(value: object, where: str) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise BadInputError(f"{value!r} is not a whole number.", where=where, mend="Write such as 12.")
    return value
