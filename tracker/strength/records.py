"""What the strength room is told and what it answers, as plain frozen records.

Loads are kilograms of what is really moved: the whole bar; each dumbbell; with body mass added where the body is lifted.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

Outcome = Literal["done", "missed", "cut"]
Kind = Literal["work", "test", "ramp"]
REP_MAXES: tuple[int, ...] = tuple(range(1, 13))  # the repetition maxes an estimate speaks of


@dataclass(frozen=True, slots=True)
class SetRecord:
    """One set as it was done.

    `reps` are completed repetitions (0 for a failed single). `rir` is what was reported: None is not recorded, 6 and
    more mean six or more. `missed`: the next repetition was tried and failed, so repetitions to failure are exactly
    `reps`. `cut`: ended for another reason, so at least `reps`. A `test` was meant to be all there was; a `ramp` set
    says nothing but "at least this".
    """

    day: date
    load_kg: float
    reps: int
    rir: float | None = None
    outcome: Outcome = "done"
    kind: Kind = "work"
    order: int = 0


@dataclass(frozen=True, slots=True)
class Band:
    """Median and central 80 % interval, in kilograms."""

    estimate: float
    low80: float
    high80: float


@dataclass(frozen=True, slots=True)
class Estimate:
    """What is believed of the underlying level on one day, from sets known on that day."""

    day: date
    rep_max: Mapping[int, Band]  # nRM for n in REP_MAXES
    sets_used: int

    @property
    def one_rm(self) -> Band:
        return self.rep_max[1]
