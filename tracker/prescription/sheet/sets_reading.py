"""Reads the sets of a lift from tokens: how many, of how many repetitions, at which load, with which rest and effort."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.asks import Asker, Choice
from tracker.prescription.sheet.durations import seconds
from tracker.prescription.sheet.model import FindMax, InReserve, MassRange, Of, Percent, Reps, Rpe, SetGroup
from tracker.prescription.sheet.piece import Pair
from tracker.prescription.sheet.set_rows import in_order
from tracker.prescription.sheet.tokens import Token
from tracker.units import MOST_KG, Mass, plain

MOST_SETS, MOST_REPS, MOST_PERCENT, MOST_RM = 100, 500, 250, 30  # more is no set of a lift; design choice
Group = SetGroup | FindMax
SETS_KINDS = frozenset({
    "setsx", "sets", "setcount", "find", "loadx", "pct", "pctoff", "rpe", "rir", "tempo", "list", "max", "plus", "complex", "atx", "atlist", "rm", "masslist",
})  # fmt: skip
# Words of the sets themselves that need not be kept when they stand between what was read.
SILENT = frozenset({
    "@", "at", "of", "x", "sets", "set", "reps", "rep", "a", "the", "about", "with", "do", "for", "please", "each", "then", "per",
    "around", "approx", "ca", "ca.", "work", "up", "to", "now", "more", "is", "on", "all", "your", "singles",
})  # fmt: skip


_CHANGE_WORDS = frozenset(
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
    sure_mass: bool = False  # the lift has loads with a unit already
    sure_percent: bool = False  # the lift has percentages with their sign already
    above: tuple[Group, ...] = ()  # the sets of the lift that stand above
    of_words: str = ""  # of which rep-max a percentage would be, where one is in force


@dataclass
class SetsRead:
    """What a run of tokens says of sets."""

    groups: list[Group] = field(default_factory=list)
    rest_s: int | None = None
    tempo: str = ""
    effort: Rpe | InReserve | None = None
    of: Of | None = None
    of_unknown: bool = False  # "of max" and the like were said
    each_side: bool = False
    every_s: int | None = None
    notes: list[str] = field(default_factory=list)
    loads: list[Any] = field(default_factory=list)  # loads that found no sets yet
    within_s: int | None = None
    left: list[Token] = field(default_factory=list)
    used: int = 0


def unit_of(word: str) -> str:
    return "lb" if word.strip().startswith(("lb", "#", "pound")) else "kg"


def read_sets(tokens: list[Token], scene: Scene) -> SetsRead:
    """Read sets from tokens; what says nothing of sets is in `left`."""
    reader = _Reader(in_order(tokens), scene)
    reader.run()
    return reader.found


class _Reader:
    def __init__(self, tokens: list[Token], scene: Scene) -> None:
        self.tokens, self.scene, self.found = tokens, scene, SetsRead()
        self.at = 0
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

    def run(self) -> None:
        while self.at < len(self.tokens):
            token = self.tokens[self.at]
            handler = getattr(self, f"_on_{token.kind}", None)
            if handler is None or handler(token) is False:
                self.found.left.append(token)
            else:
                self.found.used += 1
            self.at += 1
        self._settle()

    # groups

    def _add(self, sets: int, reps: Reps, load: Any = None) -> None:
        if not 1 <= sets <= MOST_SETS or any(part > MOST_REPS for part in reps.parts):
            return
        if self.span is not None:
            sets, self.span = self.span[1] - self.span[0] + 1, None
        if reps.out and reps.parts and sets > 1:
            self._add(sets - 1, replace(reps, out=False), load)
            sets = 1
        group = SetGroup(sets, reps, load)
        groups = self.found.groups
        groups.append(group)
        if load is None and len(self.found.loads) == 1 and not _any_load(groups[:-1]):
            loads, self.found.loads = self.found.loads, []
            self._load(loads)

    def _on_setsx(self, token: Token) -> None:
        sets, reps, kind, *more = token.value
        if kind == "complex":
            self._add(sets, Reps(tuple(reps)))
        elif kind == "load":
            amount, unit, percent = more
            if percent:
                self._add(sets, Reps((reps[0],)), self._percent([amount]))
            elif unit or amount >= 20 or amount != int(amount):
                self._add(sets, Reps((reps[0],)), Mass(amount, unit_of(unit) if unit else self._unit()))  # type: ignore[arg-type]
            elif sets >= 20:
                self._add(int(amount), Reps((reps[0],)), Mass(Decimal(sets), self._unit()))
            else:
                self._add(sets, Reps((reps[0],)))
                self.found.notes.append(token.text)
        elif kind == "list":
            if len(reps) == sets:
                self._each(reps)
            else:
                for part in reps:
                    self._add(1, Reps((part,)))
        elif kind == "range":
            low, high = sorted(reps)
            self._add(sets, Reps((low,), high if high > low else None))
        elif kind == "pair":
            if reps[0] == reps[1]:
                self.found.each_side = True
                self._add(sets, Reps((reps[0],)))
            elif sets == 2:
                self._each(reps)
            else:
                low, high = sorted(reps)
                self._add(sets, Reps((low,), high))
        elif kind == "max":
            self._add(sets, Reps((), out=True))
        else:
            reps_of = reps[0]
            sets = self._order(token, sets, reps_of)
            if sets != token.value[0]:
                reps_of = token.value[0]
            if kind == "plus" and sets > 1:
                self._add(sets - 1, Reps((reps_of,)))
                self._add(1, Reps((reps_of,), out=True))
            else:
                self._add(sets, Reps((reps_of,), out=kind == "plus"))

    def _order(self, token: Token, sets: int, reps: int) -> int:
        """Sets come first, but a list of loads as long as the second number speaks for repetitions first."""
        after = self.peek()
        if (
            sets != reps
            and after is not None
            and after.kind == "pct"
            and len(after.value[0]) > 2
            and len(after.value[0]) == reps != sets
        ):
            choices = (Choice("sets first", f"{sets} sets of {reps}"), Choice("reps first", f"{reps} sets of {sets}"))
            return (
                sets
                if self._ask(f"order of {token.text}", f"{sets} sets of {reps}, or {reps} of {sets}?", choices)
                == "sets first"
                else reps
            )
        if sets > 10 and reps <= 5 and sets <= 30:
            choices = (Choice("sets first", f"{sets} sets of {reps}"), Choice("reps first", f"{reps} sets of {sets}"))
            if (
                self._ask("order of sets and repetitions", f"{sets} sets of {reps}, or {reps} of {sets}?", choices)
                == "reps first"
            ):
                return reps
        return sets

    def _ask(self, key: str, question: str, choices: tuple[Choice, ...]) -> str:
        return self.scene.asker.choose(key, self.scene.line, self.scene.typed, question, choices)

    def _each(self, reps: list[int], *, out: bool = False) -> None:
        """Add one set for each number, equal neighbours together."""
        run: list[list[int]] = []
        for part in reps:
            if run and run[-1][0] == part:
                run[-1][1] += 1
            else:
                run.append([part, 1])
        for place, (part, count) in enumerate(run):
            if out and place == len(run) - 1:
                if count > 1:
                    self._add(count - 1, Reps((part,)))
                self._add(1, Reps((part,), out=True))
            else:
                self._add(count, Reps((part,)))

    def _on_sets(self, token: Token) -> None:
        self._add(token.value[0], Reps((token.value[1],)))

    def _on_list(self, token: Token) -> bool | None:
        numbers, more, out = token.value
        if more is not None or any(number > 100 for number in numbers) or len(numbers) > 15 or min(numbers) >= 30:
            return False
        self._each(numbers, out=out)
        return None

    def _on_complex(self, token: Token) -> None:
        after = self.peek()
        if after is not None and after.kind == "xnum":
            self.at += 1
            self._add(after.value, Reps(tuple(token.value)))
        else:
            self._add(1, Reps(tuple(token.value)))

    def _on_plus(self, token: Token) -> None:
        last = self.found.groups[-1] if self.found.groups else None
        behind = " ".join(each.text for each in self.tokens[max(0, self.at - 3) : self.at])
        if "last" in behind and isinstance(last, SetGroup) and last.reps.parts == (token.value,) and not last.reps.out:
            self.found.groups[-1:] = [replace(last, sets=last.sets - 1)] if last.sets > 1 else []
            self.found.groups.append(replace(last, sets=1, reps=replace(last.reps, out=True)))
            return
        self._add(1, Reps((token.value,), out=True))

    def _on_reps(self, token: Token) -> bool | None:
        if (
            self.found.groups
            and isinstance(self.found.groups[-1], SetGroup)
            and not self.found.groups[-1].reps.parts
            and not self.found.groups[-1].reps.out
        ):
            self.found.groups[-1] = replace(self.found.groups[-1], reps=Reps((token.value,)))
            return None
        last, after = self.found.groups[-1] if self.found.groups else None, self.peek()
        if (
            isinstance(last, SetGroup)
            and last.sets > 1
            and last.reps.parts
            and (after is None or after.kind not in ("pct", "mass", "atx", "rpe", "rir"))
        ):
            return False  # words about the sets, such as "so that 1 rep is left", not one more set
        self._add(1, Reps((token.value,)))
        return None

    def _on_num(self, token: Token) -> bool | None:
        """A bare number is repetitions where a load follows, or a load stood before."""
        after = self.peek()
        value = token.value
        if value != int(value):
            return False
        if (
            after is not None
            and after.kind in ("pct", "mass", "atx", "atlist", "rpe", "rir", "added")
            and after.start - token.end <= 12
        ):
            words = [t.text for t in self.tokens[self.at + 1 :] if t.start < after.start and t.kind == "word"]
            if all(word in ("@", "at", "of", "reps", "x", "with") for word in words):
                last = self.found.groups[-1] if self.found.groups else None
                if isinstance(last, SetGroup) and not last.reps.parts and not last.reps.out and last.load is None:
                    self.found.groups[-1] = replace(last, reps=Reps((int(value),)))  # "2 back-off sets 8 @ 65"
                else:
                    self._add(1, Reps((int(value),)))
                return None
        before = self.tokens[self.at - 1] if self.at else None
        if (
            before is not None
            and before.kind == "setsx"
            and 40 <= value <= 105
            and _no_load(self.found.groups[-1] if self.found.groups else None)
        ):
            following = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else None
            if following is None or following.kind in ("rest", "sep", "tempo", "andword", "each", "of"):  # "3x3 80"
                return self._on_atx(token)
        if before is not None and before.kind == "setlabel":
            self._add(1, Reps((int(value),)))
            return None
        return False

    def _on_xnum(self, token: Token) -> bool | None:
        if self.found.loads and not (self.found.groups and not _any_load(self.found.groups)):
            load_list = self.found.loads
            after = self.peek()
            sets = 1
            if after is not None and after.kind in ("xnum",):
                sets, self.at = after.value, self.at + 1
            elif after is not None and after.kind == "setsx":
                pass
            self.found.loads = []
            if len(load_list) > 1:
                for load in load_list:
                    self._add(1, Reps((token.value,)), load)
            else:
                self._add(sets, Reps((token.value,)), load_list[0])
            return None
        before = self.found.groups[-1] if self.found.groups else None
        near = self.tokens[self.at - 1].kind if self.at else ""
        if (
            isinstance(before, SetGroup)
            and before.sets == 1
            and (len(before.reps.parts) > 1 or (before.load is not None and near in ("pct", "mass", "atx", "of")))
            and token.value <= 20
        ):
            self.found.groups[-1] = replace(before, sets=token.value)
            return None
        if not self.found.groups:
            self._add(1, Reps((token.value,)))
            return None
        return False

    def _on_range(self, token: Token) -> bool | None:
        low, high = token.value
        if (
            low < high <= 30
            and (after := self.peek()) is not None
            and after.kind in ("pct", "mass", "rpe", "rir", "reps")
        ):
            self._add(1, Reps((low,), high))
            return None
        word = self.tokens[self.at + 1].text if self.at + 1 < len(self.tokens) else ""
        if low < high <= 100 and word.startswith("rep"):
            if (
                self.found.groups
                and isinstance(self.found.groups[-1], SetGroup)
                and not self.found.groups[-1].reps.parts
            ):
                self.found.groups[-1] = replace(self.found.groups[-1], reps=Reps((low,), high))
            else:
                self._add(1, Reps((low,), high))
            self.at += 1
            return None
        return False

    def _on_max(self, token: Token) -> None:
        groups = self.found.groups
        last = groups[-1] if groups else None
        behind = " ".join(t.text for t in self.tokens[max(0, self.at - 4) : self.at])
        if isinstance(last, SetGroup) and last.reps.parts and "last" in behind and not last.reps.out:
            if last.sets > 1:
                groups[-1] = replace(last, sets=last.sets - 1)
                groups.append(replace(last, sets=1, reps=replace(last.reps, out=True)))
            else:
                groups[-1] = replace(last, reps=replace(last.reps, out=True))
        elif isinstance(last, SetGroup) and not last.reps.parts:
            groups[-1] = replace(last, reps=Reps((), out=True))
        elif isinstance(last, SetGroup) and last.reps.out:
            return
        else:
            self._add(1, Reps((), out=True))

    def _on_setlabel(self, token: Token) -> None:
        self.span = token.value

    def _on_setcount(self, token: Token) -> bool | None:
        groups = self.found.groups
        last = groups[-1] if groups else None
        if isinstance(last, SetGroup) and last.sets == 1 and 1 <= token.value <= MOST_SETS:
            groups[-1] = replace(last, sets=token.value)
            return None
        after = self.peek()
        if groups and isinstance(last, SetGroup) and last.load is not None and after is not None and after.kind in ("pct", "atx", "mass"):
            self._add(token.value, last.reps if not last.reps.out else Reps(()))
            return None
        if groups:
            return False
        if after is not None and after.kind == "max":
            self.at += 1
            self._add(token.value, Reps((), out=True))
            return None
        self._add(token.value, Reps(()))
        return None

    def _on_pctoff(self, token: Token) -> None:
        above = next(
            (each for each in reversed([*self.scene.above, *self.found.groups]) if isinstance(each, FindMax) or each.load is not None),
            None,
        )
        if isinstance(above, SetGroup) and isinstance(above.load, Percent) and above.load.high is None:
            # so much less than the sets above, which are a percentage themselves: 10 % off 85 % is 76.5 %
            less = above.load.amount * Decimal(token.value) / 100
            self._load([Percent(less.normalize() if less != less.to_integral() else less.to_integral(), above.load.of)])
            return
        self._load([Percent(Decimal(token.value), Of(1, heavy=True))])

    def _on_find(self, token: Token) -> None:
        reps, heavy = token.value
        last = self.found.groups[-1] if self.found.groups else None
        if (
            heavy
            and token.text.startswith("top ")
            and isinstance(last, SetGroup)
            and last.reps.parts == (reps,)
            and last.load is None
        ):
            # "3-3-2-2-1-1, top single near 90 %": the last one of these sets
            if last.sets > 1:
                self.found.groups[-1:] = [replace(last, sets=last.sets - 1), replace(last, sets=1)]
            self.last_only = True
            return
        if 1 <= reps <= MOST_RM:
            self.found.groups.append(FindMax(reps, heavy))

    def _on_rm(self, token: Token) -> bool | None:
        if self.found.groups or not 1 <= token.value <= MOST_RM:
            return False
        before = self.tokens[self.at - 1] if self.at else None
        if (
            before is not None
            and before.kind in ("word", "num")
            and before.text in ("of", "off", "from", "%", "last", "old", "your")
        ):
            return False
        self.found.groups.append(FindMax(token.value))
        return None

    # loads

    def _percent(self, amounts: list[Decimal], *, ranged: bool = False, of: Of | None = None) -> Percent:
        if ranged and len(amounts) == 2 and amounts[0] != amounts[1]:
            low, high = sorted(amounts)
            return Percent(low, of, high)
        return Percent(amounts[0], of)

    def _on_pct(self, token: Token) -> bool | None:
        amounts, text = token.value
        if any(not 0 < amount <= MOST_PERCENT for amount in amounts):
            return False
        before = self.tokens[self.at - 1].text if self.at else ""
        if before in _CHANGE_WORDS and before != "plus":
            self.found.notes.append(f"{before} {token.text}")  # "add 3 % each set": a change, not the load
            return None
        if len(amounts) == 2 and ("-" in text or " to " in text):
            loads: list[Any] = [self._percent(amounts, ranged=True)]
        else:
            loads = [Percent(amount) for amount in amounts]
        self._load(loads)
        return None

    def _on_atx(self, token: Token) -> bool | None:
        value = token.value
        load = self._bare(value, token)
        if load is None:
            return False
        self._load([load])
        return None

    def _on_masslist(self, token: Token) -> bool | None:
        """Loads with a unit, one for each set."""
        amounts, _, unit = token.value
        if any(not 0 < Mass(amount, unit).kg <= MOST_KG for amount in amounts):
            return False
        self._load([Mass(amount, unit) for amount in amounts])
        return None

    def _on_setloads(self, token: Token) -> None:
        """Loads of sets that are told by their numbers."""
        loads: list[Any] = []
        for each, count in token.value:
            loads += [self._one_load(each)] * count
        if None not in loads:
            self._load(loads)

    def _one_load(self, token: Token) -> Any:
        if token.kind == "pct":
            amounts, text = token.value
            return self._percent(amounts, ranged="-" in text or " to " in text)
        if token.kind == "mass":
            amounts, unit, *_ = token.value
            return Mass(amounts[0], unit_of(unit)) if len(amounts) == 1 else None  # type: ignore[arg-type]
        return self._bare(token.value, token)

    def _on_atlist(self, token: Token) -> None:
        """`@ 75 85 95`: a load for each set, without a sign; `@ 75-80` is a range."""
        amounts, sign = token.value
        first = self.scene.percent_near or not self.scene.mass_near
        loads = [self._signless(amount, percent_first=first) for amount in amounts]
        low, high = loads[0], loads[-1]
        if sign == "-" and len(loads) == 2 and amounts[0] < amounts[1]:
            if isinstance(low, Percent) and isinstance(high, Percent):
                loads = [Percent(low.amount, None, high.amount)]
            elif isinstance(low, Mass) and isinstance(high, Mass):
                loads = [MassRange(low, high)]
        self._load(loads)

    def _bare(self, value: Decimal, token: Token) -> Any:
        """Read a load without a sign: a rated effort, per cent, or kilograms; asked, but where the block has one kind."""
        if value <= 10 and value * 2 == int(value * 2) and value >= 5:
            return Rpe(value)
        if value < 20:
            return None
        return self._signless(value, percent_first=self.scene.percent_near or not self.scene.mass_near)

    def _signless(self, value: Decimal, *, percent_first: bool) -> Any:
        """Read a load without a sign: as the block's other loads are, where they have one; else asked."""
        kinds = {token.kind for token in self.tokens}
        mass_here, percent_here = self.scene.sure_mass or "mass" in kinds, self.scene.sure_percent or "pct" in kinds
        if value > 105 or (mass_here and not percent_here):
            return Mass(value, self._unit())
        if percent_here and not mass_here:
            return Percent(value)
        percent = Choice("percent", f"{plain(value)} %{self.scene.of_words}")
        mass = Choice("mass", f"{plain(value)} {self._unit()}")
        order = (percent, mass) if percent_first else (mass, percent)
        taken = self._ask("loads without a sign", f"{plain(value)} of what?", order)
        return Percent(value) if taken == "percent" else Mass(value, self._unit())

    def _unit(self) -> Any:
        return self.scene.unit or "kg"

    def _on_mass(self, token: Token) -> bool | None:
        amounts, unit, _, sign = token.value
        unit = unit_of(unit)
        behind = " ".join(each.text for each in self.tokens[max(0, self.at - 2) : self.at])
        if behind.endswith("up to") and self.found.groups:
            self.found.notes.append(f"up to {token.text}")
            return None
        if behind.split(" ")[-1] in _CHANGE_WORDS:  # "add 1.25 kg": a change, not the load
            self.found.notes.append(f"{behind.split(' ')[-1]} {token.text}")
            return None
        if any(not 0 < Mass(amount, unit).kg <= MOST_KG for amount in amounts):  # type: ignore[arg-type]
            return False
        masses = [Mass(amount, unit) for amount in amounts]  # type: ignore[arg-type]
        if len(masses) == 2 and sign in ("-", "to") and masses[0].amount < masses[1].amount:
            self._load([MassRange(masses[0], masses[1])])
        elif len(masses) == 2:
            larger, smaller = sorted(masses, key=lambda each: -each.amount)
            self._load([Pair(larger, smaller)] if larger != smaller else [larger])
        else:
            self._load(masses)
        return None

    def _on_added(self, token: Token) -> bool | None:
        before = " ".join(t.text for t in self.tokens[max(0, self.at - 3) : self.at])
        after = " ".join(t.text for t in self.tokens[self.at + 1 : self.at + 5])
        if any(
            word in f"{before} {after}"
            for word in ("last", "week", "each", "every", "time", "to last", "set", "start", "everybody")
        ):
            self.found.notes.append(f"{token.text} {after}".strip())
            return False
        amounts, unit = token.value
        return self._on_mass(replace(token, value=(amounts, unit, 1, "/")))

    def _on_pair(self, token: Token) -> bool | None:
        larger, smaller = token.value
        if (
            self.found.groups
            and larger > smaller
            and smaller * 10 >= larger * 4
            and larger >= 12
            and _no_load(self.found.groups[-1])
        ):
            self._load([Pair(Mass(larger, self._unit()), Mass(smaller, self._unit()))])
            return None
        return False

    def _on_mass2(self, token: Token) -> bool | None:
        amounts, _, _ = token.value
        self._load([Pair(Mass(amounts[0], self._unit()), Mass(amounts[1], self._unit()))])
        return None

    def _on_loadx(self, token: Token) -> None:
        amount, unit, reps, out, sets = token.value
        load: Any = Mass(amount, unit_of(unit)) if unit else None  # type: ignore[arg-type]
        if load is None:
            load = self._bare_load(amount)
        numbers = [reps] if isinstance(reps, int) else reps
        for place, number in enumerate(numbers):
            self._add(sets, Reps((number,), out=out and place == len(numbers) - 1), load)

    def _bare_load(self, amount: Decimal) -> Any:
        """Read the number before x: kilograms or per cent, both are typed so."""
        return self._signless(amount, percent_first=self.scene.percent_near)

    def _load(self, loads: list[Any]) -> None:
        """Give loads to the sets before them that have none, else keep them for those that follow."""
        groups = self.found.groups
        bare = [place for place, group in enumerate(groups) if _no_load(group)]
        if bare and self.last_only:
            bare, self.last_only = bare[-1:], False
        if bare and len(loads) == 1 and self._starting():
            self._first_only(bare[0], loads[0])
            return
        if not bare:
            if (
                groups
                and isinstance(groups[-1], SetGroup)
                and groups[-1].load is not None
                and self._effort_beside(loads)
            ):
                return
            self.found.loads += loads
            return
        if len(loads) == 1:
            for place in bare:
                groups[place] = replace(groups[place], load=loads[0])  # type: ignore[arg-type]
            return
        self._spread(loads, bare)

    def _starting(self) -> bool:
        """Whether a load is only that of the first set: "start @ 65 %"."""
        before = [token.text for token in self.tokens[max(0, self.at - 3) : self.at]]
        text = self.tokens[self.at].text if self.at < len(self.tokens) else ""
        return any(word.startswith(("start", "begin")) for word in (*before, text))

    def _first_only(self, place: int, load: Any) -> None:
        groups = self.found.groups
        group = groups[place]
        assert isinstance(group, SetGroup)
        first = replace(group, sets=1, load=load)
        groups[place : place + 1] = [first, replace(group, sets=group.sets - 1)] if group.sets > 1 else [first]
        self.started = place

    started: int | None = None
    last_only = False  # the next load is that of the last set alone

    def _effort_beside(self, loads: list[Any]) -> bool:
        last = self.found.groups[-1]
        if (
            len(loads) == 1
            and isinstance(last, SetGroup)
            and isinstance(loads[0], Rpe | InReserve)
            and not isinstance(last.load, Rpe | InReserve)
            and last.effort is None
        ):
            self.found.groups[-1] = replace(last, effort=loads[0])
            return True
        return False

    def _spread(self, loads: list[Any], bare: list[int]) -> None:
        """Give each set its load of a list: one by one; the last one holds on where there are more sets."""
        groups = self.found.groups
        singles: list[SetGroup] = []
        first = bare[0]
        for place in bare:
            group = groups[place]
            assert isinstance(group, SetGroup)
            singles += [replace(group, sets=1)] * group.sets
        if len(singles) == 1 and len(loads) > 1:
            singles = singles * len(loads)
        if len(singles) != len(loads):
            words = ", ".join(_words(load) for load in loads)
            choices = (
                Choice("last repeats", f"one after the other, the last one for the rest: {words}"),
                Choice("range", f"each set anywhere within {words}"),
            )
            self._ask("fewer loads than sets", f"{len(loads)} loads for {len(singles)} sets?", choices)
        given = [replace(group, load=loads[min(place, len(loads) - 1)]) for place, group in enumerate(singles)]
        merged: list[Group] = []
        for group in given:
            last = merged[-1] if merged else None
            if isinstance(last, SetGroup) and replace(last, sets=1) == group:
                merged[-1] = replace(last, sets=last.sets + 1)
            else:
                merged.append(group)
        kept = [group for place, group in enumerate(groups) if place not in bare]
        groups[:] = [*kept[:first], *merged, *kept[first:]]

    # effort, rest, tempo, sides

    def _on_rpe(self, token: Token) -> bool | None:
        low, high = token.value
        value, top = Decimal(low), Decimal(high) if high else None
        if not 1 <= value <= 10 or (top is not None and not value < top <= 10):
            return False
        self._effort(Rpe(value, top))
        return None

    def _on_rir(self, token: Token) -> bool | None:
        low, high = token.value
        value, top = Decimal(low), Decimal(high) if high else None
        if value > 10:
            return False
        self._effort(InReserve(value, top if top and top > value else None))
        return None

    def _effort(self, effort: Any) -> None:
        groups = self.found.groups
        if not groups:
            self.found.loads.append(effort)
            return
        done = False
        for place, group in enumerate(groups):
            if _no_load(group):
                groups[place] = replace(group, load=effort)  # type: ignore[arg-type]
                done = True
        if not done:
            last = groups[-1]
            if isinstance(last, SetGroup) and last.effort is None and not isinstance(last.load, Rpe | InReserve):
                groups[-1] = replace(last, effort=effort)
            elif isinstance(last, FindMax):
                self.found.notes.append(_words(effort))

    def _on_rest(self, token: Token) -> bool | None:
        if not 0 < token.value <= 24 * 3600:
            return False
        groups = self.found.groups
        bare = [place for place, group in enumerate(groups) if group.rest_s is None]
        if not bare:
            self.found.rest_s = self.found.rest_s or token.value
        for place in bare:
            groups[place] = replace(groups[place], rest_s=token.value)
        return None

    def _on_tempo(self, token: Token) -> None:
        groups = self.found.groups
        bare = [place for place, group in enumerate(groups) if isinstance(group, SetGroup) and not group.tempo]
        if not bare:
            self.found.tempo = token.value
        for place in bare:
            groups[place] = replace(groups[place], tempo=token.value)  # type: ignore[arg-type]

    def _on_each(self, token: Token) -> None:
        self.found.each_side = True

    def _on_time(self, token: Token) -> bool | None:
        """A time behind a test is the time that it has."""
        last = self.found.groups[-1] if self.found.groups else None
        if isinstance(last, FindMax) and last.within_s is None and 60 <= token.value <= 3600:
            self.found.groups[-1] = replace(last, within_s=token.value)
            return None
        before = self.tokens[self.at - 1] if self.at else None
        if (
            isinstance(last, SetGroup)
            and self.at == len(self.tokens) - 1
            and before is not None
            and before.text in (",", ";")
            and 45 <= token.value <= 300
            and last.rest_s is None
        ):  # "4 x 3 @ 95 %, 90s": a length that stands alone behind sets
            return self._on_rest(token)
        if (
            not self.found.groups
            and 60 <= token.value <= 3600
            and any(t.kind == "find" for t in self.tokens[self.at :])
        ):
            self.found.within_s = token.value
            return None
        return False

    def _on_every(self, token: Token) -> bool | None:
        found = token.value
        if found["t"] or found["x"] or found["other"]:
            return False
        self.found.every_s = 60 if found["m"] else seconds(found["d"]) if found["d"] else int(found["n"]) * 60
        return None

    def _on_of(self, token: Token) -> bool | None:
        before = self.tokens[self.at - 1] if self.at else None
        if before is not None and before.text in ("not", "nicht", "pas", "no", "never"):
            return False  # "of your tested 3RM, not of your one-rep max"
        kind, *more = token.value
        of: Of | None
        if kind == "rm":
            of = Of(more[0]) if 1 <= more[0] <= MOST_RM else None
        elif kind == "max":
            of = Of(1)
            self.found.of_unknown = True
        elif kind == "tm":
            of = Of(1, percent=Decimal(-1))
        elif kind == "tmp":
            of = Of(more[1], percent=more[0]) if 1 <= more[1] <= MOST_RM and 0 < more[0] <= 100 else None
        elif kind == "heavy":
            of = Of(more[0], heavy=True) if 1 <= more[0] <= MOST_RM else None
        elif kind == "it":
            of = Of(1, heavy=True)
        else:
            return False
        if of is None:
            return False
        name = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else None
        if name is not None and name.kind == "name" and kind in ("rm", "max", "tmp"):
            of = replace(of, lift=name.value.name)
            self.at += 1
        mine = [
            place
            for place, group in enumerate(self.found.groups)
            if isinstance(group, SetGroup) and isinstance(group.load, Percent) and group.load.of is None
        ]
        pending = [
            place for place, load in enumerate(self.found.loads) if isinstance(load, Percent) and load.of is None
        ]
        if not mine and not pending:
            self.found.of = of
        for place in mine:
            group = self.found.groups[place]
            assert isinstance(group, SetGroup)
            assert isinstance(group.load, Percent)
            self.found.groups[place] = replace(group, load=replace(group.load, of=of))
        for place in pending:
            self.found.loads[place] = replace(self.found.loads[place], of=of)
        return None

    def _settle(self) -> None:
        """Give loads that wait to the sets that have none."""
        self.found.groups = ramped(self.found.groups, " ".join(token.text for token in self.tokens))
        if self.found.loads and any(_no_load(group) for group in self.found.groups):
            loads, self.found.loads = self.found.loads, []
            self._load(loads)
        if self.found.within_s:
            for place, group in enumerate(self.found.groups):
                if isinstance(group, FindMax) and group.within_s is None:
                    self.found.groups[place] = replace(group, within_s=self.found.within_s)


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
        or re.search(r"\b(?:back|drop|down|after|of (?:it|that|today))\b", words)
    ):
        return groups
    return [*rest, first]


def _no_load(group: Group | None) -> bool:
    return isinstance(group, SetGroup) and group.load is None


def _any_load(groups: list[Group]) -> bool:
    return any(isinstance(group, SetGroup) and group.load is not None for group in groups)


def _words(load: Any) -> str:
    if isinstance(load, Percent):
        return f"{plain(load.amount)}" + (f"-{plain(load.high)}" if load.high else "") + " %"
    if isinstance(load, Rpe):
        return f"RPE {plain(load.value)}"
    if isinstance(load, InReserve):
        return f"{plain(load.reps)} in reserve"
    if isinstance(load, MassRange):
        return f"{plain(load.low.amount)}-{load.high}"
    return str(load)


def spread(groups: list[Group], loads: list[Any], scene: Scene) -> list[Group]:
    """Give loads that stand on a line of their own to the sets above that have none."""
    reader = _Reader([], scene)
    reader.found.groups = list(groups)
    reader._load(list(loads))
    return reader.found.groups
