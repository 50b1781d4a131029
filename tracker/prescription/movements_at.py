"""Which movements of the table of names can be done with what stands at a place: one source for reading and for choosing."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from functools import cache

from tracker.prescription.sheet.words.names import Name, sections

GROUPS = {  # headings of the table, and what they are called where one chooses
    "squats": "Squat",
    "presses": "Press",
    "pulls": "Pull",
    "olympic lifts": "Snatch, clean, jerk",
    "gymnastics": "Body weight",
    "kettlebells, dumbbells, balls, odd objects": "Dumbbell, kettlebell, ball",
    "done at home and with what is there": "At home",
}
# Lifts of the bar that are done in the same way with a pair of dumbbells: common practice
WITH_DUMBBELLS = frozenset({
    "front squat", "squat", "split squat", "press", "strict press", "push press", "bench press", "incline bench press",
    "floor press", "thruster", "deadlift", "romanian deadlift", "stiff leg deadlift", "bent over row", "power clean",
    "hang power clean", "clean and jerk", "hip thrust", "shrug", "upright row",
})  # fmt: skip
# What people begin with, by what they have: common practice
USUAL = {
    "barbell": ("back squat", "front squat", "deadlift", "bench press", "press", "power clean", "bent over row", "pull-up"),
    "dumbbells": (
        "front squat", "press", "bench press", "romanian deadlift", "bent over row", "goblet squat", "split squat", "push-up",
    ),
    "body": ("air squat", "push-up", "pull-up", "lunge", "dip", "sit-up", "pistol", "burpee"),
}  # fmt: skip
UNSURE = ("barbell", "dumbbells", "dumbbell", "kettlebell", "body")  # for names that go with several; the first at hand
AS_LIFT = {"band": "other", "ball": "other", "sandbag": "other", "sled": "other", "rings": "body"}


@dataclass(frozen=True, slots=True)
class Movement:
    """A movement with the implement that it is done with here, and the group in which it is looked for."""

    name: str
    implement: str
    group: str

    @property
    def words(self) -> str:
        """Name it as a lift is named: `front squat, dumbbells`."""
        return self.name if self.implement in ("body", "other") else f"{self.name}, {self.implement}"


def movements_at(at_hand: Collection[str]) -> tuple[Movement, ...]:
    """List what can be done with the implements at hand, counted in repetitions, each once, in the order of the table.

    Args:
        at_hand: Of "barbell", "dumbbells", "dumbbell", "kettlebells", "kettlebell", "machine", "ball", "band", "other".
            What the body alone does is always there.
    """
    return _movements(frozenset(at_hand) | {"body"})


@cache
def _movements(at_hand: frozenset[str]) -> tuple[Movement, ...]:
    found: dict[str, Movement] = {}
    for heading, names in sections():
        if heading not in GROUPS:
            continue
        for entry in names:
            implement = _held(entry, at_hand)
            if entry.measure == "reps" and implement:
                found.setdefault(entry.name, Movement(entry.name, implement, GROUPS[heading]))
    return tuple(found.values())


def _held(entry: Name, at_hand: frozenset[str]) -> str:
    """Return with what a movement is done here; empty where it can't be."""
    if entry.implement == "?":
        return next((each for each in UNSURE if each in at_hand), "")
    if entry.implement == "barbell" and "barbell" not in at_hand:
        return "dumbbells" if entry.name in WITH_DUMBBELLS and "dumbbells" in at_hand else ""
    if entry.name.startswith("goblet") and "kettlebell" not in at_hand:
        return "dumbbell" if "dumbbell" in at_hand else ""
    if entry.implement in at_hand:
        return AS_LIFT.get(entry.implement, entry.implement)
    return AS_LIFT[entry.implement] if entry.implement in AS_LIFT and "other" in at_hand else ""


def usual(at_hand: Collection[str]) -> tuple[Movement, ...]:
    """List the eight that most begin with, of those that can be done here."""
    kind = next((each for each in ("barbell", "dumbbells") if each in at_hand), "body")
    by_name = {each.name: each for each in movements_at(at_hand)}
    return tuple(by_name[name] for name in USUAL[kind] if name in by_name)
