"""Reads loads and heights of movements from tokens."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from typing import Any

from tracker.prescription.sheet.lifts.sets_found import unit_of
from tracker.prescription.sheet.piece import Count, Movement, Pair
from tracker.prescription.sheet.pieces.movement_gather import Gather
from tracker.prescription.sheet.pieces.movement_words import IMPLEMENTS, LEVEL
from tracker.prescription.sheet.tokens.tokens import Token
from tracker.prescription.sheet.words.names import known
from tracker.units import MOST_KG, Mass


class Loads(Gather):
    """Loads, heights and sides."""

    def _mass(self, amounts: list[Decimal], unit: str, number: int) -> bool | None:
        masses = [Mass(Decimal(amount), unit) for amount in amounts if 0 < Mass(amount, unit).kg <= MOST_KG]  # type: ignore[arg-type]
        if len(masses) != len(amounts):
            return False
        load: Any = masses[0]
        if len(masses) == 2 and masses[0] != masses[1]:
            larger, smaller = sorted(masses, key=lambda each: -each.amount)
            load = Pair(larger, smaller)
        if self.now.load is not None and self.now.name:
            if (
                isinstance(self.now.load, Mass)
                and isinstance(load, Mass)
                and self.now.load.unit == load.unit
                and self.now.load != load
                and self._sided()
            ):
                larger, smaller = sorted((self.now.load, load), key=lambda each: -each.amount)
                self.now.load = Pair(larger, smaller)
                return None
            return False
        self._name_from_words()
        entry = known(self.now.name) if self.now.name else None
        if (
            entry is not None
            and entry.implement == "barbell"
            and len(self.words) == 1
            and (
                held := {
                    "kettlebell": "kettlebell",
                    "kb": "kettlebell",
                    "dumbbell": "dumbbell",
                    "db": "dumbbell",
                    "dumbbells": "dumbbell",
                    "dbs": "dumbbell",
                    "kettlebells": "kettlebell",
                }.get(self.words[0].text)
            )
        ):
            self.now.name, self.words = f"{held} {self.now.name}", []
        if self.now.name and self._unloaded(self.now.name):
            if self._to_earlier(load):
                return None
            if self.option or self.found.moves:
                return False
        self.now.load, self.now.implements = load, number
        return None

    def _unloaded(self, name: str) -> bool:
        entry = known(name)
        return (
            entry is not None
            and entry.implement == "body"
            and entry.measure == "reps"
            and "lunge" not in name
            and "step" not in name
        )

    def _to_earlier(self, load: Any) -> bool:
        """Give a load behind a movement without one to the movement before that takes it: "thrusters and pull-ups, 40 kg"."""
        for place in range(len(self.found.moves) - 1, -1, -1):
            move = self.found.moves[place]
            entry = known(move.name)
            if entry is not None and entry.implement not in ("body", "machine"):
                if move.load is None:
                    self.found.moves[place] = replace(move, load=load)
                    return True
                if (
                    isinstance(move.load, Mass)
                    and isinstance(load, Mass)
                    and move.load.unit == load.unit
                    and move.load != load
                    and self._sided()
                ):
                    larger, smaller = sorted((move.load, load), key=lambda each: -each.amount)
                    self.found.moves[place] = replace(move, load=Pair(larger, smaller))
                    return True
                return False
        return False

    def _sided(self) -> bool:
        near = {token.kind for token in self.tokens[max(0, self.at - 6) : self.at + 4]}
        return bool(near & {"men", "women"})

    def _on_mass(self, token: Token) -> bool | None:
        amounts, unit, number, sign = token.value
        if self._level_load(amounts, unit_of(unit), number):
            return None
        if sign in ("-", "to") and amounts[0] < amounts[-1]:
            amounts = amounts[:1]
            self.now.standard.append(token.text.lstrip("@ "))
        return self._mass(amounts, unit_of(unit), number)

    def _on_setsx(self, token: Token) -> bool | None:
        """`12 hang cleans, 2x15/10` is two dumbbells of the pair."""
        if token.value[0] == 2 and token.value[2] == "pair" and self.now.name and self.now.load is None:
            one, two = token.value[1]
            return self._mass([Decimal(one), Decimal(two)], self.unit, 2)
        return False

    def _on_mass2(self, token: Token) -> bool | None:
        amounts, unit, number = token.value
        return self._mass(amounts, unit or self.unit, number)

    def _on_added(self, token: Token) -> bool | None:
        amounts, unit = token.value
        return self._mass(amounts, unit_of(unit), 1) if self.now.name else False

    def _level_load(self, amounts: list[Decimal], unit: str, number: int) -> bool:
        """`15 deadlifts RX 100/70 - scaled 60/40`: a second load behind whom it is for is that of an option."""
        words = " ".join(each.text for each in self.words[-2:]).strip(" -,")
        if self.now.load is None or not self.now.name or not LEVEL.search(words) or self.option:
            return False
        masses = [Mass(Decimal(amount), unit) for amount in amounts if 0 < Mass(amount, unit).kg <= MOST_KG]  # type: ignore[arg-type]
        if len(masses) != len(amounts):
            return False
        load: Any = masses[0]
        if len(masses) == 2 and masses[0] != masses[1]:
            load = Pair(*sorted(masses, key=lambda each: -each.amount))
        when = (LEVEL.search(words) or [""])[0]
        self.now.options.append(Movement(self.now.name, load=load, implements=number, when=when, line=self.line))
        self.words = []
        return True

    def _on_same(self, token: Token) -> bool | None:
        """`6 front rack lunges, same bar`: with the load of the movement before."""
        before = next((move.load for move in reversed(self.found.moves) if move.load is not None), None)
        if not self.now.name or self.now.load is not None or before is None or "last" in token.text:
            return False
        self.now.load = before
        return None

    def _on_pair(self, token: Token) -> bool | None:
        one, two = token.value
        if self._level_load([one, two], self.unit, 1):
            return None
        if (
            one == two
            and self._ok(one)
            and one <= 50
            and self._is_before_name()
            and not (self.now.name and not self.now.counted)
        ):
            self._begin()
            self.now.count, self.now.counted, self.now.each_side = Count((int(one),)), True, True
            return None
        following = self._next()
        name_follows = following is not None and (
            following.kind == "name" or (following.kind == "word" and self._is_before_name())
        )
        if (
            name_follows
            and not (token.text.startswith("@") and self.unit and max(one, two) >= 20)  # "@ 70/50 squat cleans"
            and not (self.now.name and not self.now.counted)
            and self._ok(one)
            and self._ok(two)
            and one != two
        ):
            self._begin()
            self.now.sides, self.now.counted = (int(max(one, two)), int(min(one, two))), True
            return None
        if self.now.name and one == two and self._ok(one) and one <= 30:
            self.now.count, self.now.counted, self.now.each_side = Count((int(one),)), True, True
            return None
        if self.now.name or self.now.counted:
            if (
                self.now.name.endswith(("box jump", "jump over", "step-over", "step-up", "box jump over"))
                or "box" in self.now.name
            ) and not any(
                word in IMPLEMENTS for word in [*self.now.name.split(), *(each.text.strip(".,") for each in self.words)]
            ):
                if one >= 35:
                    self.now.heights = (max(one, two), min(one, two))
                else:
                    self.now.standard.append(token.text)
                return None
            self._name_from_words()
            if self.now.load is None and self.now.name:
                return self._mass([one, two], self.unit, 1)
        return False

    def _on_atx(self, token: Token) -> bool | None:
        if self.now.name and self.now.load is None and token.value >= 4:
            return self._mass([token.value], self.unit, 1)
        return False

    def _on_cm(self, token: Token) -> bool | None:
        self._name_from_words()
        if not self.now.name:
            return False
        if any(word.text == "to" for word in self.words[-2:]):
            self.words = [word for word in self.words if word.text not in ("to", "a")]
            self.now.target = token.value[0]
        else:
            self.now.heights = tuple(sorted(token.value, reverse=True))
        return None

    def _on_inch(self, token: Token) -> bool | None:
        self._name_from_words()
        if not self.now.name:
            return False
        if self.now.usual == "s" and not self.now.counted and (number := re.match(r"\d+", token.text)):
            self._count(Count((int(number[0]),)), "s")  # 45" behind a plank is a time
            return None
        self.now.standard.append(token.text)
        return None

    _on_feet = _on_inch

    def _on_each(self, token: Token) -> bool | None:
        self._name_from_words()
        if self.now.name or self.now.counted:
            self.now.each_side = True
            return None
        return False

    def _on_implement(self, token: Token) -> bool | None:
        if self.now.load is not None:
            word, number = token.value
            self.now.implement = word
            if number in ("two", "2", "pair of"):
                self.now.implements = 2
            return None
        return False

    def _on_men(self, token: Token) -> bool | None:
        if self.now.load is not None:
            return None
        return False

    _on_women = _on_men
