"""Swaps in words, both ways: another movement, load, height, target or help in place of a prescribed one."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from tracker.conditioning.movements import options_for
from tracker.conditioning.pairs import cm_words, load_words
from tracker.conditioning.pieces import Piece, Task, with_amount_of
from tracker.conditioning.scores import Score, Swap
from tracker.errors import BadInputError
from tracker.units import Unit, parse_decimal, parse_mass

_SWAP = re.compile(r"\s*(?:->|→)\s*")
_NUMBER = r"(\d{1,3}(?:[.,]\d{1,2})?)"
_HEIGHT = re.compile(rf"{_NUMBER}\s*cm(?:\s+high)?", re.IGNORECASE)
_TARGET = re.compile(rf"to\s+{_NUMBER}\s*cm", re.IGNORECASE)
_HELP = re.compile(r"with\s+(.+)", re.IGNORECASE)
_LOAD = re.compile(r"[+-]?[\d.,]+\s*(?:kgs?|lbs?)?", re.IGNORECASE)
MEND = "Write such as 12 kg, 40 cm high, to 250 cm, or with a green band."


def parse_swaps(piece: Piece, text: str, *, unit: Unit | None = None) -> tuple[Swap, ...]:
    """Read swaps such as "toes-to-bar -> sit-up; box step-over -> box step-over, 40 cm high; swing -> swing, 12 kg".

    One of the coach's options is taken with all that it says; another movement keeps the count of the one it replaces.
    """
    return tuple(_swap(piece, each, unit) for each in text.split(";") if each.strip())


def swap_words(score: Score) -> tuple[str, ...]:
    """Say what was one's own: "with 30 kg, 9 cal", then each swap: "push-up from the knees instead of push-up"."""
    yours = (f"with {score.piece.yours}",) if score.piece.yours else ()
    return yours + tuple(swapped_words(swap.task, score.piece.tasks[swap.index]) for swap in score.swaps)


def swaps_text(piece: Piece, swaps: Sequence[Swap]) -> str:
    """Write swaps so that `parse_swaps` reads them back."""
    return "; ".join(_written(piece.tasks[swap.index], swap.task) for swap in swaps)


def _written(asked: Task, done: Task) -> str:
    base = _base(asked, done.movement)
    marks = (
        load_words(done.load) if done.load and done.load != base.load else "",
        f"{cm_words(done.height_cm)} high" if done.height_cm and done.height_cm != base.height_cm else "",
        f"to {cm_words(done.target_cm)}" if done.target_cm and done.target_cm != base.target_cm else "",
        f"with {done.assistance}" if done.assistance and done.assistance != base.assistance else "",
    )
    return f"{asked.movement} -> " + ", ".join((done.movement, *(mark for mark in marks if mark)))


def swapped_words(done: Task, asked: Task) -> str:
    """Say what was done, with what differs of it, and what it was done for."""
    ours = [mark for mark in done.marks() if mark not in asked.marks()]
    theirs = [mark for mark in asked.marks() if mark not in done.marks()]
    if done.movement.casefold() != asked.movement.casefold():  # another movement: its own marks, and no more
        return f"{', '.join((done.movement, *ours))} instead of {asked.movement}"
    return ", ".join((done.movement, *ours)) + (
        f" instead of {', '.join(theirs)}" if theirs else ", which was not prescribed"
    )


def _swap(piece: Piece, text: str, unit: Unit | None) -> Swap:
    before, *after = _SWAP.split(text.strip(), maxsplit=1)
    names = [task.movement.casefold() for task in piece.tasks]
    if not after or before.strip().casefold() not in names:
        known = ", ".join(task.movement for task in piece.tasks)
        raise BadInputError(
            f"{text.strip()!r} swaps no movement of {piece.title}.",
            mend=f"Write one of {known}, then -> and the other.",
        )
    index = names.index(before.strip().casefold())
    old = piece.tasks[index]
    name, marks = _named(old, after[0].strip())
    task = _base(old, name)
    for mark in marks:
        task = _marked(task, mark, unit)
    return Swap(index, task)


def _base(old: Task, name: str) -> Task:
    """The movement that a name means: the coach's option, the movement itself, or another one with the same count."""
    option = next((each for each in old.options if each.movement.casefold() == name.casefold()), None)
    same = name.casefold() == old.movement.casefold()
    return option or (replace(old, options=()) if same else with_amount_of(Task(name), old))


def _named(old: Task, text: str) -> tuple[str, list[str]]:
    """Part a name from its marks; a known option's name may have a comma in it."""
    known = (old.movement, *(option.name for option in options_for(old)))
    for name in sorted(known, key=len, reverse=True):
        if f"{text}, ".casefold().startswith(f"{name}, ".casefold()):
            text = text[len(name) :]
            break
    else:
        name, _, text = text.partition(",")
    return name, [mark.strip() for mark in re.split(r",\s+|^,", text) if mark.strip()]


def _marked(task: Task, mark: str, unit: Unit | None) -> Task:
    """Give a task one more mark: a load, a height, a target or a help."""
    if found := _HEIGHT.fullmatch(mark):
        return replace(task, height_cm=parse_decimal(found[1]))
    if found := _TARGET.fullmatch(mark):
        return replace(task, target_cm=parse_decimal(found[1]))
    if found := _HELP.fullmatch(mark):
        return replace(task, assistance=found[1])
    if _LOAD.fullmatch(mark):
        return replace(task, load=parse_mass(mark, unit=unit, where=task.movement))
    raise BadInputError(f"{mark!r} says nothing of {task.movement}.", mend=MEND)
