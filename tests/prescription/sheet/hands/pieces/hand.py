"""One coach's hand: choices taken at random, each under a name, so that a failure can be told by what was chosen."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeVar

Value = TypeVar("Value")


@dataclass
class Hand:
    """A seeded hand and what it chose."""

    rng: random.Random
    chosen: dict[str, str] = field(default_factory=dict)

    def pick(self, choice: str, values: Sequence[str]) -> str:
        """Choose one of the values and note it under the choice's name."""
        value = self.rng.choice(values)
        self.chosen[choice] = value
        return value

    def same(self, choice: str, values: Sequence[str]) -> str:
        """Choose once for the whole text: a coach keeps a habit."""
        return self.chosen[choice] if choice in self.chosen else self.pick(choice, values)

    def any(self, values: Sequence[Value]) -> Value:
        """Choose without a note: numbers and the like."""
        return self.rng.choice(values)

    def chance(self, choice: str, share: float) -> bool:
        """Say yes so often, and note it."""
        yes = self.rng.random() < share
        self.chosen[choice] = "yes" if yes else "no"
        return yes
