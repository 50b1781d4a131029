"""What a coach's sheet says, as plain frozen records: sessions with lifts, pieces and text.

`line` is where it stands in the sheet; two sheets that say the same on other lines are equal.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from decimal import Decimal
from typing import Literal, get_args

from tracker.prescription.sheet.piece import Pair, PieceBlock
from tracker.units import Mass

Implement = Literal[
    "barbell", "dumbbells", "dumbbell", "kettlebells", "kettlebell", "ball", "body", "band", "sandbag", "sled", "rings",
    "machine", "other", "unasked",
]  # fmt: skip
IMPLEMENTS: tuple[Implement, ...] = get_args(Implement)
TextKind = Literal["warm-up", "cool-down", "note"]
Rule = Literal["doubled", "same", "own"]
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@dataclass(frozen=True, slots=True)
class Of:
    """Which rep-max a percentage is of; `lift` is empty where it is the lift's own.

    `percent` is the share of it that the percentage is really of: 90 for a training max of 90 % of the 1RM. `heavy` means
    the day's heavy set of so many repetitions, not a max from before.
    """

    reps: int
    lift: str = ""
    percent: Decimal | None = None
    heavy: bool = False


@dataclass(frozen=True, slots=True)
class Percent:
    """So many per cent of a rep-max, up to `high` where a range is given; without `of` it is the one that the lift names."""

    amount: Decimal
    of: Of | None = None
    high: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Rpe:
    """Rated effort of the set, 1 to 10, halves allowed; up to `high` where a range is given."""

    value: Decimal
    high: Decimal | None = None


@dataclass(frozen=True, slots=True)
class InReserve:
    """So many repetitions to be left; up to `high` where a range is given."""

    reps: Decimal
    high: Decimal | None = None


@dataclass(frozen=True, slots=True)
class MassRange:
    """A load from `low` to `high`, for the lifter to choose."""

    low: Mass
    high: Mass


Load = Percent | Rpe | InReserve | Mass | MassRange | Pair


@dataclass(frozen=True, slots=True)
class Reps:
    """Repetitions of one set: one number, or one for each movement of a complex; up to `high` where a range is asked.

    `out` is a rep-out set: at least so many, then as many more as there are. Without parts nothing is said of a number:
    as many as there are (`out`), or none at all.
    """

    parts: tuple[int, ...] = ()
    high: int | None = None
    out: bool = False

    @property
    def total(self) -> int:
        return sum(self.parts)


@dataclass(frozen=True, slots=True)
class SetGroup:
    """So many equal sets; `effort` is what is asked beside a load or percentage."""

    sets: int
    reps: Reps
    load: Load | None = None
    rest_s: int | None = None
    tempo: str = ""
    note: str = ""
    effort: Rpe | InReserve | None = None
    line: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class FindMax:
    """A test: find the most load for `reps` repetitions, perhaps within a time; `heavy` is the day's heavy set, no test."""

    reps: int
    heavy: bool = False
    within_s: int | None = None
    rest_s: int | None = None
    note: str = ""
    line: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class Alternative:
    """What to do without the lift's own implement: the same or twice the repetitions, or sets of its own.

    `when` is whom it is for, in the coach's words: home, scaled, no rig.
    """

    implement: Implement
    rule: Rule
    lift: str = ""  # empty: the same lift
    sets: tuple[SetGroup | FindMax, ...] = ()
    when: str = ""
    line: int = field(default=0, compare=False)


@dataclass(frozen=True, slots=True)
class LiftBlock:
    """A lift, or the lifts of a complex, with its sets; `joined` does it in turn with the lift above (a superset).

    `every_s` is the clock that its sets begin on. `text` is how it was typed, line by line.
    """

    names: tuple[str, ...]
    implement: Implement
    of: Of | None = None
    each_side: bool = False
    rest_s: int | None = None
    tempo: str = ""
    sets: tuple[SetGroup | FindMax, ...] = ()
    alternatives: tuple[Alternative, ...] = ()
    notes: tuple[str, ...] = ()
    joined: bool = False
    every_s: int | None = None
    line: int = field(default=0, compare=False)
    text: tuple[str, ...] = field(default=(), compare=False)

    @property
    def name(self) -> str:
        return " + ".join(self.names)


@dataclass(frozen=True, slots=True)
class Text:
    """Free words of the coach, kept as they are."""

    kind: TextKind
    lines: tuple[str, ...]
    line: int = field(default=0, compare=False)


Item = LiftBlock | PieceBlock | Text


@dataclass(frozen=True, slots=True)
class Session:
    """One session; its day is numbered, a weekday of a week (0 is Monday), a date, or not named."""

    items: tuple[Item, ...]
    title: str = ""
    week: int | None = None
    day: int | None = None
    weekday: int | None = None
    on: date | None = None
    line: int = field(default=0, compare=False)

    @property
    def place(self) -> int:
        """Days from an arbitrary first day: what sessions of one sheet are ordered by."""
        if self.on is not None:
            return self.on.toordinal()
        within = self.weekday if self.weekday is not None else (self.day or 1) - 1
        return 7 * ((self.week or 1) - 1) + within

    @property
    def day_words(self) -> str:
        """Say its day: week 2, day 3; or Monday of week 1; or a date; empty where none is named."""
        if self.on is not None:
            return self.on.isoformat()
        if self.weekday is not None:
            return f"week {self.week}, {WEEKDAYS[self.weekday]}" if self.week is not None else WEEKDAYS[self.weekday]
        return f"week {self.week}, day {self.day}" if self.week is not None else ""


@dataclass(frozen=True, slots=True)
class Sheet:
    """All that one sheet says."""

    sessions: tuple[Session, ...]
    title: str = ""
    starts: date | None = None
    notes: tuple[str, ...] = ()

    @property
    def offsets(self) -> tuple[int, ...]:
        """Days of each session after the first one."""
        return tuple(each.place - self.sessions[0].place for each in self.sessions)
