"""The piece that is scored, of a piece as a sheet writes it: pairs stay pairs, of which each member takes a side."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any, cast

from tracker.conditioning.ladder import Listed, Run, Steady
from tracker.conditioning.pieces import ONCE, Piece, Task, in_order, with_amount_of
from tracker.conditioning.plain_values import MOST_LETTERS
from tracker.errors import BadInputError
from tracker.limits import MOST_TITLE
from tracker.prescription.sheet.piece import Count, Movement, Pair, PieceBlock
from tracker.prescription.sheet.written.printing import movement_line
from tracker.units import Mass

# What the conditioning room calls otherwise: its options and scores of before go by these names.
SCORED_NAMES = {
    "wall ball": "wall ball shot", "toes to bar": "toes-to-bar", "double under": "double-under", "knee push-up": "push-up from the knees",
}  # fmt: skip


def piece_title(piece: PieceBlock) -> str:
    """Return the piece's title; without one its kind and movements."""
    if piece.title.strip():
        return " ".join(piece.title.split())[:MOST_TITLE].strip()
    names = ", ".join(movement.name for movement in piece.movements)
    kind = {"as many as possible": "AMRAP", "unscored": "Piece"}.get(piece.kind, piece.kind)
    words = f"{kind}: {names}" if names else kind
    words = words[:1].upper() + words[1:]
    return words if len(words) <= MOST_TITLE else words[: MOST_TITLE - 1].rstrip(" ,") + "…"


def scored_piece(block: PieceBlock) -> Piece:
    """Return the piece that the log keeps, never refused: where something is missing to score it, it is done without a score.

    What is missing is said in its note. Where even a movement can't be as it is written, the piece is kept in words alone.
    """
    title = piece_title(block)
    try:
        tasks = tuple(in_order(_task(each, block.count_of(each)) for each in block.movements))
    except BadInputError:
        return _in_words(block, title)
    try:
        return Piece(
            title, block.kind, tasks, block.rounds_done, block.cap_s or None, block.work_s or None, block.rest_s, block.intervals or None, block.in_turn,
            block.scored_by, block.tie_break, block.partners or 1, block.setting, _note(block.notes),
        )  # fmt: skip
    except BadInputError as err:
        note = _note((*block.notes, f"Not scored: {err.what}"))
    try:
        return Piece(title, "unscored", tasks, block.rounds_done, block.cap_s or None, setting=block.setting, note=note)
    except BadInputError:
        return _in_words(block, title)


def _in_words(block: PieceBlock, title: str) -> Piece:
    return Piece(title, "unscored", note=_note((*map(movement_line, block.movements), *block.notes)))


def _note(parts: tuple[str, ...]) -> str:
    """Join what is said with a piece, as much as a record holds; all of it stays with the sheet as it was typed."""
    note = "\n".join(part for part in parts if part)
    return note if len(note) <= MOST_LETTERS else f"{note[: MOST_LETTERS - 1].rstrip()}…"


def _task(movement: Movement, count: Count | None, of: Task | None = None) -> Task:
    """Return a movement as it is scored; an option of `of` that says no amount has that of its movement.

    Movements go by the conditioning room's names, and both sides count together, as they do there: a sheet says how many
    for each side.
    """
    times = 2 if movement.each_side else 1
    sides = _pair(tuple(times * each for each in movement.sides)) if movement.sides is not None else None
    run: Run = ONCE if sides is not None or count is None else _run(count, times)
    task = Task(
        SCORED_NAMES.get(movement.name, movement.name),
        Steady(sides) if isinstance(sides, int) else run,
        movement.measure,
        _load(movement.load),
        movement.implement,
        max(1, movement.implements),
        height_cm=_pair(movement.heights_cm) if movement.heights_cm else movement.height_cm,
        target_cm=movement.target_cm,
        assistance=movement.assistance,
        standard=movement.standard,
        sides=cast("tuple[int, int]", sides) if isinstance(sides, tuple) else None,
        most=movement.most,
        no_amount=count is None and sides is None and not movement.most,
        part=movement.part if of is None else of.part,
        when=movement.when,
    )
    if of is not None and task.no_amount:
        task = with_amount_of(task, of)
    task = replace(task, per_side=movement.each_side)  # once it is known how much: an odd count has no two sides
    return replace(task, options=tuple(_task(each, each.count, task) for each in movement.options))


def _run(count: Count, times: int) -> Run:
    if count.listed:
        return Listed(tuple(times * each for each in count.reps))
    return Steady(times * count.reps[0], times * count.step)


def _load(load: Mass | Pair | None) -> Mass | tuple[Mass, Mass] | None:
    return cast("Mass | tuple[Mass, Mass]", _pair((load.larger, load.smaller))) if isinstance(load, Pair) else load


def _pair(both: tuple[Any, ...]) -> Any:
    """Return two numbers as a pair, the larger first; two that are equal are one."""
    if both[0] == both[1]:
        return both[0]
    return tuple(sorted(both, key=lambda each: each.kg if isinstance(each, Mass) else Decimal(each), reverse=True))
