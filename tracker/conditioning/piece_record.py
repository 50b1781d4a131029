"""A piece as plain keys and values, for a file or a log: out, and back in with a clear word about each wrong key."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, replace
from decimal import Decimal
from typing import Any, cast

from tracker.conditioning.ladder import Listed, Run, Steady
from tracker.conditioning.pieces import ONCE, Piece, Task, in_order
from tracker.conditioning.times import parse_time, time_words
from tracker.errors import BadInputError
from tracker.units import Mass, parse_decimal, parse_unit, plain

MOST_TITLE = 60  # letters of a name that is made
TIMES = {"cap": "cap_s", "interval": "work_s", "rest": "rest_s"}  # as written, and as kept
PIECE_KEYS = {field.name for field in fields(Piece)} - set(TIMES.values()) - {"tasks"} | set(TIMES) | {"movement"}
AMOUNTS = {"first", "step", "reps", "sides", "most"}
TASK_KEYS = {field.name for field in fields(Task)} - {"movement", "run"} | {"name", "unit", "each_side"} | AMOUNTS
OWN_KEYS = {"name", "first", "step", "reps", "unit", "sides", "each_side"}  # read by themselves below
CM = ("height_cm", "target_cm")


def piece_from(record: Mapping[str, Any], *, where: str = "") -> Piece:
    """Read a piece from keys and values; its `movement` is a list of such records, put into the order of their parts.

    A pair of amounts is `sides`, a pair of loads or heights a list of two; both are kept with the larger first.

    Raises:
        BadInputError: for a key that is not known, a value that can't be, or a piece that can't be.
    """
    place = where or str(record.get("title", "piece"))
    _known(record, PIECE_KEYS, place)
    values = {key: value for key, value in record.items() if key not in TIMES and key != "movement"}
    values |= {TIMES[key]: parse_time(str(record[key]), where=f"{place}, {key}") for key in TIMES if key in record}
    read = (task_from(each, where=place) for each in cast("list[Mapping[str, Any]]", record.get("movement", [])))
    tasks = tuple(in_order(read))
    for key in ("rounds", "intervals", "partners"):
        if key in values:
            values[key] = _whole(values[key], f"{place}, {key}")
    return Piece(**values, tasks=tasks)


def usable_piece(record: Mapping[str, Any], *, where: str = "") -> Piece:
    """Read a piece as `piece_from`, but never refuse one for what is missing to score it: then it is done without a score.

    What is missing is said in its note. One without a title is named after its movements, so that it is found again.

    Raises:
        BadInputError: for a key that is not known or a value that can't be, in a movement.
    """
    named = dict(record) if str(record.get("title", "")).strip() else {**record, "title": _named_after(record)}
    try:
        return piece_from(named, where=where)
    except BadInputError as err:
        plainly = {key: named[key] for key in ("title", "cap", "setting", "note", "movement") if key in named}
        found = piece_from({**plainly, "kind": "unscored"}, where=where)
        return replace(found, note="\n".join(part for part in (found.note, f"Not scored: {err.what}") if part))


def _named_after(record: Mapping[str, Any]) -> str:
    names = [str(each.get("name", "")) for each in record.get("movement", ())]
    said = ", ".join(name for name in names if name) or str(record.get("kind", "")) or "piece"
    said = said if len(said) <= MOST_TITLE else said[: MOST_TITLE - 2].rpartition(", ")[0] or said[:MOST_TITLE]
    return said[:1].upper() + said[1:]


def record_of(piece: Piece) -> dict[str, Any]:
    """Return the plain record that `piece_from` reads back to an equal piece."""
    record = {f.name: getattr(piece, f.name) for f in fields(Piece) if getattr(piece, f.name) != f.default}
    record = {key: value for key, value in record.items() if key not in (*TIMES.values(), "tasks")}
    record |= {key: time_words(getattr(piece, kept)) for key, kept in TIMES.items() if getattr(piece, kept)}
    return record | {"movement": [task_record(task) for task in piece.tasks]}


def task_from(record: Mapping[str, Any], *, where: str, of: Task | None = None) -> Task:
    """Read one movement from keys and values; an option of `of` that says no amount has that of its movement."""
    where = f"{where}, {record.get('name', 'movement')}"
    _known(record, TASK_KEYS, where)
    values = {key: value for key, value in record.items() if key in TASK_KEYS - OWN_KEYS}
    if record.get("each_side"):
        values["per_side"] = True
    if "load" in values:
        values["load"] = _loads(record, where)
    for key in CM:
        if key in values:
            values[key] = _pair(values[key], where, lambda each: parse_decimal(str(each), where=where))
    if "implements" in values:
        values["implements"] = _whole(values["implements"], where)
    said = AMOUNTS & set(record) - ({"most"} if not record.get("most") else set())
    values |= {"no_amount": True} if not said and of is None and "no_amount" not in record else {}
    run, sides = _run(record, where), None
    if "sides" in record:
        both = _pair(record["sides"], where, lambda each: _whole(each, where))
        run, sides = (ONCE, both) if isinstance(both, tuple) else (Steady(both), None)
    if of is not None:
        values["part"] = of.part
        if not said and not record.get("no_amount"):
            values["measure"] = of.measure
            run, sides, values["most"], values["no_amount"] = of.run, of.sides, of.most, of.no_amount
    options = values.pop("options", ())
    task = Task(str(record.get("name", "")), run, sides=sides, **values)
    return replace(task, options=tuple(task_from(option, where=where, of=task) for option in options))


def _loads(record: Mapping[str, Any], where: str) -> Mass | tuple[Mass, Mass]:
    unit = parse_unit(str(record.get("unit", "")), where=where)
    return _pair(record["load"], where, lambda each: Mass(parse_decimal(str(each), where=where), unit))


def _pair(value: object, where: str, read: Callable[[object], Any]) -> Any:
    """Read one value, or two of them into a pair, the larger first; two that are equal are one."""
    if not isinstance(value, list | tuple):
        return read(value)
    both = [read(each) for each in value]
    if len(both) != 2:
        raise BadInputError(f"{value!r} is no pair.", where=where, mend="Write two, the larger first.")
    if both[0] == both[1]:
        return both[0]
    return tuple(sorted(both, key=lambda each: each.kg if isinstance(each, Mass) else each, reverse=True))


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
    elif task.sides is None and not task.most and not task.no_amount:
        record |= {"first": task.run.first, "step": task.run.step}
    for field in fields(Task)[2:]:
        value = getattr(task, field.name)
        if value == field.default:
            continue
        if field.name == "load":
            both = value if isinstance(value, tuple) else (value,)
            loads = [plain(each.amount) for each in both]
            record |= {"load": loads if len(loads) > 1 else loads[0], "unit": both[0].unit}
        elif field.name == "options":
            record["options"] = [task_record(option) for option in value]
        elif isinstance(value, tuple):
            record[field.name] = [plain(each) if isinstance(each, Decimal) else each for each in value]
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
