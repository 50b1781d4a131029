"""Reads what an act of a phone says: each value of the right kind, or an error that says which is not."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Any, Literal, cast

from tracker.conditioning.pieces import SIDES, Side
from tracker.errors import BadInputError
from tracker.units import Mass, Unit

Body = dict[str, Any]


def text(body: Body, name: str) -> str:
    value = body.get(name)
    if not isinstance(value, str) or not 0 < len(value) <= 200:
        raise BadInputError("It is not said.", where=name, mend="Reload the page.")
    return value


def whole(body: Body, name: str) -> int:
    value = body.get(name)
    if not isinstance(value, int) or isinstance(value, bool):
        raise BadInputError("It is no whole number.", where=name, mend="Write a whole number.")
    return value


def number(value: object, where: str) -> Decimal:
    try:
        return Decimal(str(value).strip().replace(",", "."))
    except InvalidOperation:
        raise BadInputError(f"“{value}” is no number.", where=where, mend="Write such as 62.5.") from None


def load(body: Body) -> Mass:
    unit = body.get("unit")
    if unit not in ("kg", "lb"):
        raise BadInputError("The load has no unit.", where="load", mend="Use kg or lb.")
    return Mass(number(body.get("load"), "load"), cast("Unit", unit))


def mass(value: object, unit: Unit) -> Mass | None:
    return None if value in (None, "") else Mass(number(value, "body mass"), unit)


def reserve(body: Body) -> Decimal | None:
    return None if body.get("rir") in (None, "") else number(body["rir"], "in reserve")


def outcome(body: Body) -> Literal["done", "missed", "cut"]:
    found = body.get("outcome", "done")
    if found not in ("done", "missed", "cut"):
        raise BadInputError("It was neither done nor missed.", where="outcome", mend="Say done or missed.")
    return cast("Literal['done', 'missed', 'cut']", found)


def side(body: Body) -> Side | None:
    return cast("Side", body["side"]) if body.get("side") in SIDES else None
