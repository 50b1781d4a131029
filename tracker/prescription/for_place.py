"""Which of a coach's ways is written for the place somebody trains at, by the words that both are called."""

from __future__ import annotations

import re
from collections.abc import Collection

from tracker.prescription.sheet.words.names import full_name

AT_HOME = frozenset({"home", "garage", "house", "flat", "living", "balcony", "basement", "cellar", "garden", "yard"})
_SMALL = frozenset(
    {"at", "in", "the", "a", "my", "your", "for", "if", "or", "and", "no", "only", "version", "option", "room"}
)
_HELD = (
    ("kettlebell", "kettlebell"),
    ("kb", "kettlebell"),
    ("dumbbell", "dumbbell"),
    ("db", "dumbbell"),
    ("barbell", "barbell"),
)
FOR_WHERE = "for "  # begins the coach's words on a way that is written for somewhere
WITH_EITHER = frozenset({"goblet"})  # held with both hands: one dumbbell does as well as a kettlebell; common practice


def written_for(when: str, place: str) -> bool:
    """Whether a way is written for a place: both are at home, or share a word of their names.

    >>> written_for("home", "Home"), written_for("hotel", "Hotel Lantern"), written_for("home", "Harbour Gym")
    (True, True, False)
    """
    asked, here = _words(when), _words(place)
    if asked & AT_HOME and here & AT_HOME:
        return True
    return bool(asked & here)


def held(movement: str) -> str:
    """Return with which implement a movement of a piece is done; empty where its name says nothing of it.

    >>> held("dumbbell thruster"), held("thruster"), held("pull-up")
    ('dumbbell', 'barbell', 'body')
    """
    words = re.findall(r"[a-z]+", movement.lower())
    for word, implement in _HELD:
        if word in words or f"{word}s" in words:
            return implement
    _, entry = full_name(movement)
    found = entry.implement if entry else ""
    return {"dumbbells": "dumbbell", "kettlebells": "kettlebell", "?": ""}.get(found, found)


def can_do(movement: str, at_hand: Collection[str]) -> bool:
    """Whether what a movement is held with is at hand (kinds of kit); what no kit list holds is taken to be there."""
    needs = held(movement)
    if WITH_EITHER & set(re.findall(r"[a-z]+", movement.lower())):
        return bool({"kettlebell", "dumbbell"} & set(at_hand))
    return needs not in ("barbell", "dumbbell", "kettlebell", "ball", "band") or needs in at_hand


def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[^\W\d_]+", text.casefold())) - _SMALL
