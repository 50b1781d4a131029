"""Movements of conditioning pieces and their options, from easier to harder, with what is known of each.

The coach's own options come before these. An option is a movement of its own: it is shown as different, and no score is
ever converted from one to another. `status` says what an order or a number rests on; only "published" may be shown as
such, with its source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from tracker.conditioning.pieces import Task

Status = Literal["published", "read in a text that cites it", "common practice", "from memory"]
PRACTICE: Status = "common practice"


@dataclass(frozen=True, slots=True)
class Option:
    """One option for a movement, with a word on how to do or count it."""

    name: str
    word: str = ""


@dataclass(frozen=True, slots=True)
class Movement:
    """A prescribed movement and its options, easiest first, all easier than the movement itself.

    `eccentric`: many repetitions of it lower the body or a load under tension, which is hard on muscles after time off
    (from memory). `note` is what is known and not known about swapping it.
    """

    name: str
    options: tuple[Option, ...]
    status: Status = PRACTICE
    source: str = ""
    note: str = ""
    eccentric: bool = False


MOVEMENTS: tuple[Movement, ...] = (
    Movement(
        "wall ball shot",
        (
            Option("air squat", "no ball"),
            Option("goblet squat", "no wall"),
            Option("squat and press", "with dumbbells or a kettlebell"),
            Option("wall ball shot, lower target"),
            Option("wall ball shot, lighter ball"),
        ),
        note="No study of ball masses or targets was found.",
        eccentric=True,
    ),
    Movement(
        "hand-release push-up",
        (
            Option("push-up, hands raised", "on a box or a bar in the rack; the higher, the easier"),
            Option("push-up from the knees"),
            Option("push-up", "without lifting the hands"),
        ),
        note="Hands on a 61 cm box are easier than knees; on a 30.5 cm box harder than knees.",
        eccentric=True,
    ),
    Movement(
        "toes-to-bar",
        (
            Option("sit-up"),
            Option("tuck-up"),
            Option("V-up"),
            Option("lying leg raise"),
            Option("hanging knee raise"),
        ),
        note="A position in common is not an equal effort; one for one, or two sit-ups for one, is only a custom.",
        eccentric=True,
    ),
    Movement(
        "pull-up",
        (
            Option("bent row"),
            Option("lat pull-down"),
            Option("inverted row"),
            Option("slow lowering", "step up, lower yourself"),
            Option("jumping pull-up"),
            Option("pull-up with a band or a partner", "write down the band, or the counterweight"),
        ),
        note="Strict and swinging repetitions are different movements. A pull-down does not stand for a pull-up: the two "
        "go together only loosely (Johnson et al. 2009, JSCR 23(3):1022-1028: r 0.78 in men, 0.44 in women).",
        eccentric=True,
    ),
    Movement(
        "box jump",
        (
            Option("step-up", "each step up counts one, legs in turn"),
            Option("squat jump in place"),
            Option("box jump, lower box", "step down to spare the calf"),
        ),
        eccentric=True,
    ),
    Movement(
        "double-under",
        (
            Option("line hops", "for the same time"),
            Option("single-under", "two or three for one is a custom"),
            Option("attempts for a fixed time", "30 to 60 s"),
        ),
        note="No study of equal work was found.",
    ),
    Movement(
        "run",
        (
            Option("cycle", "for the same time at the same effort"),
            Option("row", "for the same time at the same effort"),
        ),
        note="No single exchange rate exists: swap by time at the same effort, not by calories or metres. Calories of two "
        "makes of machine are not the same.",
    ),
    Movement(
        "barbell lift",
        (
            Option("one dumbbell or kettlebell, each side in turn", "write repetitions of both sides together"),
            Option("two dumbbells", "doubling repetitions at about half the load is a custom"),
        ),
        note="A dumbbell set never counts towards the barbell max.",
        eccentric=True,
    ),
)
_BY_NAME: Mapping[str, Movement] = {movement.name: movement for movement in MOVEMENTS}
ECCENTRIC_WORDS = (
    "squat",
    "push-up",
    "pull-up",
    "sit-up",
    "lunge",
    "thruster",
    "wall ball",
    "toes-to-bar",
    "step-up",
    "step-over",
    "burpee",
    "jump",
    "dip",
)


def movement_named(name: str) -> Movement | None:
    """Return the movement of that name, letters of either case, or None."""
    return _BY_NAME.get(name.strip().casefold())


def options_for(task: Task) -> tuple[Option, ...]:
    """Options for a task: the coach's first, in the coach's order, then the common ones that the coach did not name."""
    coach = tuple(Option(option.movement, ", ".join(option.marks())) for option in task.options)
    known = movement_named(task.movement)
    named = {option.name.casefold() for option in coach}
    return coach + tuple(option for option in (known.options if known else ()) if option.name not in named)


def is_eccentric(name: str) -> bool:
    """Whether many repetitions of it are of the kind that is hard on muscles after time off (from memory)."""
    known = movement_named(name)
    return known.eccentric if known else any(word in name.casefold() for word in ECCENTRIC_WORDS)
