"""A conditioning piece as a sheet holds it, and its plain record of keys and values for the conditioning room."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any, Literal

from tracker.units import Mass, plain

PieceKind = Literal[
    "as many as possible", "for time", "every minute", "work and rest", "distance", "calories", "heaviest", "unscored"
]
Measure = Literal["reps", "cal", "m", "s"]
ScoredBy = Literal["total", "lowest", "completed"]
Part = Literal["", "buy-in", "cash-out"]


@dataclass(frozen=True, slots=True)
class Count:
    """What each round asks: one number; a list round by round; or, with `step`, a number that rises or falls by it."""

    reps: tuple[int, ...]
    step: int = 0

    @property
    def listed(self) -> bool:
        return len(self.reps) > 1

    def __str__(self) -> str:
        if self.listed:
            return "-".join(str(each) for each in self.reps)
        if self.step:
            return f"{self.reps[0]} {'up' if self.step > 0 else 'down'} by {abs(self.step)}"
        return str(self.reps[0])


@dataclass(frozen=True, slots=True)
class Pair:
    """Two loads for two groups, the larger first; each member keeps a side."""

    larger: Mass
    smaller: Mass

    def __str__(self) -> str:
        return f"{plain(self.larger.amount)}/{plain(self.smaller.amount)} {self.larger.unit}"


@dataclass(frozen=True, slots=True)
class Movement:
    """One movement of a piece; with `each_side` its count is for each side. `options` are easiest first.

    `sides` is a pair of amounts for two groups, the larger first; each member keeps a side. `most` asks for as many as
    there are time for. `part` is empty, or says that it is done once, before or after the rounds. `when`, of an option, is
    whom it is for, in the coach's words: home, scaled, no rig.
    """

    name: str
    count: Count | None = None
    measure: Measure = "reps"
    load: Mass | Pair | None = None
    implement: str = ""
    implements: int = 1
    each_side: bool = False
    height_cm: Decimal | None = None
    target_cm: Decimal | None = None
    assistance: str = ""
    standard: str = ""
    options: tuple[Movement, ...] = ()
    sides: tuple[int, int] | None = None
    most: bool = False
    part: Part = ""
    when: str = ""
    heights_cm: tuple[Decimal, Decimal] | None = None
    line: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Piece:
    """A conditioning piece; `scheme` is the count of all movements that have none of their own."""

    title: str
    kind: PieceKind
    movements: tuple[Movement, ...] = ()
    scheme: Count | None = None
    rounds: int | None = None
    cap_s: int | None = None
    work_s: int | None = None
    rest_s: int = 0
    intervals: int | None = None
    in_turn: bool = False
    scored_by: ScoredBy = "total"
    tie_break: str = ""
    partners: int = 1
    setting: str = ""
    notes: tuple[str, ...] = ()
    line: int = field(default=0, compare=False)
    text: tuple[str, ...] = field(default=(), compare=False)


def clock(seconds: int) -> str:
    """Write seconds as 8:41, or 1:02:03 from an hour on."""
    minutes, left = divmod(seconds, 60)
    return f"{minutes}:{left:02d}" if minutes < 60 else f"{minutes // 60}:{minutes % 60:02d}:{left:02d}"


def piece_record(piece: Piece) -> dict[str, Any]:
    """Return the piece as keys and values: times as 8:41, loads as text with their unit.

    What the sheet does not say is left out; with `each_side` an amount is for each side. A pair of amounts is `sides`, a pair of loads a list, the larger first.
    """
    times = {"cap": piece.cap_s, "interval": piece.work_s, "rest": piece.rest_s or None}
    once = piece.kind == "for time" and not piece.rounds and not _listed(piece)  # "100 burpees for time" is one round
    values: dict[str, Any] = {
        "rounds": 1 if once else piece.rounds, "intervals": piece.intervals, "in_turn": piece.in_turn, "scored_by": piece.scored_by,
        "tie_break": piece.tie_break, "partners": piece.partners, "setting": piece.setting, "note": "\n".join(piece.notes),
    }  # fmt: skip
    usual = {"scored_by": "total", "partners": 1}
    record: dict[str, Any] = {"title": piece.title, "kind": piece.kind}
    record |= {key: clock(seconds) for key, seconds in times.items() if seconds}
    record |= {key: value for key, value in values.items() if value and value != usual.get(key)}
    return record | {"movement": [_movement_record(each, piece.scheme) for each in piece.movements]}


def _listed(piece: Piece) -> bool:
    """Whether the counts themselves end the piece."""
    counts = [each.count or piece.scheme for each in piece.movements]
    return any(count is not None and (count.listed or count.step < 0) for count in counts)


def _movement_record(movement: Movement, before: Count | None) -> dict[str, Any]:
    count = movement.count or (before if not movement.part and movement.sides is None else None)
    record: dict[str, Any] = {"name": movement.name}
    if count is not None and count.listed:
        record["reps"] = list(count.reps)
    elif count is not None:
        record |= {"first": count.reps[0], "step": count.step}
    if movement.sides is not None:
        record["sides"] = list(movement.sides)
    if isinstance(movement.load, Pair):
        both = (movement.load.larger, movement.load.smaller)
        record |= {"load": [plain(each.amount) for each in both], "unit": movement.load.larger.unit}
    elif movement.load is not None:
        record |= {"load": plain(movement.load.amount), "unit": movement.load.unit}
    heights = [float(each) for each in movement.heights_cm] if movement.heights_cm else None
    values: dict[str, Any] = {
        "measure": movement.measure if movement.measure != "reps" else "", "implement": movement.implement,
        "implements": movement.implements if movement.implements > 1 else 0,
        "each_side": movement.each_side, "height_cm": heights or (None if movement.height_cm is None else plain(movement.height_cm)),
        "target_cm": None if movement.target_cm is None else plain(movement.target_cm),
        "assistance": movement.assistance, "standard": movement.standard, "most": movement.most, "part": movement.part,
        "when": movement.when, "options": [_movement_record(each, None) for each in movement.options],
    }  # fmt: skip
    return record | {key: value for key, value in values.items() if value}
