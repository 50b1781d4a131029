"""Marks of a movement and options of a piece: each token of a line as the fields that it fills."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, cast

from lark import Token

from tracker.prescription.sheet import values
from tracker.prescription.sheet.piece import Count, Measure, ScoredBy
from tracker.prescription.sheet.problems import TroubleError

MOST_COUNT = 10_000  # repetitions, calories or seconds of one movement in one round
MOST_CM = 1000
_LOAD = re.compile(r"(?:([12])\s*x\s*)?([0-9]+(?:[.,][0-9]+)?)\s*(kgs?|lbs?|pounds?)\b\s*(.*)", re.IGNORECASE)
_LOAD_WITHIN = re.compile(r"[0-9]\s*(?:kg|lb|pound)s?\b", re.IGNORECASE)
_CM = re.compile(r"[0-9]+(?:[.,][0-9]+)?")


def option(token: Token, found: dict[str, Any]) -> dict[str, Any]:
    """Read one option of a kind; only a piece for time has a cap."""
    if token.type == "CAP":
        if found["kind"] != "for time":
            raise TroubleError(token.column or 1, "Only a piece for time has a cap.", "no cap, or for time")
        return {"cap_s": values.seconds(token)}
    if token.type == "IN_TURN":
        return {"in_turn": True}
    if token.type == "SCORED_BY":
        words: dict[str, ScoredBy] = {"l": "lowest", "t": "total", "f": "completed"}
        return {"scored_by": words[token.lower()[0]]}
    return {"setting": token.lower()}


def mark(token: Token) -> dict[str, Any]:
    """Read one mark of a movement: its name, count, load, sides, height, target or help."""
    return _MARKS[token.type](token)


def free_words(token: Token) -> str:
    """Return a mark in the coach's words; one that holds a load is asked about, so that it does not go for a remark."""
    if _LOAD_WITHIN.search(token):
        what = f"{token.strip()!r} is no load that can be read."
        raise TroubleError(
            token.column or 1,
            what,
            "one number with kg or lb; another load in a line below that begins with or",
        )
    return " ".join(token.split())


def _count(token: Token) -> dict[str, Any]:
    return {"count": Count((values.whole(token, MOST_COUNT, "repetitions"),))}


def _amount(token: Token) -> dict[str, Any]:
    number, measure = values.amount(token)
    return {"count": Count((number,)), "measure": cast("Measure", measure)}


def _cm(token: Token) -> dict[str, Any]:
    found = cast("re.Match[str]", _CM.search(token))
    number = Token("NUMBER", found[0], column=(token.column or 1) + found.start())
    return {"height_cm" if token.type == "HEIGHT" else "target_cm": values.decimal(number, MOST_CM, "cm")}


def _name(token: Token) -> dict[str, Any]:
    """Return the name; "10 x burpee" is no movement called x."""
    name = values.name(token)
    if name.lower().startswith("x "):
        what = "No x stands between a count and its movement."
        raise TroubleError(token.column or 1, what, "a count and the movement", f"10 {name[2:]}")
    return {"name": name}


def _load(token: Token) -> dict[str, Any]:
    number, amount, unit, implement = cast("re.Match[str]", _LOAD.match(token)).groups()
    load = values.mass(Token("NUMBER", amount, column=token.column), unit)
    return {"load": load, "implement": " ".join(implement.split()), "implements": int(number or 1)}


_MARKS: dict[str, Callable[[Token], dict[str, Any]]] = {
    "NAME": _name, "INT": _count, "AMOUNT": _amount, "LOAD": _load, "HEIGHT": _cm, "TARGET": _cm,
    "SIDE": lambda _: {"each_side": True}, "WITH": lambda token: {"assistance": " ".join(token[5:].split())},
}  # fmt: skip
