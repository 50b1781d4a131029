"""Reads what numbers without a word of their own say of sets: `5 @ 70%`, `180 3x3`, `60 x 5 x 3`, `5x3 65-75`."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from tracker.prescription.sheet.lifts.set_counts import Counts
from tracker.prescription.sheet.lifts.sets_found import any_load, no_load
from tracker.prescription.sheet.model import MassRange, Percent, Reps, SetGroup
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.units import Mass


class Numbers(Counts):
    """Numbers that are repetitions, sets or loads by what stands beside them."""

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
                last = self._last
                if isinstance(last, SetGroup) and not last.reps.parts and not last.reps.out and last.load is None:
                    self.found.groups[-1] = replace(last, reps=Reps((int(value),)))  # "2 back-off sets 8 @ 65"
                else:
                    self._add(1, Reps((int(value),)))
                return None
        before = self.tokens[self.at - 1] if self.at else None
        next_one = self.tokens[self.at + 1] if self.at + 1 < len(self.tokens) else None
        alone = not any(each.kind in ("pct", "mass", "atx", "rpe", "rir", "loadx") for each in self.tokens)
        if alone and not self.at and value >= 30 and next_one is not None and next_one.kind == "setsx":
            self.found.loads.append(self._signless(value, percent_first=self.scene.percent_near))  # "180 3x3"
            return None
        if (
            before is not None
            and before.kind == "setsx"
            and 40 <= value <= 105
            and no_load(self._last)
            and (next_one is None or next_one.kind in ("rest", "sep", "tempo", "andword", "each", "of"))
        ):
            return self._on_atx(token)  # "3x3 80"
        if before is not None and before.kind == "setlabel":
            self._add(1, Reps((int(value),)))
            return None
        return False

    def _on_xnum(self, token: Token) -> bool | None:
        if self.found.loads and not (self.found.groups and not any_load(self.found.groups)):
            loads, self.found.loads = self.found.loads, []
            after = self.peek()
            sets = 1
            if after is not None and after.kind == "xnum":
                sets, self.at = after.value, self.at + 1
            for load in loads:
                self._add(sets if len(loads) == 1 else 1, Reps((token.value,)), load)
            return None
        before = self._last
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
        behind = self.tokens[self.at - 1] if self.at else None
        if (
            behind is not None
            and behind.kind in ("setsx", "sets", "list")
            and 40 <= low < high <= 110
            and no_load(self._last)
        ):
            first = self._signless(Decimal(low), percent_first=self.scene.percent_near or not self.scene.mass_near)
            last = (
                Percent(Decimal(low), None, Decimal(high))
                if isinstance(first, Percent)
                else MassRange(first, Mass(Decimal(high), first.unit))
            )
            self._load([last])  # "5x3 65-75"
            return None
        if (
            low < high <= 30
            and (after := self.peek()) is not None
            and after.kind in ("pct", "mass", "rpe", "rir", "reps")
        ):
            self._add(1, Reps((low,), high))
            return None
        word = self.tokens[self.at + 1].text if self.at + 1 < len(self.tokens) else ""
        if low < high <= 100 and word.startswith("rep"):
            last = self._last
            if isinstance(last, SetGroup) and not last.reps.parts:
                self.found.groups[-1] = replace(last, reps=Reps((low,), high))
            else:
                self._add(1, Reps((low,), high))
            self.at += 1
            return None
        return False
