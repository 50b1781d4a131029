"""How much was lifted: tonnage, hard sets and repetitions by lift. What was not recorded stays a range.

What counts as a hard set is our choice, near common practice: a work set or a test with three repetitions or fewer in
reserve, or one that was missed. Repetitions in reserve that nobody wrote down make it perhaps one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from tracker.conditioning.counts import NOTHING, Count

HARD_RESERVE = 3  # repetitions in reserve, at most


@dataclass(frozen=True, slots=True)
class Lifted:
    """One set of a lift, its load in kilograms: of the bar, of each of `implements`, or with the body mass in it.

    With `per_side` the repetitions are those of each side.
    """

    lift: str
    load_kg: float
    reps: int
    rir: float | None = None
    outcome: Literal["done", "missed", "cut"] = "done"
    kind: Literal["work", "test", "ramp"] = "work"
    implements: int = 1
    per_side: bool = False

    @property
    def all_reps(self) -> int:
        return self.reps * (2 if self.per_side else 1)

    @property
    def tonnage_kg(self) -> float:
        """Load x repetitions, all implements and both sides, in kilograms."""
        return self.load_kg * self.implements * self.all_reps

    @property
    def hard(self) -> Count:
        """1 for a hard set, 0 for none, between both where its reserve is not known."""
        if self.kind == "ramp":
            return NOTHING
        if self.kind == "test" or self.outcome == "missed":
            return Count(1, 1)
        if self.rir is None:
            return Count(0, 1)
        return Count(1, 1) if self.rir <= HARD_RESERVE else NOTHING


@dataclass(frozen=True, slots=True)
class LiftVolume:
    """What was done of one lift: tonnage in kilograms, sets and hard sets, repetitions."""

    lift: str
    tonnage_kg: float
    sets: int
    hard_sets: Count
    reps: int


def volume_by_lift(sets: Iterable[Lifted]) -> tuple[LiftVolume, ...]:
    """Sum up sets by lift, in the order in which the lifts first came; ramp sets count but are never hard."""
    by_lift: dict[str, list[Lifted]] = {}
    for each in sets:
        by_lift.setdefault(each.lift, []).append(each)
    return tuple(
        LiftVolume(
            lift,
            sum(each.tonnage_kg for each in done),
            len(done),
            sum((each.hard for each in done), NOTHING),
            sum(each.all_reps for each in done),
        )
        for lift, done in by_lift.items()
    )
