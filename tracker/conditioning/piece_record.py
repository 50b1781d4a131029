"""A piece as plain keys and values, for a file or a log: out, and back in with a clear word about each wrong key."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, replace
from decimal import Decimal
from typing import Any, cast, get_args

from tracker.conditioning.ladder import Listed, Run, Steady
from tracker.conditioning.pieces import KINDS, MEASURES, MOST_DEPTH, ONCE, PARTS, SIDES, Piece, ScoredBy, Task, in_order
from tracker.conditioning.plain_values import choice, decimal, flag, keyed, listed, place, text, whole
from tracker.conditioning.times import parse_time, time_words
from tracker.errors import BadInputError
from tracker.units import Mass, parse_unit, plain

TIMES = {"cap": "cap_s", "interval": "work_s", "rest": "rest_s"}  # as written, and as kept
PIECE_KEYS = {field.name for field in fields(Piece)} - set(TIMES.values()) - {"tasks"} | set(TIMES) | {"movement"}
AMOUNTS = {"first", "step", "reps", "sides", "most"}
TASK_KEYS = {field.name for field in fields(Task)} - {"movement", "run"} | {"name", "unit", "each_side"} | AMOUNTS

# What each value has to be, by its key; of a value that is not set nothing stands in the record.
_PIECE: dict[str, Callable[[Any, str], Any]] = {
    **dict.fromkeys(("title", "tie_break", "setting", "note", "yours"), text),
    "kind": lambda value, where: choice(value, KINDS, where),
    "scored_by": lambda value, where: choice(value, get_args(ScoredBy), where),
    **dict.fromkeys(("rounds", "intervals", "partners"), whole),
    "in_turn": flag,
    "side": lambda value, where: choice(value, ("", *SIDES), where),
}
_TASK: dict[str, Callable[[Any, str], Any]] = {
    **dict.fromkeys(("implement", "assistance", "standard", "when"), text),
    "measure": lambda value, where: choice(value, MEASURES, where),
    "implements": whole,
    "part": lambda value, where: choice(value, PARTS, where),
    **dict.fromkeys(("per_side", "most", "no_amount"), flag),
    **dict.fromkeys(("height_cm", "target_cm"), lambda value, where: _pair(value, where, decimal)),
}


def piece_from(record: Mapping[str, Any], *, where: str = "") -> Piece:
    """Read a piece from keys and values; its `movement` is a list of such records, put into the order of their parts.

    A pair of amounts is `sides`, a pair of loads or heights a list of two; both are kept with the larger first.

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
    read = (task_from(each, where=where) for each in listed(record.get("movement", []), f"{where}, movement"))
    tasks = tuple(in_order(read))
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


def task_from(record: Mapping[str, Any], *, where: str, of: Task | None = None, depth: int = 0) -> Task:
    """Read one movement from keys and values; an option of `of` that says no amount has that of its movement."""
    where = f"{where}, {place(keyed(record, where).get('name', 'movement'))}"
    _known(record, TASK_KEYS, where)
    values: dict[str, Any] = {key: _TASK[key](record[key], f"{where}, {key}") for key in _TASK if key in record}
    if "each_side" in record and flag(record["each_side"], f"{where}, each_side"):
        values["per_side"] = True
    if "load" in record:
        values["load"] = _loads(record, where)
    said = AMOUNTS & set(record) - ({"most"} if not record.get("most") else set())
    values |= {"no_amount": True} if not said and of is None and "no_amount" not in record else {}
    run: Run = _run(record, where)
    sides: tuple[int, int] | None = None
    if "sides" in record:
        both = _pair(record["sides"], f"{where}, sides", whole)
        run, sides = (ONCE, cast("tuple[int, int]", both)) if isinstance(both, tuple) else (Steady(both), None)
    if of is not None:
        values["part"] = of.part
        if not said and not record.get("no_amount"):
            values["measure"] = of.measure
            run, sides, values["most"], values["no_amount"] = of.run, of.sides, of.most, of.no_amount
    task = Task(text(record.get("name", ""), where), run, sides=sides, **values)
    given = listed(record.get("options", ()), f"{where}, options")
    if given and depth >= MOST_DEPTH:
        raise BadInputError("An alternative has alternatives of its own.", where=where, mend="Leave them out.")
    options = tuple(task_from(option, where=where, of=task, depth=depth + 1) for option in given)
    return replace(task, options=options)


def _loads(record: Mapping[str, Any], where: str) -> Mass | tuple[Mass, Mass]:
    unit = parse_unit(text(record.get("unit", ""), where), where=where)
    return _pair(record["load"], f"{where}, load", lambda each, place: Mass(decimal(each, place), unit))


def _pair(value: object, where: str, read: Callable[[Any, str], Any]) -> Any:
    """Read one value, or two of them into a pair, the larger first; two that are equal are one."""
    if not isinstance(value, list | tuple):
        return read(value, where)
    both = [read(each, where) for each in listed(cast("object", value), where)]
    if len(both) != 2:
        raise BadInputError(f"A list of {len(both):,} is no pair.", where=where, mend="Write two, the larger first.")
    if both[0] == both[1]:
        return both[0]
    return tuple(sorted(both, key=lambda each: each.kg if isinstance(each, Mass) else each, reverse=True))


def _run(record: Mapping[str, Any], where: str) -> Run:
    if isinstance(record.get("reps"), list):
        return Listed(tuple(whole(each, where) for each in listed(record["reps"], where)))
    first = record.get("first", record.get("reps", 1))
    return Steady(whole(first, where), whole(record.get("step", 0), where))


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
            both = cast("tuple[Mass, ...]", value if isinstance(value, tuple) else (value,))
            loads = [plain(each.amount) for each in both]
            record |= {"load": loads if len(loads) > 1 else loads[0], "unit": both[0].unit}
        elif field.name == "options":
            record["options"] = [task_record(option) for option in value]
        elif isinstance(value, tuple):
            record[field.name] = [
                plain(each) if isinstance(each, Decimal) else each for each in cast("tuple[Any, ...]", value)
            ]
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
