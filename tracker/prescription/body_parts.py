"""Which parts of the body a movement loads, and what loads others: for whoever has a sore place and asks for another way.

The table (`body_parts.txt`) is common practice, written from knowledge of the trade. It diagnoses nothing, clears nobody
for anything, and knows no pain but the one that somebody says they have: what hurts is theirs to say.
"""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal, get_args

Part = Literal["shoulder", "elbow", "wrist", "back", "hip", "knee", "ankle", "other"]
PARTS: tuple[Part, ...] = get_args(Part)
_WORD = re.compile(r"[^\W_]+")

STOP = (
    "Stop the movement where pain is sharp, or grows from set to set.",
    "Stop for the day where it is there at rest as well, or the joint gives way or locks.",
)
CLINICIAN = (
    (
        "See a clinician soon after a fall, a blow or a snap; where there is swelling, numbness, tingling or weakness; where it "
        "wakes you at night or you can't put weight on it; or where it is no better after a week or two."
    ),
    "Call emergency help for pain in the chest, or for pain in the back with numb legs or trouble with bladder or bowel.",
)
NO_DIAGNOSIS = (
    "This log does not know what it is. It leaves out what loads the place; your coach and your clinician go first. Status: "
    "from memory and common practice."
)


@dataclass(frozen=True, slots=True)
class Loads:
    """What a movement loads, and what kind of movement it is (squat, hinge, push, pull, core, jump, carry, engine)."""

    parts: frozenset[Part]
    kind: str


@dataclass(frozen=True, slots=True)
class Other:
    """A movement to do in place of one that loads a sore place: with what, and in what it is counted."""

    name: str
    implement: str
    kind: str


# What stands in for what, within its kind the nearest first: each is done with what its implement says, "" for nothing.
INSTEAD: tuple[Other, ...] = (
    Other("leg press", "machine", "squat"),
    Other("goblet squat", "kettlebell", "squat"),
    Other("goblet squat", "dumbbell", "squat"),
    Other("split squat", "body", "squat"),
    Other("air squat", "body", "squat"),
    Other("wall sit", "body", "squat"),
    Other("hip thrust", "barbell", "hinge"),
    Other("romanian deadlift", "dumbbells", "hinge"),
    Other("glute bridge", "body", "hinge"),
    Other("back extension", "body", "hinge"),
    Other("leg curl", "machine", "hinge"),
    Other("floor press", "dumbbells", "push"),
    Other("push-up", "body", "push"),
    Other("triceps extension", "dumbbells", "push"),
    Other("lateral raise", "dumbbells", "push"),
    Other("ring row", "body", "pull"),
    Other("dumbbell row", "dumbbell", "pull"),
    Other("seated row", "machine", "pull"),
    Other("biceps curl", "dumbbells", "pull"),
    Other("dead bug", "body", "core"),
    Other("plank", "body", "core"),
    Other("sit-up", "body", "core"),
    Other("bike", "machine", "engine"),
    Other("row", "machine", "engine"),
    Other("walk", "body", "engine"),
    Other("calf raise", "body", "squat"),
)
# Where nothing of its own kind is left, what else can be trained meanwhile.
NEXT_KINDS = {
    "squat": ("hinge", "core", "pull", "push"),
    "hinge": ("squat", "core", "pull", "push"),
    "push": ("pull", "squat", "hinge", "core"),
    "pull": ("push", "hinge", "squat", "core"),
    "core": ("hinge", "squat", "push", "pull"),
    "jump": ("engine", "squat", "hinge", "core"),
    "carry": ("core", "engine", "hinge", "squat"),
    "engine": ("engine", "core", "hinge", "squat"),
}
FEW = 3
ONE_AT_A_TIME = "one at a time"  # of an other: the same movement with one implement of two, each side in turn


def _words(text: str) -> str:
    return f" {' '.join(_WORD.findall(text.casefold()))} "


@cache
def _rows() -> tuple[tuple[str, Loads], ...]:
    found: list[tuple[str, Loads]] = []
    for line in Path(__file__).with_name("body_parts.txt").read_text(encoding="utf-8").splitlines():
        if not line.strip() or line.startswith("#"):
            continue
        phrases, parts, kind = (each.strip() for each in line.split("|"))
        loads = Loads(frozenset(part for part in PARTS if part in parts.split()), kind)
        found += [(_words(phrase), loads) for phrase in phrases.split(",")]
    return tuple(found)


def loads_of(name: str) -> Loads | None:
    """Return what a movement of that name loads; None where the table has none of its words, and only its doer knows.

    >>> sorted(loads_of("strict press").parts), loads_of("strict press").kind
    (['back', 'elbow', 'shoulder', 'wrist'], 'push')
    """
    text = _words(name)
    singular = _words(" ".join(word[:-1] if word.endswith("s") and len(word) > 2 else word for word in text.split()))
    return next((loads for phrase, loads in _rows() if phrase in text or phrase in singular), None)


def concerned(name: str, sore: Collection[Part]) -> tuple[Part, ...]:
    """Return which of the sore places a movement loads, in the order of `PARTS`."""
    loads = loads_of(name)
    return tuple(part for part in PARTS if loads and part in loads.parts and part in sore)


def instead_of(
    name: str, sore: Collection[Part], at_hand: Collection[str], *, never: Collection[str] = ()
) -> tuple[Other, ...]:
    """Return what can be done in place of a movement without loading a sore place, the nearest first, a few of them.

    Args:
        name: The movement.
        sore: The sore places.
        at_hand: Implements that stand there; the body always does.
        never: Names of movements that are not to be offered, such as what somebody marked as painful.
    """
    loads = loads_of(name)
    own = loads.kind if loads else ""
    kinds = (own, *NEXT_KINDS.get(own, ("squat", "hinge", "push", "pull", "core")))
    avoid = {each.casefold() for each in (*never, name)}
    fit = [
        other
        for kind in dict.fromkeys(kinds)
        for other in INSTEAD
        if other.kind == kind
        and (other.implement == "body" or other.implement in at_hand)
        and other.name.casefold() not in avoid
        and not concerned(other.name, sore)
    ]
    nearest: dict[str, Other] = {}
    for other in fit:
        nearest.setdefault(other.name, other)
    return tuple(nearest.values())[:FEW]
