"""A coach's hand: seeded choices of how a thing is typed, each with a name, so that failures can be laid to a choice."""

from __future__ import annotations

from random import Random

STEADY = 0.8  # how often a hand does a thing the way it did it before; people have habits, and break them


class Hand:
    """Makes choices, and remembers which ones one text holds."""

    def __init__(self, seed: int) -> None:
        self.random = Random(seed)
        self.habits: dict[str, str] = {}
        self.chosen: set[tuple[str, str]] = set()

    def way(self, name: str, *ways: str) -> str:
        """Choose how to do a thing; mostly as this hand did it before.

        Args:
            name: What is chosen, such as "separator".
            ways: The ways; one that stands twice is twice as likely.
        """
        before = self.habits.get(name)
        found = before if before in ways and self.random.random() < STEADY else self.random.choice(ways)
        self.habits[name] = found
        self.chosen.add((name, found))
        return found

    def perhaps(self, chance: float) -> bool:
        return self.random.random() < chance

    def one(self, *things: str) -> str:
        return self.random.choice(things)
