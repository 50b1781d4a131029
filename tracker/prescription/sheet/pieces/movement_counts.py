"""Reads how many of a movement from tokens: numbers, amounts, lists, ranges, as many as there is time for."""

from __future__ import annotations

import re
from decimal import Decimal

from tracker.prescription.sheet.lifts.sets_found import unit_of
from tracker.prescription.sheet.piece import Count, Pair
from tracker.prescription.sheet.pieces.movement_draft import ladder_count
from tracker.prescription.sheet.pieces.movement_loads import Loads
from tracker.prescription.sheet.pieces.movement_words import IMPLEMENTS, NO_NAME
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.words.names import known
from tracker.units import Mass

# How heavy what a movement is done with usually is, in kilograms: common practice
_HEAVY = {"ball": (2, 14), "kettlebell": (4, 48), "kettlebells": (4, 48), "dumbbell": (2, 50), "dumbbells": (2, 50), "barbell": (15, 220)}  # fmt: skip


class Counts(Loads):
    """Counts and amounts."""

    def _on_sets(self, token: Token) -> bool | None:
        """`50 singles` among movements are single unders."""
        number = token.value[0]
        if not token.text.rstrip().endswith("singles") or not self._ok(number):
            return False
        self._begin()
        self.now.count, self.now.counted, self.now.name, self.now.known = (
            Count((int(number),)),
            True,
            "single under",
            True,
        )
        return None

    def _half(self, token: Token) -> bool | None:
        """`10 DB snatches 22.5`: a number with a half behind a counted movement that takes a load is that load."""
        entry = known(self.now.name) if self.now.name else None
        loaded = entry is not None and entry.implement not in ("body", "machine") and entry.measure == "reps"
        return (
            self._mass([token.value], self.unit, 1) if loaded and self.now.counted and self.now.load is None else False
        )

    def _two_loads(self, token: Token) -> bool:
        """`thrusters 42.5 30`, `wall balls 9 and 6`, as they are spoken: two loads behind the name of what takes one."""
        entry = known(self.now.name) if self.now.name else None
        if entry is None or entry.implement in ("body", "machine") or self.now.load is not None or self.words:
            return False
        at = self.at + 1
        if at < len(self.tokens) and self.tokens[at].text in ("and", "or", "/"):
            at += 1
        other = self.tokens[at] if at < len(self.tokens) else None
        after = self.tokens[at + 1] if at + 1 < len(self.tokens) else None
        if other is None or other.kind != "num" or (after is not None and after.kind not in ("sep", "andword")):
            return False
        share = other.value / token.value if token.value else 0
        if (
            not Decimal("0.5") <= share < 1
            or token.value < 6
            or not (self.now.counted or self.heading or self.found.scheme)
        ):
            return False
        self._mass([token.value, other.value], self.unit, 1)
        self.at = at
        return True

    def _other_load(self, token: Token) -> bool:
        """`24 kilos for the men, 16 for the women`: the load of the other group, without its unit."""
        load = self.now.load
        before = {each.kind for each in self.tokens[max(0, self.at - 6) : self.at]}
        behind = {each.kind for each in self.tokens[self.at + 1 : self.at + 4]}
        mine = "men" in before and "women" in behind
        theirs = "women" in before and "men" in behind
        if not isinstance(load, Mass) or not (mine or theirs) or load.amount == token.value:
            return False
        share = min(load.amount, token.value) / max(load.amount, token.value)
        if share < Decimal("0.4"):
            return False
        larger, smaller = sorted((load.amount, token.value), reverse=True)
        self.now.load = Pair(Mass(larger, load.unit), Mass(smaller, load.unit))
        return True

    def _bare_load(self, token: Token, following: Token | None) -> bool:
        """`30 KB swings 24`, `8 deadlifts 100`: a number alone behind a counted movement, as heavy as what it is done with is."""
        entry = known(self.now.name) if self.now.name else None
        before = self._next(-1)
        if (
            entry is None
            or entry.measure != "reps"
            or not self.now.counted
            or self.now.load is not None
            or before is None
            or not (
                (before.kind == "name" and (following is None or (following.kind == "sep" and following.text in ",;)")))
                or (following is not None and following.kind in ("men", "women") and following.text.startswith("for"))
            )
        ):
            return False
        least, most = _HEAVY.get(entry.implement, (1, 0))
        share = Decimal("2.2") if self.unit == "lb" else Decimal(1)
        return bool(least * share <= token.value <= most * share and self._mass([token.value], self.unit, 1) is None)

    def _held(self, token: Token, following: Token | None) -> bool:
        """`step-ups with one dumbbell 12.5/7.5 kg`: how many are held is no count of another movement."""
        before = self._next(-1)
        if (
            not self.now.name
            or token.value not in (1, 2)
            or before is None
            or before.text not in ("with", "holding", "w/", "carrying", "using")
            or following is None
            or following.text.strip(".,") not in IMPLEMENTS | {"bell", "bells", "plate", "ball"}
        ):
            return False
        after = self._next(2)
        return after is None or after.kind in ("mass", "pair", "mass2", "sep", "num") or after.text == "of"

    def _on_num(self, token: Token) -> bool | None:
        if self._two_loads(token) or self._other_load(token):
            return None
        if not self._ok(token.value):
            return self._half(token)
        following = self._next()
        if self._held(token, following) or self._bare_load(token, following):
            return None
        if (
            following is not None
            and following.kind == "word"
            and following.text.rstrip(".,;:!") in NO_NAME | {"%", "€"}
        ):
            return False
        if following is not None and following.kind == "sep" and following.text == ")" and self.depth == 0:
            self._close_if_named()
            self.at += 1
            return None  # a label: 1) 12 cal bike 2) 10 burpees
        if self.now.name and not self.now.counted and not self._is_before_name():
            after = self._next()
            if (
                after is not None
                and after.kind == "word"
                and after.text not in ("reps", "each", "x", "per", "unbroken", "total", "in", "as", "times")
            ):
                return False
        if following is not None and following.kind == "word" and following.text == "s":
            return False
        if self.now.counted and self.now.measure == "s" and not self.now.name and self.words and self._is_before_name():
            return False  # "20 min zone 2 bike"
        self._count(Count((int(token.value),)), "")
        return None

    def _on_reps(self, token: Token) -> bool | None:
        return self._on_num(token)

    def _on_xnum(self, token: Token) -> bool | None:
        if self.now.name and not self.now.counted and self._ok(token.value):
            self.now.count, self.now.counted = Count((token.value,)), True
            return None
        if self.now.empty and self._ok(token.value):
            return self._on_num(token)
        return False

    def _on_plus(self, token: Token) -> bool | None:
        return self._on_num(token)

    def _on_cal(self, token: Token) -> bool | None:
        if not self._ok(token.value):
            return False
        self._count(Count((token.value,)), "cal")
        return None

    def _on_dist(self, token: Token) -> bool | None:
        number, unit = token.value
        if unit != "m" or not 1 <= number <= 1_000_000:
            if unit in ("ft", "yd") and self.now.name:
                self.now.standard.append(token.text)
                return None
            return False
        if self.now.name == "wall ball" and self.now.counted and 2 <= number <= 4:  # how high the ball goes
            self.now.target = self.now.target or Decimal(token.text.split("m")[0].strip() or number) * 100
            return None
        self._count(Count((int(number),)), "m")
        return None

    def _on_miles(self, token: Token) -> bool | None:
        return self._on_dist(token)

    def _on_time(self, token: Token) -> bool | None:
        if not 1 <= token.value <= 24 * 3600:
            return False
        self._count(Count((token.value,)), "s")
        return None

    def _on_calpair(self, token: Token) -> bool | None:
        one, two, measure = token.value
        self._begin()
        if one == two:
            self._count(Count((one,)), measure)
            return None
        self.now.sides, self.now.measure, self.now.counted = (max(one, two), min(one, two)), measure, True
        return None

    _on_distpair = _on_calpair

    def _on_list(self, token: Token) -> bool | None:
        numbers, more, _ = token.value
        if any(not self._ok(number) for number in numbers):
            return False
        before = self._next(-1)
        if self.depth and before is not None and before.kind in ("men", "women"):
            return False  # one group's own row of counts: "(women 21-16-12-7)"
        if (self.heading or not self.now.name) and not self.found.moves and self.now.empty:
            following = self._next()
            if self.heading or following is None:
                self.found.scheme = ladder_count(numbers, more)
                return None
        self._begin()
        self.now.ladder, self.now.counted = (numbers, more), True
        return None

    def _on_range(self, token: Token) -> bool | None:
        """`2-3 muscle-ups`: the lower one is the count, both stand in words."""
        low, high = token.value
        if low >= high or not self._is_before_name() or not self._ok(low) or high > 3 * low:
            return False
        self._begin()
        self.now.count, self.now.counted = Count((int(low),)), True
        self.now.standard.append(token.text)
        return None

    def _on_masslist(self, token: Token) -> bool | None:
        """`thrusters: 8, 61/43 kg` is a count and a pair of loads."""
        found = re.fullmatch(
            r"(\d{1,3})\s*,\s*@?\s*(\d+(?:\.\d+)?)\s*(?:kg|lb|#)?\s*/\s*(\d+(?:\.\d+)?)\s*(kg|lbs?|#)",
            token.text.strip(),
        )
        if found is None or self.now.counted or not self._ok(int(found[1])):
            return False
        self.now.count, self.now.counted = Count((int(found[1]),)), True
        return self._mass([Decimal(found[2]), Decimal(found[3])], unit_of(found[4]), 1)

    def _on_max(self, token: Token) -> bool | None:
        self._begin()
        if self.now.measure == "s" and self.now.count is not None and not self.now.name:
            self.now.work, self.now.count, self.now.measure = self.now.count.reps[0], None, ""
        self.now.most = self.now.counted = True
        return None

    def _on_maxcal(self, token: Token) -> bool | None:
        self._on_max(token)
        self.now.measure = "cal"
        return None

    def _on_calword(self, token: Token) -> bool | None:
        """`21-15-9 cal row`, `ski erg (calories)`: what a count or movement is measured in."""
        if self.now.measure == "s" and self.now.count is not None:
            self.now.standard.append("for calories")  # "40 seconds row for calories": the time stands
            return None
        if self.now.counted or self.now.name:
            self.now.measure = "cal"
            return None
        following = self._next()
        if following is not None and following.kind == "name":
            self.now.measure = "cal"
            return None
        return False

    def _on_maxdist(self, token: Token) -> bool | None:
        self._on_max(token)
        self.now.measure = "m"
        return None

    def _on_complex(self, token: Token) -> bool | None:
        return False
