"""What a run of tokens says of sets so far, and what stands around it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.model import FindMax, InReserve, MassRange, Of, Percent, Rpe, SetGroup
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.units import plain

MOST_SETS, MOST_REPS, MOST_PERCENT = 100, 500, 250  # more is no set of a lift; design choice
PLATES_LB = frozenset(
    {135, 185, 205, 225, 245, 275, 295, 315, 335, 365, 405, 455, 495}
)  # what plates of 45 lb and less make; common practice
LEAST_PERCENT = 15  # less of a max is no load, where no sign says so; design choice
Group = SetGroup | FindMax
SETS_KINDS = frozenset({
    "setsx", "sets", "setcount", "find", "loadx", "pct", "pctoff", "rpe", "rir", "tempo", "list", "max", "plus", "complex", "atx", "atlist", "rm", "masslist", "loadpairx", "rpelist",
})  # fmt: skip


CHANGE_WORDS = frozenset(
    {"add", "adding", "plus", "minus", "drop", "increase", "by", "another", "extra", "less", "more", "than"}
)


@dataclass
class Scene:
    """What stands around the sets: the reference in force, the sheet's unit, and where asks go."""

    asker: Asker
    line: int = 0
    typed: str = ""
    unit: str = ""  # of loads that stand without one, if the block or sheet has one
    percent_near: bool = False  # the block is in percentages
    mass_near: bool = False  # the block has loads with units
    row_of_loads: bool = False  # the sheet has three loads or more before their repetitions, all as a percentage may be
    sure_mass: bool = False  # the lift has loads with a unit already
    sure_percent: bool = False  # the lift has percentages with their sign already
    above: tuple[Group, ...] = ()  # the sets of the lift that stand above
    joined: bool = False  # the lift is of several, or written as a printed sheet has it: its repetitions are parts
    of_words: str = ""  # of which rep-max a percentage would be, where one is in force


@dataclass
class SetsRead:
    """What a run of tokens says of sets."""

    groups: list[Group] = field(default_factory=list[Group])
    rest_s: int | None = None
    tempo: str = ""
    effort: Rpe | InReserve | None = None
    of: Of | None = None
    of_unknown: bool = False  # "of max" and the like were said
    each_side: bool = False
    every_s: int | None = None
    notes: list[str] = field(default_factory=list[str])
    loads: list[Any] = field(default_factory=list[Any])  # loads that found no sets yet
    within_s: int | None = None
    left: list[Token] = field(default_factory=list[Token])
    used: int = 0


def unit_of(word: str) -> str:
    return "lb" if word.strip().startswith(("lb", "#", "pound")) else "kg"


def ramped(groups: list[Group], words: str) -> list[Group]:
    """Single sets that rise behind a test or a heavy set are the way up to it: they come before it."""
    first, rest = (groups[0], groups[1:]) if groups else (None, [])
    loads = [
        each.load.amount
        for each in rest
        if isinstance(each, SetGroup) and each.sets == 1 and isinstance(each.load, Percent) and each.load.of is None
    ]
    if (
        not isinstance(first, FindMax)
        or not len(loads) == len(rest) >= 3
        or loads != sorted(set(loads))
        or re.search(r"\b(?:back(?! ?squat)|drop|down|after|of (?:it|that|today))\b", words)
    ):
        return groups
    return [*rest, first]


def no_load(group: Group | None) -> bool:
    return isinstance(group, SetGroup) and group.load is None


def any_load(groups: list[Group]) -> bool:
    return any(isinstance(group, SetGroup) and group.load is not None for group in groups)


def effort_beside(groups: list[Group], loads: list[Any]) -> bool:
    """Give the last sets how hard they are, where that is all that is told beside their load: `@ 80 %, RPE 8`."""
    last = groups[-1] if groups else None
    if (
        len(loads) != 1
        or not isinstance(loads[0], Rpe | InReserve)
        or not isinstance(last, SetGroup)
        or isinstance(last.load, Rpe | InReserve)
        or last.effort is not None
    ):
        return False
    groups[-1] = replace(last, effort=loads[0])
    return True


def load_words_of(load: Any) -> str:
    if isinstance(load, Percent):
        return f"{plain(load.amount)}" + (f"-{plain(load.high)}" if load.high else "") + " %"
    if isinstance(load, Rpe):
        return f"RPE {plain(load.value)}"
    if isinstance(load, InReserve):
        return f"{plain(load.reps)} in reserve"
    if isinstance(load, MassRange):
        return f"{plain(load.low.amount)}-{load.high}"
    return str(load)


class Given:
    """The tokens, the place among them, and what was found."""

    def __init__(self, tokens: list[Token], scene: Scene) -> None:
        self.tokens, self.scene, self.found = tokens, scene, SetsRead()
        self.at: int = 0
        self.apart: set[int] = set()  # sets that take no load that is told for others
        self.span: tuple[int, int] | None = None  # a set label that holds until the next one

    def peek(self, ahead: int = 1) -> Token | None:
        at = self.at + ahead
        while (
            at < len(self.tokens)
            and self.tokens[at].kind == "word"
            and self.tokens[at].text in ("of", "at", "x", "@", "reps", "for", "with", "around")
        ):
            at += 1
        return self.tokens[at] if at < len(self.tokens) else None

    @property
    def _last(self) -> Group | None:
        """What was found last."""
        return self.found.groups[-1] if self.found.groups else None

    def _ask(self, key: str, question: str, choices: tuple[Choice, ...]) -> str:
        return self.scene.asker.choose(key, self.scene.line, self.scene.typed, question, choices)

    def _unit(self) -> Any:
        return self.scene.unit or "kg"
