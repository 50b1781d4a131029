"""What the parts of a line are before they are put together."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from lark import Token

from tracker.prescription.sheet import values
from tracker.prescription.sheet.model import FindMax, Of, SetGroup
from tracker.prescription.sheet.problems import TroubleError

_LOAD_WORDS = re.compile(r"[0-9]+(?:[.,][0-9]+)?\s*(?:%|(?:kg|lb)s?\b)|rpe\s*[0-9]+|rir\s*[0-9]+", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Heading:
    """The first line of a session: its week, day, weekday or date, and its title."""

    week: int | None = None
    day: int | None = None
    weekday: int | None = None
    on: date | None = None
    title: str = ""


@dataclass(frozen=True, slots=True)
class Week:
    number: int


@dataclass(frozen=True, slots=True)
class Day:
    number: int


@dataclass(frozen=True, slots=True)
class Rest:
    seconds: int
    column: int


@dataclass(frozen=True, slots=True)
class Tempo:
    tempo: str
    column: int


@dataclass(frozen=True, slots=True)
class Sets:
    groups: tuple[SetGroup | FindMax, ...] = field(default=())


def lift_field(part: Any) -> dict[str, Any]:
    """Return which field of a lift a part of its line fills; the sign % fills none."""
    kinds: tuple[tuple[type, str, Callable[[Any], Any]], ...] = (
        (bool, "joined", lambda part: part), (Of, "of", lambda part: part), (Rest, "rest_s", lambda part: part.seconds),
        (Tempo, "tempo", lambda part: part.tempo), (Sets, "sets", lambda part: part.groups),
    )  # fmt: skip
    for kind, name, value in kinds:
        if isinstance(part, kind):
            return {name: value(part)}
    if part.type == "IMPLEMENT":
        return {"implement": values.implement(part)}
    return {"each_side": True} if part.type == "SIDE" else {}


def with_tempo(group: SetGroup | FindMax, tempo: Tempo) -> SetGroup | FindMax:
    """Give a group its tempo, if it has none yet."""
    if isinstance(group, FindMax):
        raise TroubleError(tempo.column, "A test has no tempo.", "rest, or the end of the line")
    return group if group.tempo else replace(group, tempo=tempo.tempo)


def with_note(group: SetGroup | FindMax, remark: Token) -> SetGroup | FindMax:
    """Give a group the remark in brackets behind it; a load must not hide in one."""
    note = remark[1:-1].strip()
    if isinstance(group, SetGroup) and group.load is None and (found := _LOAD_WORDS.search(note)):
        shown = f"{group.sets} x {group.reps.parts[0]} @ {found[0].strip()}"
        raise TroubleError(
            remark.column or 1, f"{note!r} stands in brackets, where it is only a remark.", "a load behind @", shown
        )
    return replace(group, note=note)
