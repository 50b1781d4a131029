"""Reads how heavy sets are from tokens: percentages, loads, lists of them, and which sets they are of."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.lifts.sets_found import (
    CHANGE_WORDS,
    LEAST_PERCENT,
    MOST_PERCENT,
    PLATES_LB,
    Given,
    Group,
    effort_beside,
    load_words_of,
    no_load,
    unit_of,
)
from tracker.prescription.sheet.model import FindMax, MassRange, Of, Percent, Rpe, SetGroup
from tracker.prescription.sheet.piece import Pair
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.units import MOST_KG, Mass, plain


class Loads(Given):
    """The loads of sets."""

    def _percent(self, amounts: list[Decimal], *, ranged: bool = False, of: Of | None = None) -> Percent:
        if ranged and len(amounts) == 2 and amounts[0] != amounts[1]:
            low, high = sorted(amounts)
            return Percent(low, of, high)
        return Percent(amounts[0], of)

    def _on_pct(self, token: Token) -> bool | None:
        amounts, text = token.value
        if any(not 0 < amount <= MOST_PERCENT for amount in amounts):
            return False
        if min(amounts) < LEAST_PERCENT and not token.text.lstrip().startswith(("@", "at")):
            return False  # "go up 3 % each set" is no load
        before = self.tokens[self.at - 1].text if self.at else ""
        if before in CHANGE_WORDS and before != "plus":
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

    def _on_bells(self, token: Token) -> None:
        """`DB curls 30s 3x12`: what each of a pair weighs, in the sheet's unit; asked where it names none."""
        value, unit = token.value, self.scene.unit
        if not unit:
            kilos, pounds = Choice("kg", f"{plain(value)} kg"), Choice("lb", f"{plain(value)} lb")
            unit = self._ask("unit of dumbbells", f"{plain(value)} kg or lb?", (kilos, pounds))
        self._load([Mass(value, unit)])  # type: ignore[arg-type]

    def _on_emptybar(self, token: Token) -> bool:
        """Sets with the empty bar take no load that is told for others; how heavy the bar is no sheet knows."""
        groups = self.found.groups
        if groups and no_load(self._last):
            self.apart.add(len(groups) - 1)
        return False

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
        percent_here = percent_here or any(
            token.kind == "of" and token.value[0] in ("rm", "tm", "tmp", "max") for token in self.tokens
        )  # "3RM based, 5@70": of it, not so many kilograms
        if value > 105 and not self.scene.unit and value in PLATES_LB and not mass_here:
            pounds, kilos = Choice("lb", f"{plain(value)} lb"), Choice("kg", f"{plain(value)} kg")
            unit = self._ask("unit of loads", f"{plain(value)} lb or kg?", (pounds, kilos))
            return Mass(value, unit)  # type: ignore[arg-type]
        listed = [number for each in self.tokens if each.kind in ("list", "atlist") for number in each.value[0]]
        heavier = any(number > 105 for number in listed) and value in listed  # "100 - 110 - 120": all of them kilograms
        if value > 105 or ((mass_here or heavier) and not percent_here):
            return Mass(value, self._unit())
        if percent_here and not mass_here:
            return Percent(value)
        loads = [each.value[0] for each in self.tokens if each.kind == "loadx"]
        percent_first = percent_first and 38 <= value <= 100 and not any(load > 105 for load in loads)
        percent = Choice("percent", f"{plain(value)} %{self.scene.of_words}")
        mass = Choice("mass", f"{plain(value)} {self._unit()}")
        order = (percent, mass) if percent_first else (mass, percent)
        taken = self._ask("loads without a sign", f"{plain(value)} of what?", order)
        return Percent(value) if taken == "percent" else Mass(value, self._unit())

    def _on_mass(self, token: Token) -> bool | None:
        amounts, unit, _, sign = token.value
        unit = unit_of(unit)
        behind = " ".join(each.text for each in self.tokens[max(0, self.at - 2) : self.at])
        if behind.endswith("up to") and self.found.groups:
            self.found.notes.append(f"up to {token.text}")
            return None
        if behind.split(" ")[-1] in CHANGE_WORDS:  # "add 1.25 kg": a change, not the load
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
            for word in (
                "last",
                "week",
                "each",
                "every",
                "time",
                "to last",
                "set",
                "start",
                "everybody",
                "same as",
                "day",
            )
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
            and no_load(self.found.groups[-1])
        ):
            self._load([Pair(Mass(larger, self._unit()), Mass(smaller, self._unit()))])
            return None
        return False

    def _on_mass2(self, token: Token) -> bool | None:
        amounts, _, _ = token.value
        self._load([Pair(Mass(amounts[0], self._unit()), Mass(amounts[1], self._unit()))])
        return None

    def _load(self, loads: list[Any]) -> None:
        """Give loads to the sets before them that have none, else keep them for those that follow."""
        groups = self.found.groups
        led = [token.text for token in self.tokens[max(0, self.at - 3) : self.at]]
        if groups and isinstance(groups[-1], FindMax) and len(loads) == 1 and "(" in led and len(groups) > 1:
            self.found.notes.append(f"({self.tokens[self.at].text.strip()})")  # "build to a heavy 3 (about 85 %)"
            return
        bare = [place for place, group in enumerate(groups) if no_load(group) and place not in self.apart]
        if bare and (self.last_only or (len(loads) == 1 and self._ending())):
            self.last_only = False
            self._last_only(bare[-1])
            bare = [len(groups) - 1] if bare[-1] == len(groups) - 2 else bare[-1:]
        if bare and len(loads) == 1 and self._starting():
            self._first_only(bare[0], loads[0])
            return
        if not bare:
            if no_load(self._last) or not effort_beside(groups, loads):
                self.found.loads += loads
            return
        if len(loads) == 1:
            for place in bare:
                groups[place] = replace(groups[place], load=loads[0])  # type: ignore[arg-type]
            return
        self._spread(loads, bare)

    def _starting(self) -> bool:
        """Whether a load is only that of the first set: "start @ 65 %"."""
        last = max((at for at, each in enumerate(self.tokens[: self.at]) if each.kind in ("setsx", "sets")), default=-1)
        before = [token.text for token in self.tokens[max(0, self.at - 3, last + 1) : self.at]]
        text = self.tokens[self.at].text if self.at < len(self.tokens) else ""
        return "first set" in " ".join(before) or any(word.startswith(("start", "begin")) for word in (*before, text))

    def _ending(self) -> bool:
        """Whether a load is only that of the last set: "start light, finish around 80 %", "3x3 up to 85 %"."""
        token = self.tokens[self.at] if self.at < len(self.tokens) else None
        before = " ".join(each.text for each in self.tokens[max(0, self.at - 3) : self.at])
        return token is not None and (
            re.search(
                r"\b(?:finish\w*|end(?:ing)?|climb\w*(?: up)? to|build\w*(?: up)? to|work\w*(?: up)? to)\b[^,;]*$",
                before,
            )
            is not None
            or (token.text.startswith("up to") and bool(self.found.groups))
        )

    def _last_only(self, place: int) -> None:
        """Part the last set of a group from the others."""
        group = self.found.groups[place]
        if isinstance(group, SetGroup) and group.sets > 1 and place == len(self.found.groups) - 1:
            self.found.groups[place:] = [replace(group, sets=group.sets - 1), replace(group, sets=1)]

    def _first_only(self, place: int, load: Any) -> None:
        groups = self.found.groups
        group = groups[place]
        assert isinstance(group, SetGroup)
        first = replace(group, sets=1, load=load)
        groups[place : place + 1] = [first, replace(group, sets=group.sets - 1)] if group.sets > 1 else [first]
        self.started = place

    started: int | None = None
    last_only = False  # the next load is that of the last set alone

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
            words = ", ".join(load_words_of(load) for load in loads)
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
