"""A conditioning piece as a sheet writes it, whatever it says; `piece_scored` makes the piece of it that is scored."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from tracker.conditioning.pieces import Kind, Measure, Part, ScoredBy
from tracker.units import Mass, plain


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
class PieceBlock:
    """The lines of a piece; `scheme` is the count of all movements that have none of their own."""

    title: str
    kind: Kind
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

    @property
    def rounds_done(self) -> int | None:
        """How many rounds there are: "100 burpees for time" is one, where no list ends the piece."""
        once = self.kind == "for time" and not self.rounds and not self._listed
        return 1 if once else self.rounds or None

    def count_of(self, movement: Movement) -> Count | None:
        """What each round asks of a movement: its own count, else that of the scheme; none where neither is said."""
        return movement.count or (self.scheme if not movement.part and movement.sides is None else None)

    @property
    def _listed(self) -> bool:
        """Whether the counts themselves end the piece."""
        counts = [each.count or self.scheme for each in self.movements]
        return any(count is not None and (count.listed or count.step < 0) for count in counts)
