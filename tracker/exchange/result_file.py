"""A result as a file: JSON with these keys, and nothing else is read.

    tidemark_result  the version: 2 where a score is only about so, without a time, or of intervals timed one by one, else 1
    member           name
    day              YYYY-MM-DD
    as_of            YYYY-MM-DDTHH:MM:SSZ, the moment of the newest act in it
    rating, minutes  of the session, where they are known: 0 to 10, and 1 to 1440
    sets             a list: lift, implement, load, unit, reps; and where they say something rir, outcome (done, missed,
                     cut), kind (work, test), body_mass (in `unit`), per_side, left_out
    scores           a list: piece and score, each as the log keeps it, so that an unknown piece comes along
    maxes            a list: lift, implement, reps, load, unit, source (tested, declared), day; and per_side
    check            16 hexadecimal digits over all the rest

Numbers with decimals are texts, so that 92.5 stays 92.5.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from decimal import Decimal
from typing import Any, cast

from tracker.conditioning.piece_record import piece_from
from tracker.conditioning.plain_values import flag, keyed
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.scores import Score
from tracker.errors import BadInputError
from tracker.exchange.cells import parse_amount, parse_day, parse_name, parse_reserve, parse_word, shown
from tracker.exchange.result import (
    IMPLEMENTS,
    VERSION,
    Held,
    Result,
    ResultMax,
    ResultSet,
    asks_newer,
    check_of,
    check_whole,
    parse_stamp,
    piece_without_options,
    stamp,
)
from tracker.limits import MOST_MINUTES
from tracker.units import Mass, parse_unit, plain

CHECK_DIGITS = 16
MOST_WHOLE = MOST_MINUTES  # repetitions, minutes, ratings: each has its own limit as well
MOST_BYTES = 1_000_000  # a day of one member is a few thousand
KEYS = {"tidemark_result", "member", "day", "as_of", "rating", "minutes", "sets", "scores", "maxes", "check"}
SET_KEYS = {"lift", "implement", "load", "unit", "reps", "rir", "outcome", "kind", "body_mass", "per_side", "left_out"}
MAX_KEYS = {"lift", "implement", "reps", "load", "unit", "source", "day", "per_side"}
AGAIN = "Ask for the file again."
AT_HOME = ("note", "partner")  # of a score; stays with the member


def write_file(result: Result) -> str:
    """Return the text of a result's file."""
    record: dict[str, Any] = {
        "tidemark_result": VERSION if any(map(asks_newer, result.scores)) else 1, "member": result.member, "day": result.day.isoformat(), "as_of": stamp(result.as_of),
        "rating": result.rating, "minutes": result.minutes, "sets": [_set_record(each) for each in result.sets],
        "scores": [
            {"piece": piece_without_options(each.piece), "score": _score_record(each)} for each in result.scores
        ],
    }  # fmt: skip
    record |= {"maxes": [_max_record(each) for each in result.maxes]} if result.maxes else {}
    record = {key: value for key, value in record.items() if value is not None}
    return json.dumps(record | {"check": _check(record)}, ensure_ascii=False, indent=1) + "\n"


def read_file(text: str) -> Result:
    """Read a result's file.

    Raises:
        BadInputError: if it is not whole, of a later version, or says what can't be; it says where.
    """
    record = _record(text)
    version = record.get("tidemark_result")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise BadInputError("This is no result of a day.", mend="Choose the file that the member's log made.")
    if version > VERSION:
        raise BadInputError(f"It was made by a later version ({version}).", mend="Install the newest Tidemark here.")
    if record.pop("check", None) != _check(record):
        raise BadInputError("It was changed on its way: its check does not fit.", mend=AGAIN)
    _known(record, KEYS, "file")
    return check_whole(
        Result(
            parse_name(_text(record, "member", "file"), "member", needed=True),
            parse_day(_text(record, "day", "file"), where="day"),
            parse_stamp(_text(record, "as_of", "file")),
            tuple(_set(each, f"set {n}") for n, each in enumerate(_list(record, "sets"), 1)),
            tuple(_score(each, f"score {n}") for n, each in enumerate(_list(record, "scores"), 1)),
            _whole_number(record, "rating", "file", needed=False),
            _whole_number(record, "minutes", "file", needed=False),
            tuple(_max(each, f"max {n}") for n, each in enumerate(_list(record, "maxes"), 1)),
        )
    )


def looks_like_file(text: str) -> bool:
    """Tell a file from pasted lines."""
    return text.lstrip("\ufeff \t\r\n").startswith("{")


def _record(text: str) -> dict[str, Any]:
    if len(text.encode(errors="surrogatepass")) > MOST_BYTES:
        raise BadInputError("It is far too large for a day.", mend=AGAIN)
    try:
        record = json.loads(text.removeprefix("\ufeff"), parse_constant=_no_number)
    except (ValueError, RecursionError) as err:  # also a number of thousands of digits
        line = f"line {err.lineno}" if isinstance(err, json.JSONDecodeError) else ""
        raise BadInputError("It can't be read: it was cut short or changed.", where=line, mend=AGAIN) from err
    if not isinstance(record, dict):
        raise BadInputError("This is no result of a day.", mend="Choose the file that the member's log made.")
    return record


def _no_number(text: str) -> None:
    raise BadInputError(f"{text} is not a number.", mend=AGAIN)


def _check(record: Mapping[str, Any]) -> str:
    return check_of(json.dumps(record, sort_keys=True, ensure_ascii=False), CHECK_DIGITS)


def _set_record(one: ResultSet) -> dict[str, Any]:
    record: dict[str, Any] = {"lift": one.lift, "implement": one.implement, "load": plain(one.load.amount)}
    record |= {"unit": one.load.unit, "reps": one.reps}
    record |= {"rir": plain(one.rir)} if one.rir is not None else {}
    record |= {"outcome": one.outcome} if one.outcome != "done" else {}
    record |= {"kind": one.kind} if one.kind != "work" else {}
    record |= {"body_mass": plain(one.body_mass)} if one.body_mass is not None else {}
    record |= {"per_side": True} if one.per_side else {}
    return record | ({"left_out": True} if one.left_out else {})


def _max_record(one: ResultMax) -> dict[str, Any]:
    record: dict[str, Any] = {"lift": one.lift, "implement": one.implement, "reps": one.reps}
    record |= {"load": plain(one.load.amount), "unit": one.load.unit, "source": one.source, "day": one.day.isoformat()}
    return record | ({"per_side": True} if one.per_side else {})


def _score_record(score: Score) -> dict[str, Any]:
    return {key: value for key, value in score_record(score).items() if key not in AT_HOME}


def _keyed(record: object, keys: set[str], where: str, what: str) -> dict[str, Any]:
    if not isinstance(record, dict):
        raise BadInputError(f"This is no {what}.", where=where, mend=AGAIN)
    _known(found := cast("dict[str, Any]", record), keys, where)
    return found


def _lift(record: dict[str, Any], where: str) -> tuple[str, Held]:
    """Read the name of a lift and what is held."""
    name = parse_name(_text(record, "lift", where), "lift", needed=True)
    return name, cast("Held", parse_word(_text(record, "implement", where), IMPLEMENTS, "unasked", "an implement"))


def _set(record: object, where: str) -> ResultSet:
    record = _keyed(record, SET_KEYS, where, "set")
    try:
        return ResultSet(
            *_lift(record, where),
            Mass(parse_amount(_text(record, "load", where)), parse_unit(_text(record, "unit", where))),
            _whole_number(record, "reps", where) or 0,
            parse_reserve(_text(record, "rir", where)) if "rir" in record else None,
            cast("Any", parse_word(_said(record, "outcome", where), ("done", "missed", "cut"), "done", "an outcome")),
            cast("Any", parse_word(_said(record, "kind", where), ("work", "test"), "work", "a kind of set")),
            _amount(record, "body_mass"), _flag(record, "per_side", where), _flag(record, "left_out", where),
        )  # fmt: skip
    except BadInputError as err:
        raise BadInputError(err.what, where=where, mend=err.mend) from err


def _max(record: object, where: str) -> ResultMax:
    record = _keyed(record, MAX_KEYS, where, "rep-max")
    try:
        return ResultMax(
            *_lift(record, where),
            _whole_number(record, "reps", where) or 0,
            Mass(parse_amount(_text(record, "load", where)), parse_unit(_text(record, "unit", where))),
            cast("Any", parse_word(_text(record, "source", where), ("tested", "declared"), "declared", "a source")),
            parse_day(_text(record, "day", where)),
            _flag(record, "per_side", where),
        )
    except BadInputError as err:
        raise BadInputError(err.what, where=where, mend=err.mend) from err


def _score(record: object, where: str) -> Score:
    """Read a piece and its score; whatever is wrong inside them is told with the number of the score."""
    try:
        entry = keyed(record, where)
        _known(entry, {"piece", "score"}, where)
        piece = piece_from(entry["piece"], where=where)
        return score_from(piece, {key: value for key, value in entry["score"].items() if key not in AT_HOME})
    except BadInputError:
        raise
    except (KeyError, TypeError, ValueError, AttributeError, ArithmeticError, RecursionError) as err:
        raise BadInputError("This is no score of a piece.", where=where, mend=AGAIN) from err


def _known(record: Mapping[str, Any], keys: set[str], where: str) -> None:
    for key in record:
        if key not in keys:
            raise BadInputError(f"{shown(key)} is not known here.", where=where, mend="It may be of a later version.")


def _text(record: Mapping[str, Any], key: str, where: str) -> str:
    value = record.get(key)
    if not isinstance(value, str):
        raise BadInputError(f"{key} is missing, or no text.", where=where, mend=AGAIN)
    return value


def _list(record: Mapping[str, Any], key: str) -> list[object]:
    value = record.get(key, [])
    if not isinstance(value, list):
        raise BadInputError(f"{key} is no list.", where="file", mend=AGAIN)
    return value


def _amount(record: Mapping[str, Any], key: str) -> Decimal | None:
    return parse_amount(_text(record, key, key)) if key in record else None


def _whole_number(record: Mapping[str, Any], key: str, where: str, *, needed: bool = True) -> int | None:
    value = record.get(key)
    if value is None and not needed:
        return None
    if not isinstance(value, int) or isinstance(value, bool):
        raise BadInputError(f"{key} is no whole number.", where=where, mend=AGAIN)
    if not 0 <= value <= MOST_WHOLE:
        raise BadInputError(f"{key} is no number that can be.", where=where, mend=AGAIN)
    return value


def _said(record: Mapping[str, Any], key: str, where: str) -> str:
    return _text(record, key, where) if key in record else ""


def _flag(record: Mapping[str, Any], key: str, where: str) -> bool:
    return flag(record[key], where) if key in record else False
