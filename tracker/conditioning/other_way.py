"""A piece as it is done with the coach's options in front: for reading and for its clock, never for its score."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from tracker.conditioning.pieces import Piece, Task

AS_WRITTEN = "or, as first written"


def with_options_first(piece: Piece, chosen: Mapping[int, Task]) -> Piece:
    """Return a piece whose movements are those options, by their place, each with the first way as an option behind it."""
    return replace(piece, tasks=tuple(_turned(task, chosen.get(at)) for at, task in enumerate(piece.tasks)))


def _turned(task: Task, option: Task | None) -> Task:
    if option is None:
        return task
    others = tuple(each for each in task.options if each != option)
    first = replace(task, options=(), when=task.when or AS_WRITTEN)
    return replace(option, options=(first, *others), when="")
