"""The rules that every record of the log keeps, table by table, on the bare values of the database."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Mapping
from datetime import date
from typing import Any, get_args

from tracker.conditioning.piece_record import piece_from
from tracker.conditioning.score_record import score_from
from tracker.errors import BadInputError
from tracker.exchange import cells
from tracker.limits import MOST_KEPT_REPS
from tracker.log.unit_of_work import KINDS
from tracker.narrow import is_keyed
from tracker.strength.records import Kind, Outcome

Values = Mapping[str, Any]
Rule = Callable[[Values, date], None]
_ORIGIN = re.compile(r"[0-9a-f]{40}")


def _day(value: Any, latest: date) -> None:
    day = cells.parse_day(str(value))
    if day > latest:
        raise BadInputError(f"{day} is still to come.")


def _words(value: Any, words: tuple[str, ...], what: str) -> None:
    if value not in words:
        raise BadInputError(f"{value!r} is not {what}.")


def _set(row: Values, latest: date) -> None:
    _day(row["day"], latest)
    cells.parse_load(str(row["load"]), str(row["unit"]), "" if row["body_mass"] is None else str(row["body_mass"]))
    _words(row["unit"], ("kg", "lb"), "a unit")
    _words(row["outcome"], get_args(Outcome), "an outcome")
    _words(row["kind"], get_args(Kind), "a kind of set")
    cells.parse_whole(str(row["reps"]), "repetitions", most=MOST_KEPT_REPS)
    if row["outcome"] == "done" and row["reps"] < 1:
        raise BadInputError("A set that was done has at least one repetition.")
    cells.parse_reserve("" if row["rir"] is None else str(row["rir"]))
    if row["body"] and row["body_mass"] is None and row["removed_at"] is None:
        raise BadInputError("The body is lifted, and there is no body mass.")
    if not _ORIGIN.fullmatch(str(row["origin"])):
        raise BadInputError("The set has lost what it was when it came.")
    cells.parse_note(row["note"])


def _session(row: Values, latest: date) -> None:
    _day(row["day"], latest)


def _named(row: Values, _latest: date) -> None:
    cells.parse_name(row["name"], "name", needed=True)


def _body_mass(row: Values, latest: date) -> None:
    _day(row["day"], latest)
    cells.parse_load("0", str(row["unit"]), str(row["mass"]))


def _rep_max(row: Values, latest: date) -> None:
    _day(row["day"], latest)
    amount = cells.parse_amount(str(row["load"]))
    if not row["body"]:
        cells.parse_load(str(amount), str(row["unit"]), "")


def _goal(row: Values, latest: date) -> None:
    _day(row["made_on"], latest)
    if row["ended_on"] is not None:
        _day(row["ended_on"], latest)
    if row["lift_id"] is None:
        score_from(piece_from(_record(row["definition"])), _record(row["result"]))
    elif row["body"]:
        cells.parse_amount(str(row["load"]))
    else:
        cells.parse_load(str(row["load"]), str(row["unit"]), "")


def _kit_item(row: Values, _latest: date) -> None:
    if row["mass"] is not None and cells.parse_amount(str(row["mass"])) < 0:
        raise BadInputError("A mass below zero can't be.")


def _score(row: Values, latest: date) -> None:
    _day(row["day"], latest)
    score_from(piece_from(_record(row["definition"])), _record(row["result"]))


def _piece(row: Values, _latest: date) -> None:
    piece_from(_record(row["definition"]))


def _record(value: Any) -> dict[str, Any]:
    found = json.loads(value) if isinstance(value, str) else value
    if not is_keyed(found):
        raise BadInputError("What should be a record is none.")
    return found


def _change(row: Values, _latest: date) -> None:
    for side in ("before", "after"):
        if row[side] is not None:
            _record(row[side])
    if row["record"] not in KINDS:
        raise BadInputError(f"{row['record']!r} is no kind of record.")


# For each table: what is read, and the rule. "id" is what the record is named by.
RULES: dict[str, tuple[tuple[str, ...], Rule]] = {
    "sets": (
        ("sets.id", "day", "load", "sets.unit", "body_mass", "reps", "rir", "outcome", "kind", "body", "origin",
         "sets.note", "sets.removed_at"),
        _set,
    ),
    "sessions": (("id", "day"), _session),
    "members": (("id", "name"), _named),
    "lifts": (("id", "name"), _named),
    "places": (("id", "name"), _named),
    "body_masses": (("id", "day", "mass", "unit"), _body_mass),
    "rep_maxes": (("rep_maxes.id", "day", "load", "unit", "body"), _rep_max),
    "goals": (("goals.id", "made_on", "ended_on", "lift_id", "load", "goals.unit", "body", "result", "definition"), _goal),
    "kit_items": (("id", "mass"), _kit_item),
    "pieces": (("id", "definition"), _piece),
    "scores": (("scores.id", "day", "result", "definition"), _score),
    "changes": (("number AS id", "record", "before", "after"), _change),
}  # fmt: skip
SOURCES = {
    "sets": "sets JOIN sessions ON sets.session_id = sessions.id JOIN lifts ON sets.lift_id = lifts.id",
    "scores": "scores JOIN pieces ON scores.piece_id = pieces.id",
    "rep_maxes": "rep_maxes JOIN lifts ON rep_maxes.lift_id = lifts.id",
    "goals": "goals LEFT JOIN lifts ON goals.lift_id = lifts.id LEFT JOIN pieces ON goals.piece_id = pieces.id",
}
