"""What a piece asks, in the words of a board on the wall: the scheme in one line, then a line for each movement."""

from __future__ import annotations

from tracker.conditioning.ladder import Listed, Run
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.times import time_words


def scheme_words(piece: Piece) -> str:
    """Say the scheme: "as many reps as possible in 12:00: 3, then 3 more each round"."""
    time = f" in {time_words(piece.cap_s)}" if piece.cap_s else ""
    cap = f", cap {time_words(piece.cap_s)}" if piece.cap_s else ""
    every = f"every {time_words(piece.work_s or 0)}, {piece.intervals} times"
    turns = f"{piece.intervals} times {time_words(piece.work_s or 0)} of work, {time_words(piece.rest_s)} of rest"
    said = {
        "as many as possible": f"as many reps as possible{time}",
        "for time": f"{_rounds(piece)}for time{cap}",
        "every minute": every,
        "work and rest": turns,
        "distance": f"as far as possible{time}",
        "calories": f"as many calories as possible{time}",
        "heaviest": f"the heaviest load{time}",
        "unscored": "no score",
    }[piece.kind]
    run = _shared(piece)
    parts = (
        said + (f": {run_words(run)}" if run and _changes(run) else ""),
        "one movement each time, in turn" if piece.in_turn else "",
        {"lowest": "the lowest counts", "completed": "intervals done in full count"}.get(piece.scored_by, ""),
        f"with {piece.partners} partners" if piece.partners > 1 else "",
        f"tie-break at {piece.tie_break}" if piece.tie_break else "",
        piece.setting,
    )
    return ", ".join(part for part in parts if part)


def movement_lines(piece: Piece, *, options: bool = False) -> tuple[str, ...]:
    """Say each movement with its count, where the scheme does not say that already; and the coach's options behind it."""
    shared = _shared(piece)
    counted = not (shared and _changes(shared))
    return tuple(
        _line(piece, task, counted=counted) + (_options(piece, task) if options else "") for task in piece.tasks
    )


def run_words(run: Run) -> str:
    """Say a run of counts: "21-15-9", "3, then 3 more each round", "10"."""
    if isinstance(run, Listed):
        return "-".join(map(str, run.reps)) if _changes(run) else f"{run.reps[0]:,}"
    if not run.step:
        return f"{run.first:,}"
    return f"{run.first:,}, then {abs(run.step):,} {'more' if run.step > 0 else 'fewer'} each round"


def _line(piece: Piece, task: Task, *, counted: bool) -> str:
    free = piece.kind in ("distance", "calories", "heaviest", "unscored", "work and rest")
    unit = "" if task.measure == "reps" else f" {task.measure}"
    count = "" if free or not counted else f"{run_words(task.run)}{unit}" + (": " if _changes(task.run) else " ")
    return ", ".join((f"{count}{task.movement}", *task.marks()))


def _options(piece: Piece, task: Task) -> str:
    """Say the options of a movement, with a count only where it is another."""
    said = (
        f"or {_line(piece, each, counted=(each.run, each.measure) != (task.run, task.measure))}"
        for each in task.options
    )
    return f" ({'; '.join(said)})" if task.options else ""


def _rounds(piece: Piece) -> str:
    return f"{piece.rounds} rounds " if piece.rounds and piece.rounds > 1 else ""


def _shared(piece: Piece) -> Run | None:
    """The run that all movements have in common, if they do."""
    runs = {task.run for task in piece.tasks}
    return runs.pop() if len(runs) == 1 else None


def _changes(run: Run) -> bool:
    return len(set(run.reps)) > 1 if isinstance(run, Listed) else run.step != 0
