"""Pairs that coaches write for two groups ("43/30 kg thrusters, 12/9 cal row"): what each side does, and in which words.

Which of the two numbers is a member's is their own choice, never guessed from anything. Common practice, without a source.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any, cast

from tracker.conditioning.ladder import Steady
from tracker.conditioning.pairs import cm_words, pair_in, standard_of
from tracker.conditioning.pieces import SIDES, Piece, Side, Task


def for_side(piece: Piece, side: Side) -> Piece:
    """Return the piece that one member does: of each pair the larger or the smaller number; all else stays.

    A piece without pairs is returned as it is.
    """
    if not piece.paired:
        return piece
    tasks = tuple(_task(task, SIDES.index(side)) for task in piece.tasks)
    return replace(piece, tasks=tasks, side=side, yours=side_words(piece, side))


def both_sides(piece: Piece) -> tuple[Piece, ...]:
    """Return the pieces that members do of this one: it alone, or where it has pairs one for each side."""
    return tuple(for_side(piece, side) for side in SIDES) if piece.paired else (piece,)


def side_words(piece: Piece, side: Side) -> str:
    """Say the numbers of one side, each once, as they stand in the piece: "12 cal, 43 kg"."""
    return ", ".join(dict.fromkeys(word for task in piece.tasks for word in _words(task, SIDES.index(side))))


def other_side(side: Side) -> Side:
    return "smaller" if side == "larger" else "larger"


def _task(task: Task, at: int) -> Task:
    return replace(
        task, run=task.run if task.sides is None else Steady(task.sides[at]), sides=None, load=_one(task.load, at),
        height_cm=_one(task.height_cm, at), target_cm=_one(task.target_cm, at),
        standard=standard_of(task.standard, at), options=tuple(_task(option, at) for option in task.options),
    )  # fmt: skip


def _one(value: Any, at: int) -> Any:
    return cast("tuple[Any, ...]", value)[at] if isinstance(value, tuple) else value


def _words(task: Task, at: int) -> list[str]:
    """Say the numbers of a movement that differ between the sides; of its options where it has none itself."""
    found: list[str] = []
    if task.sides is not None:
        number = f"{task.sides[at] // 2:,} each side:" if task.per_side else f"{task.sides[at]:,}"
        found.append(f"{number} {task.movement if task.measure == 'reps' else task.measure}")
    if isinstance(task.load, tuple):
        found.append(str(task.load[at]))
    found += [cm_words(each[at]) for each in (task.height_cm, task.target_cm) if isinstance(each, tuple)]
    if both := pair_in(task.standard):
        found.append(both[at])
    return found or [word for option in task.options for word in _words(option, at)]
