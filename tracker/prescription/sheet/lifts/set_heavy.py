"""Reads tests and heavy sets from tokens, and what is so much lighter than those above."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from tracker.limits import MOST_RM
from tracker.prescription.sheet.lifts.set_numbers import Numbers
from tracker.prescription.sheet.model import FindMax, Of, Percent, SetGroup
from tracker.prescription.sheet.tokens.tokens import Token


class Heavy(Numbers):
    """Tests and heavy sets."""

    def _on_find(self, token: Token) -> None:
        reps, heavy = token.value
        last = self._last
        if not reps:  # "build to a heavy one": of as many repetitions as stand before it
            reps = last.reps.parts[0] if isinstance(last, SetGroup) and len(last.reps.parts) == 1 else 1
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
        if isinstance(last, SetGroup) and heavy and self._climbs(token, last, reps):
            # "7 sets of 1+1+1, build to the day's heaviest": the last of them is the heavy one
            self.found.groups[-1:] = [replace(last, sets=last.sets - 1)] if last.sets > 1 else []
        if 1 <= reps <= MOST_RM:
            self.found.groups.append(FindMax(reps, heavy))

    def _climbs(self, token: Token, last: SetGroup, reps: int) -> bool:
        """Whether a heavy set is the last of the sets before it, which have no load and climb to it."""
        then = any(
            each.kind == "andword" for each in self.tokens[max(0, self.at - 2) : self.at]
        ) or token.text.startswith("then")
        return (
            not then
            and last.load is None
            and last.reps.high is None
            and not last.reps.out
            and (last.reps.parts == (reps,) or (len(last.reps.parts) > 1 and reps == 1))
            and re.match(r"(?:build|work|climb|go|ramp|up to|come|get|move)", token.text) is not None
        )

    def _on_rm(self, token: Token) -> bool | None:
        led = self.tokens[self.at - 1].text if self.at else ""
        if 1 <= token.value <= MOST_RM and (
            led == "tested" or (led == "(" and self.found.groups) or self._in_brackets()
        ):
            self.found.of = self.found.of or Of(token.value)  # "those with a tested 5RM", "5 @ 70 % (1RM)"
            return None
        if self.found.groups or not 1 <= token.value <= MOST_RM:
            return False
        before = self.tokens[self.at - 1] if self.at else None
        if (
            before is not None
            and before.kind in ("word", "num")
            and before.text in ("of", "off", "from", "%", "last", "old", "your", "is", "=")
        ):
            return False
        self.found.groups.append(FindMax(token.value))
        return None

    def _in_brackets(self) -> bool:
        """Whether a bracket behind a percentage says what it is of: `@ 70-75 % (C+J 1RM)`."""
        before = self.tokens[: self.at]
        opened = next((place for place in range(len(before) - 1, -1, -1) if before[place].text in ("(", ")")), None)
        return (
            opened is not None
            and before[opened].text == "("
            and any(token.kind == "pct" for token in before[:opened])
            and bool(self.found.loads or self.found.groups)
        )

    def _on_pctoff(self, token: Token) -> None:
        above = next(
            (
                each
                for each in reversed([*self.scene.above, *self.found.groups])
                if isinstance(each, FindMax) or each.load is not None
            ),
            None,
        )
        if isinstance(above, SetGroup) and isinstance(above.load, Percent) and above.load.high is None:
            # so much less than the sets above, which are a percentage themselves: 10 % off 85 % is 76.5 %
            less = above.load.amount * Decimal(token.value) / 100
            whole = less == less.to_integral()
            self._load([Percent(less.to_integral() if whole else less.normalize(), above.load.of)])
            return
        self._load([Percent(Decimal(token.value), Of(1, heavy=True))])
