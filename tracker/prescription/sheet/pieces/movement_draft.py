"""A movement while it is being read, and what a run of tokens says of movements."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal
from itertools import pairwise
from typing import Any

from tracker.prescription.sheet.piece import Count, Movement
from tracker.prescription.sheet.pieces.movement_words import QUIET
from tracker.prescription.sheet.tokens.tokens import Token


@dataclass
class Draft:
    """A movement as far as it has been read."""

    name: str = ""
    known: bool = False
    count: Count | None = None
    measure: str = ""
    usual: str = ""
    sides: tuple[int, int] | None = None
    most: bool = False
    load: Any = None
    implements: int = 1
    implement: str = ""
    each_side: bool = False
    heights: tuple[Decimal, ...] = ()
    target: Decimal | None = None
    standard: list[str] = field(default_factory=list[str])
    when: str = ""
    options: list[Movement] = field(default_factory=list[Movement])
    counted: bool = False
    work: int = 0  # seconds in which as many are done as there is time for
    ladder: tuple[list[int], Any] | None = None

    @property
    def empty(self) -> bool:
        return not self.name and not self.counted and self.load is None

    def made(self, line: int = 0) -> Movement:
        measure = self.measure or "reps"
        self.standard = [each for each in self.standard if any(sign.isalnum() for sign in each) and each not in QUIET]
        helped = next((each[5:].strip() for each in self.standard if each.startswith("with ") and len(each) > 5), "")
        standard = [each for each in self.standard if not helped or each[5:].strip() != helped]
        pair = (self.heights[0], self.heights[1]) if len(self.heights) == 2 else None
        return Movement(
            self.name, self.count, measure, self.load, self.implement if self.load is not None else "", self.implements if self.load is not None else 1,  # type: ignore[arg-type]
            self.each_side, self.heights[0] if len(self.heights) == 1 else None, self.target, helped, ", ".join(each for each in standard if each),
            tuple(self.options), self.sides, self.most, "", self.when, pair, line,
        )  # fmt: skip


@dataclass
class MovesRead:
    """What a run of tokens says of movements; `scheme` is a list of counts that stands before all of them."""

    moves: list[Movement] = field(default_factory=list[Movement])
    options: list[Movement] = field(default_factory=list[Movement])  # options of a movement that stands above
    scheme: Count | None = None
    left: list[Token] = field(default_factory=list[Token])
    stations: int = 0  # minutes or stations that were named on the line
    known: int = 0
    counted: int = 0
    works: list[int] = field(default_factory=list[int])  # seconds that each movement has, where it is done for a time


def ladder_count(numbers: list[int], more: Any) -> Count:
    """Return the counts of a written list: a list that goes on without an end is its first number and its step.

    `10-9-8-...-1` is filled in; `1-2-3...` rises by 1 as long as there is time.
    """
    if more is None:
        return Count(tuple(numbers)) if len(numbers) > 1 else Count((numbers[0],))
    steps = {later - earlier for earlier, later in pairwise(numbers)}
    step = steps.pop() if len(steps) == 1 else 0
    if isinstance(more, int) and step and (more - numbers[-1]) % step == 0 and 0 <= (more - numbers[-1]) // step <= 200:
        return Count((*numbers, *range(numbers[-1] + step, more + (1 if step > 0 else -1), step)))
    if step and more == "on":
        return Count((numbers[0],), step) if step > 0 else Count((*numbers, *range(numbers[-1] + step, 0, step)))
    return Count(tuple(numbers))
