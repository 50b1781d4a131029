"""Reads how many sets and repetitions there are from tokens."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.asks import Choice
from tracker.prescription.sheet.lifts.set_efforts import Efforts
from tracker.prescription.sheet.lifts.sets_found import MOST_REPS, MOST_SETS, any_load, unit_of
from tracker.prescription.sheet.model import Of, Percent, Reps, SetGroup
from tracker.prescription.sheet.piece import Pair
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.units import Mass


class Counts(Efforts):
    """Sets and repetitions."""

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
        if load is None and len(self.found.loads) == 1 and not any_load(groups[:-1]):
            loads, self.found.loads = self.found.loads, []
            self._load(loads)

    def _on_setsx(self, token: Token) -> None:
        sets, reps, kind, *more = token.value
        if kind == "plain" and self._said_again(sets, reps[0]):
            return
        if kind == "complex" and len(reps) == 2 and not self.scene.joined and reps[1] >= max(10, 2 * reps[0]):
            added, more = (
                Choice("load", f"{reps[1]} {self._unit()} more"),
                Choice("reps", f"{reps[1]} more repetitions"),
            )
            if self._ask(f"number behind {token.text}", f"Plus {reps[1]} of what?", (added, more)) == "load":
                self._add(sets, Reps((reps[0],)), Mass(Decimal(reps[1]), self._unit()))
            else:
                self._add(sets, Reps(tuple(reps)))
        elif kind == "complex":
            self._add(sets, Reps(tuple(reps)))
        elif kind == "load":
            amount, unit, percent = more
            if percent:
                self._add(sets, Reps((reps[0],)), self._percent([amount]))
            elif unit or amount >= 20 or amount != int(amount):
                self._add(sets, Reps((reps[0],)), Mass(amount, unit_of(unit) if unit else self._unit()))  # type: ignore[arg-type]
            elif sets >= 20:
                self._add(int(amount), Reps((reps[0],)), self._bare_load(Decimal(sets)))
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
            if kind == "plain" and sets <= 12 and self._is_load(reps_of):
                self._add(1, Reps((sets,)), self._signless(Decimal(reps_of), percent_first=False))
                return
            sets = self._order(token, sets, reps_of)
            if sets != token.value[0]:
                reps_of = token.value[0]
            if kind == "plus" and sets > 1:
                self._add(sets - 1, Reps((reps_of,)))
                self._add(1, Reps((reps_of,), out=True))
            else:
                self._add(sets, Reps((reps_of,), out=kind == "plus"))

    def _is_load(self, number: int) -> bool:
        """Whether the number behind the sign is a load: `5x140, 3x160, 1x180`."""
        others = [each.value[1][0] for each in self.tokens if each.kind == "setsx" and each.value[2] == "plain"]
        loaded = any(each.kind in ("pct", "mass", "atx", "rpe", "rir") for each in self.tokens)
        return not loaded and (
            (len(others) > 1 and min(others) >= 40 and others == sorted(set(others)))
            or (number >= 100 and len(others) == 1 and number % 5 == 0)
        )

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
            return self._asked_order(f"order of {token.text}", sets, reps)
        if sets > 10 and reps <= 5 and sets <= 30 and "set" not in token.text.lower():
            return self._asked_order("order of sets and repetitions", sets, reps)
        return sets

    def _asked_order(self, key: str, sets: int, reps: int) -> int:
        choices = (Choice("sets first", f"{sets} sets of {reps}"), Choice("reps first", f"{reps} sets of {sets}"))
        first = self._ask(key, f"{sets} sets of {reps}, or {reps} of {sets}?", choices)
        return reps if first == "reps first" else sets

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

    def _said_again(self, sets: int, reps: int) -> bool:
        """Whether brackets only say again in words what stands before them: `185x3x3 (three triples)`."""
        last = self._last
        opened = self.at > 0 and self.tokens[self.at - 1].text == "("
        return opened and isinstance(last, SetGroup) and (last.sets, last.reps.parts) == (sets, (reps,))

    def _on_sets(self, token: Token) -> None:
        if self._said_again(*token.value):
            return
        self._add(token.value[0], Reps((token.value[1],)))
        ahead = [each for each in self.tokens[self.at + 1 : self.at + 4] if each.kind != "sep" or each.text != "("]
        if "open" in token.text and not any(each.kind in ("pct", "mass", "atx") for each in ahead):
            self.apart.add(len(self.found.groups) - 1)  # its load is each lifter's own, not that of the sets behind it

    def _on_list(self, token: Token) -> bool | None:
        numbers, more, out = token.value
        if more is None and min(numbers) >= 30 and self._loads_of_all(numbers):
            return None
        after = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else None
        if more is None and min(numbers) >= 30 and after is not None and after.kind == "xnum" and after.value <= 20:
            self.at += 1  # "40/50/60 x5": so many repetitions at each
            first = (self.scene.percent_near or not self.scene.mass_near) and max(numbers) <= 105
            heaviest = self._signless(Decimal(max(numbers)), percent_first=first)  # tells how all of them are read
            for number in numbers:
                self._add(1, Reps((after.value,)), replace(heaviest, amount=Decimal(number)))
            return None
        if more is not None or any(number > 100 for number in numbers) or len(numbers) > 15 or min(numbers) >= 30:
            return False
        self._each(numbers, out=out)
        return None

    def _loads_of_all(self, numbers: list[int]) -> bool:
        """`70/75/80/85/90/95` behind or below six sets without a load: one for each of them, without a sign."""
        mine = [each for each in self.found.groups if isinstance(each, SetGroup) and each.load is None]
        above = [each for each in self.scene.above if isinstance(each, SetGroup) and each.load is None]
        bare = mine or ([] if self.found.groups else above)
        if sum(each.sets for each in bare) != len(numbers) or len(numbers) < 3:
            return False
        first = self.scene.percent_near or not self.scene.mass_near
        loads = [self._signless(Decimal(number), percent_first=first) for number in numbers]
        if mine:
            self._load(loads)
        else:
            self.found.loads += loads
        return True

    def _on_complex(self, token: Token) -> None:
        after = self.peek()
        if after is not None and after.kind == "xnum":
            self.at += 1
            self._add(after.value, Reps(tuple(token.value)))
        else:
            self._add(1, Reps(tuple(token.value)))

    def _on_plus(self, token: Token) -> bool | None:
        if token.value > 30:
            return False  # "Masters 50+"
        last = self._last
        behind = " ".join(each.text for each in self.tokens[max(0, self.at - 3) : self.at])
        if "last" in behind and isinstance(last, SetGroup) and last.reps.parts == (token.value,) and not last.reps.out:
            self._last_out(last)
            return None
        if "last set" in behind and isinstance(last, SetGroup) and last.sets > 1 and not last.reps.out:
            self._last_only(len(self.found.groups) - 1)  # "3x5, last set 8+": the third, not one more
            self.found.groups[-1] = replace(last, sets=1, reps=Reps((token.value,), out=True))
            return None
        self._add(1, Reps((token.value,), out=True))
        return None

    def _on_reps(self, token: Token) -> bool | None:
        last, after = self._last, self.peek()
        if isinstance(last, SetGroup) and not last.reps.parts and not last.reps.out:
            self.found.groups[-1] = replace(last, reps=Reps((token.value,)))
            return None
        if (
            isinstance(last, SetGroup)
            and last.sets > 1
            and last.reps.parts
            and (after is None or after.kind not in ("pct", "mass", "atx", "rpe", "rir"))
        ):
            return False  # words about the sets, such as "so that 1 rep is left", not one more set
        self._add(1, Reps((token.value,)))
        return None

    def _last_out(self, last: SetGroup) -> None:
        """Have the last set of the last group go on as long as it goes."""
        self._last_only(len(self.found.groups) - 1)
        self.found.groups[-1] = replace(last, sets=1, reps=replace(last.reps, out=True))

    def _on_max(self, token: Token) -> None:
        last = self._last
        behind = " ".join(t.text for t in self.tokens[max(0, self.at - 4) : self.at])
        after = self.peek()
        own = (
            after is not None
            and after.kind in ("pct", "mass", "atx")
            and isinstance(last, SetGroup)
            and last.load is not None
        )
        if isinstance(last, SetGroup) and last.reps.parts and "last" in behind and not last.reps.out and not own:
            self._last_out(last)
        elif isinstance(last, SetGroup) and not last.reps.parts:
            self.found.groups[-1] = replace(last, reps=Reps((), out=True))
        elif isinstance(last, SetGroup) and last.reps.out:
            return
        elif (
            isinstance(last, SetGroup)
            and isinstance(last.load, Percent)
            and token.text in ("max", "maximum")
            and self._is_reference()
        ):
            self.found.of = self.found.of or Of(1)
            self.found.of_unknown = True
        else:
            self._add(1, Reps((), out=True))

    def _is_reference(self) -> bool:
        """Whether "max" behind a percentage is what it is of, not one more set: `85 % vom Maximum`, `110 % clean max`."""
        before = self.tokens[max(0, self.at - 3) : self.at]
        loads = [place for place, each in enumerate(before) if each.kind == "pct"]
        return bool(loads) and all(each.kind in ("word", "name") for each in before[loads[-1] + 1 :])

    def _on_setlabel(self, token: Token) -> None:
        self.span = token.value

    def _on_setcount(self, token: Token) -> bool | None:
        groups, last = self.found.groups, self._last
        behind = [each for each in self.tokens[self.at + 1 : self.at + 3] if each.text != ")"]
        loads = sum(each.kind in ("pct", "mass", "atx", "loadx") for each in self.tokens[self.at + 1 :])
        if behind and behind[0].text in (":", "-", "=", ",") and loads == token.value > 1 and not groups:
            return None  # "4 sets: 8 @ 60 kg, 6 @ 70 kg, ...": told one by one
        if isinstance(last, SetGroup) and last.sets == 1 and 1 <= token.value <= MOST_SETS:
            groups[-1] = replace(last, sets=token.value)
            return None
        after = self.peek()
        loaded = after is not None and after.kind in ("pct", "atx", "mass")
        if isinstance(last, SetGroup) and last.load is not None and loaded:
            self._add(token.value, last.reps if not last.reps.out else Reps(()))  # "2 sets @ 65, 2 sets @ 70"
            return None
        if groups:
            return False
        if after is not None and after.kind == "max":
            self.at += 1
            self._add(token.value, Reps((), out=True))
            return None
        self._add(token.value, Reps(()))
        return None

    def _on_loadpairx(self, token: Token) -> None:
        """`135/95 x 5 x 3`: a pair of loads before its repetitions."""
        larger, smaller, typed, reps, sets = token.value
        unit: Any = unit_of(typed) if typed else self._unit()
        self._add(sets, Reps((reps,)), Pair(Mass(larger, unit), Mass(smaller, unit)))

    def _on_loadx(self, token: Token) -> None:
        amount, unit, reps, out, sets = token.value
        if not unit:  # "135x5, 185x5 lb": the unit stands behind the last of them
            unit = next(
                (each.value[1] for each in self.tokens[self.at :] if each.kind == "loadx" and each.value[1]), ""
            )
        load: Any = Mass(amount, unit_of(unit)) if unit else None  # type: ignore[arg-type]
        if load is None:
            load = self._bare_load(amount)
        numbers = [reps] if isinstance(reps, int) else reps
        for place, number in enumerate(numbers):
            self._add(sets, Reps((number,), out=out and place == len(numbers) - 1), load)

    def _bare_load(self, amount: Decimal) -> Any:
        """Read the number before x: kilograms or per cent, both are typed so; a row of them is rather of shares."""
        return self._signless(
            amount, percent_first=self.scene.percent_near or (self.scene.row_of_loads and not self.scene.mass_near)
        )
