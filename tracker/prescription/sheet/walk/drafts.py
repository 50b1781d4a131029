"""Lifts, pieces, texts and sessions while their lines are still being read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.lifts.sets_found import Group
from tracker.prescription.sheet.model import (
    Alternative,
    FindMax,
    Implement,
    LiftBlock,
    Of,
    Percent,
    SetGroup,
    Text,
    TextKind,
)
from tracker.prescription.sheet.pieces.draft import PieceDraft
from tracker.prescription.sheet.words.names import Name
from tracker.units import Mass, plain

TRAINING_MAX = Decimal(90)  # per cent of the 1RM, where a sheet does not say; common practice


# A rep-max in brackets, or in a cell of its own, behind a lift's name
_REFERENCE = re.compile(r"[(|\[;]\s*%?\s*(?:of )?\d{1,2} ?RM\s*[)|\];]", re.IGNORECASE)


def _told_again(groups: list[Group]) -> list[Group]:
    """Sets that are told once more on a later line, then with their load, are the same sets: `4x8`, `4x8 @ 65 %`."""
    if len(groups) < 2 or not all(isinstance(group, SetGroup) for group in groups):
        return groups
    first, *rest = [group for group in groups if isinstance(group, SetGroup)]
    same = (
        first.load is None
        and first.effort is None
        and all(group.load is not None and group.line > first.line > 0 for group in rest)
        and first.sets > 1
        and sum(group.sets for group in rest) == first.sets
        and all(group.reps.parts == first.reps.parts for group in rest)
    )
    return list(rest) if same else groups


@dataclass
class LiftDraft:
    """A lift: its names (several for a complex), and what was said of its sets so far."""

    names: list[str]
    line: int
    known: Name | None = None
    implement: str = ""
    implement_said: bool = False
    of: Of | None = None
    groups: list[Group] = field(default_factory=list[Group])
    alternatives: list[Alternative] = field(default_factory=list[Alternative])
    notes: list[str] = field(default_factory=list[str])
    each_side: bool = False
    rest_s: int | None = None
    tempo: str = ""
    joined: bool = False
    every_s: int | None = None
    percents: bool = False  # the sheet says what its percentages are of, in a line of its own: no number is a load
    day_of: Of | None = None  # what the heading of its day says percentages are of
    first: bool = False  # the coach says below a piece that it is done before that
    text: list[str] = field(default_factory=list[str])
    label: str = ""
    weeks: dict[int, list[Group]] = field(default_factory=dict[int, list[Group]])
    parts: tuple[int, ...] = ()  # repetitions of each lift of a complex, from its heading
    strict: bool = False  # name and implement were written as a heading of their own
    pending: list[Any] = field(default_factory=list[Any])
    prose: bool = False
    in_block: bool = False  # a line above said how many sets each lift of a block has
    count: int = 0  # how many sets, where that stood on a line of its own
    clock_sets: int = 0  # sets that a clock above asks of each line
    minute_reps: int = 0  # repetitions of each minute, whose loads follow line by line

    @property
    def name(self) -> str:
        return " + ".join(self.names)

    def settle_reference(self) -> None:
        """`Bench press (1RM)` above percentages says what these are of; it is no test that comes before them."""
        first, more = (self.groups[0], self.groups[1:]) if self.groups else (None, [])
        more = [*more, *(each for groups in self.weeks.values() for each in groups)]
        if (
            isinstance(first, FindMax)
            and not first.heavy
            and first.within_s is None
            and self.of is None
            and more
            and all(isinstance(each, SetGroup) and isinstance(each.load, Percent) for each in more)
            and any(_REFERENCE.search(typed) for typed in self.text[:1])
        ):
            self.groups, self.of = self.groups[1:], Of(first.reps)

    @property
    def empty(self) -> bool:
        return not self.groups and not self.weeks

    @property
    def number_of_sets(self) -> int:
        """How many sets it has so far; a test is one."""
        return sum(group.sets if isinstance(group, SetGroup) else 1 for group in self.groups)

    def record(self, asker: Asker, defaults: Defaults, groups: list[Group] | None = None) -> LiftBlock:
        """Return the lift as it was understood; what is open is asked."""
        if (
            self.count > 1
            and len(self.groups) == 1
            and isinstance(self.groups[0], SetGroup)
            and self.groups[0].sets == 1
        ):
            self.groups = [replace(self.groups[0], sets=self.count)]
        if groups is None:
            self.groups = _told_again(self.groups)
        of = self._of(self.of, defaults, asker) if self.of else None
        sets = [self._settled(group, of, defaults, asker) for group in (self.groups if groups is None else groups)]
        bare = any(
            isinstance(each, SetGroup) and isinstance(each.load, Percent) and each.load.of is None for each in sets
        )
        said = {
            each.load.of
            for each in sets
            if isinstance(each, SetGroup) and isinstance(each.load, Percent) and each.load.of is not None
        }
        if bare and of is None and len(said) == 1 and not (only := next(iter(said))).heavy:
            of = only  # what one of its sets says holds for the others
        if bare and of is None:
            of = self._default_of(defaults, asker)
        shared = {each.load.of for each in sets if isinstance(each, SetGroup) and isinstance(each.load, Percent)}
        if (
            of is None
            and len(shared) == 1
            and None not in shared
            and all(
                not isinstance(each, SetGroup) or not isinstance(each.load, Percent) or each.load.of for each in sets
            )
        ):
            common = next(iter(shared))
            if common is not None and not common.heavy:
                of = common
        if of is not None:
            sets = [_without_of(each, of) for each in sets]
        return LiftBlock(
            tuple(self.names), self._implement(asker), of, self.each_side, self.rest_s, self.tempo, tuple(sets), tuple(self.alternatives),
            tuple(dict.fromkeys(note for note in self.notes if note)), self.joined, self.every_s, self.line, tuple(self.text),
        )  # fmt: skip

    def _settled(self, group: Group, of: Of | None, defaults: Defaults, asker: Asker) -> Group:
        if isinstance(group, SetGroup):
            if self.parts and len(group.reps.parts) <= 1 and not group.reps.out:
                times = group.reps.parts[0] if group.reps.parts and len(self.names) > 1 else 1
                if group.reps.parts and len(self.names) == 1 and group.sets == 1:
                    group = replace(group, sets=group.reps.parts[0])  # "3 position snatch x 5"
                if times > 1:
                    typed = defaults.typed.get(group.line, "").strip()
                    choices = (
                        Choice("in one set", f"the complex {times} times in one set"),
                        Choice("sets", f"{times} sets of the complex"),
                    )
                    if (
                        asker.choose(
                            "number behind a complex",
                            group.line or self.line,
                            typed,
                            f"{times} sets, or {times} times in one set?",
                            choices,
                        )
                        == "sets"
                    ):
                        group, times = replace(group, sets=group.sets * times), 1
                group = replace(group, reps=replace(group.reps, parts=tuple(part * times for part in self.parts)))
            if isinstance(group.load, Percent) and group.load.of is not None:
                group = replace(group, load=replace(group.load, of=self._of(group.load.of, defaults, asker)))
        return group if group.line else replace(group, line=self.line)

    def _of(self, of: Of, defaults: Defaults, asker: Asker) -> Of:
        if of.heavy:
            reps = next((each.reps for each in self.groups if isinstance(each, FindMax)), 1)
            return replace(of, reps=reps)
        if of.percent is not None and of.percent < 0:
            return replace(of, percent=defaults.training_max(asker, self.line, self.text[-1] if self.text else ""))
        return of

    def _default_of(self, defaults: Defaults, asker: Asker) -> Of:
        found = next((place for place, each in enumerate(self.groups) if isinstance(each, FindMax)), None)
        after = found is not None and any(
            isinstance(each, SetGroup) and isinstance(each.load, Percent) for each in self.groups[found + 1 :]
        )
        if after:
            heavy = next(each for each in self.groups if isinstance(each, FindMax))
            return Of(heavy.reps, heavy=True)
        if self.day_of is not None:
            return self.day_of
        if defaults.of is None and defaults.share is not None:
            return Of(1, percent=defaults.share)
        if defaults.of is not None:
            return self._of(defaults.of, defaults, asker)
        choices = (
            Choice("1RM", "of the 1RM"),
            Choice("training max", f"of a training max of {plain(TRAINING_MAX)} % of the 1RM"),
            Choice("3RM", "of the 3RM"),
            Choice("5RM", "of the 5RM"),
        )
        line = next(
            (
                each.line
                for each in self.groups
                if isinstance(each, SetGroup) and isinstance(each.load, Percent) and each.line
            ),
            self.line,
        )
        typed = defaults.typed.get(line, self.text[0] if self.text else "")
        taken = asker.choose("per cent of what", line, typed.strip(), "Per cent of what?", choices)
        return {"1RM": Of(1), "training max": Of(1, percent=TRAINING_MAX), "3RM": Of(3), "5RM": Of(5)}[taken]

    def _implement(self, asker: Asker) -> Implement:
        if self.implement and self.implement != "?":
            return self.implement  # type: ignore[return-value]
        if self.known is not None and self.known.implement != "?":
            return self.known.implement  # type: ignore[return-value]
        percent = any(isinstance(each, SetGroup) and isinstance(each.load, Percent) for each in self.groups)
        if self.known is None and (percent or len(self.names) > 1):
            return "barbell"
        name = self.names[0]
        if self.known is not None and _BY_A_BAR.search(name.lower()) and any(map(_heavy, self.groups)):
            return "barbell"
        codes = ("unasked", "barbell", "dumbbells", "dumbbell", "kettlebell", "machine", "body")
        words = {"unasked": "not known yet", "body": "no load"}
        choices = tuple(Choice(code, words.get(code, code)) for code in codes)
        typed = self.text[0] if self.text else name
        return asker.choose(f"implement of {name.lower()}", self.line, typed.strip(), f"{name} with what?", choices)  # type: ignore[return-value]


# Lifts that are done with a bar or with dumbbells; nobody presses two dumbbells of so much
_BY_A_BAR = re.compile(r"\b(?:press|squat|deadlift|row|lunge)\b")
_MOST_IN_A_HAND = Decimal(55)  # kilograms; design choice


def _heavy(group: Group) -> bool:
    return isinstance(group, SetGroup) and isinstance(group.load, Mass) and group.load.kg >= _MOST_IN_A_HAND


def _without_of(group: Group, of: Of) -> Group:
    """What the lift says for all its sets need not stand with each."""
    if isinstance(group, SetGroup) and isinstance(group.load, Percent) and group.load.of == of:
        return replace(group, load=replace(group.load, of=None))
    return group


@dataclass
class Defaults:
    """What a sheet says once for all of it: the share of a training max, what percentages are of, its unit."""

    share: Decimal | None = None
    of: Of | None = None
    unit: str = ""
    units: bool = False  # whether it names any unit of mass
    all_mass: bool = False  # whether it says that all its loads are in one unit
    typed: dict[int, str] = field(default_factory=dict[int, str])

    def training_max(self, asker: Asker, line: int, text: str) -> Decimal:
        """Return the share of the 1RM that a training max is; asked where the sheet does not say."""
        if self.share is not None:
            return self.share
        codes = ("90", "85", "95", "100")
        choices = tuple(Choice(code, f"{code} % of the 1RM") for code in codes)
        where = next(
            (
                number
                for number, typed in self.typed.items()
                if "training max" in typed.lower() or "tm" in typed.lower().split()
            ),
            line,
        )
        return Decimal(
            asker.choose(
                "share of a training max",
                where,
                self.typed.get(where, text).strip(),
                "A training max of how much?",
                choices,
            )
        )


@dataclass
class TextDraft:
    """Free words of the coach."""

    kind: TextKind
    line: int
    lines: list[str] = field(default_factory=list[str])
    explicit: bool = False

    def record(self) -> Text:
        return Text(self.kind, tuple(self.lines), self.line)


@dataclass
class SessionDraft:
    """A session: its day and its items."""

    line: int = 0
    title: str = ""
    part: str = ""  # of its day, where the sheet names one
    week: int | None = None
    day: int | None = None
    weekday: int | None = None
    on: date | None = None
    month_day: tuple[int, int] | None = None
    items: list[LiftDraft | PieceDraft | TextDraft] = field(default_factory=list[LiftDraft | PieceDraft | TextDraft])
    headed: bool = False
    of: Of | None = None  # what its heading or a sentence says that all percentages are of
