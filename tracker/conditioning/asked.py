"""What a piece asks, in the words of a board on the wall: the scheme in one line, then a line for each movement."""

from __future__ import annotations

from dataclasses import replace

from tracker.conditioning.ladder import Listed, Run
from tracker.conditioning.pieces import ONCE, Piece, Task, with_amount_of
from tracker.conditioning.times import time_words
from tracker.wording import counted


def scheme_words(piece: Piece) -> str:
    """Say the scheme: "as many reps as possible in 12:00: 3, then 3 more each round"."""
    time = f" in {time_words(piece.cap_s)}" if piece.cap_s else ""
    cap = f", cap {time_words(piece.cap_s)}" if piece.cap_s else ""
    every = f"every {time_words(piece.work_s or 0)}, {counted(piece.intervals or 0, 'time')}"
    turns = f"{counted(piece.intervals or 0, 'time')} {time_words(piece.work_s or 0)} of work, {time_words(piece.rest_s)} of rest"
    each = f"{counted(piece.intervals or 0, 'time')}, each for time" + (
        f", {time_words(piece.rest_s)} of rest between" if piece.rest_s else ""
    )
    long = _minutes(piece.cap_s) if piece.cap_s else ""
    rounds = counted(piece.rounds, "round") if piece.rounds and piece.rounds > 1 else ""
    said = {
        "as many as possible": f"as many reps as possible{time}",
        "for time": f"{_rounds(piece)}for time{cap}",
        "every minute": every,
        "work and rest": each if piece.timed_intervals else turns,
        "distance": f"as far as possible{time}",
        "calories": f"as many calories as possible{time}",
        "heaviest": f"the heaviest load{time}",
        "unscored": ", ".join(each for each in (long, rounds, "no score") if each),
    }[piece.kind]
    run = _shared(piece)
    parts = (
        said + (f": {run_words(run)}{_a_side(piece)}" if run and _changes(run) else ""),
        "one movement each time, in turn" if piece.in_turn else "",
        {
            "lowest": "the slowest counts" if piece.timed_intervals else "the lowest counts",
            "completed": "intervals done in full count",
        }.get(piece.scored_by, ""),
        f"{piece.partners} together" if piece.partners > 1 else "",
        f"tie-break at {piece.tie_break}" if piece.tie_break else "",
        piece.setting,
    )
    return ", ".join(part for part in parts if part)


def movement_lines(piece: Piece, *, options: bool = False) -> tuple[str, ...]:
    """Say each movement with its count, where the scheme does not say that already; and the coach's options behind it."""
    shared = _shared(piece)
    counted = not (shared and _changes(shared))
    return tuple(
        _line(piece, task, counted=counted or task.most) + (_options(piece, task) if options else "")
        for task in piece.tasks
    )


def option_lines(piece: Piece, task: Task) -> tuple[str, ...]:
    """Say each of the coach's options of a movement, with an amount only where it is another one."""
    return tuple(_option(piece, task, each) for each in task.options)


def asked_words(piece: Piece) -> str:
    """Say all that a piece asks in one line: the scheme, each movement with the coach's options."""
    return "; ".join((scheme_words(piece), *movement_lines(piece, options=True)))


def now_words(piece: Piece, rounds: int) -> str:
    """Say what is on after so many finished rounds, where a piece has more than rounds; else nothing."""
    ladder = piece.ladder if piece.placed else None
    if ladder is None or not ladder.in_parts:
        return ""
    lines = movement_lines(piece)
    before, middle, after = ladder.stages
    first, then = "; ".join(lines[before:middle]), "; ".join(lines[middle:after])
    if ladder.rounds is not None and rounds >= ladder.rounds:
        return "Now: " + ("; ".join(lines[after:]) or "all of it is done")
    if rounds == 0 and first:
        return f"Now: {first}; then round 1: {then}" if then else f"Now: {first}; then {'; '.join(lines[after:])}"
    name = f"round {rounds + 1}: " if ladder.rounds != 1 else ""
    end = f"; then {'; '.join(lines[after:])}" if ladder.rounds == rounds + 1 and lines[after:] else ""
    return f"Now: {name}{then}{end}"


def run_words(run: Run) -> str:
    """Say a run of counts: "21-15-9", "3, then 3 more each round", "10"."""
    if isinstance(run, Listed):
        return "-".join(map(str, run.reps)) if _changes(run) else f"{run.reps[0]:,}"
    if not run.step:
        return f"{run.first:,}"
    return f"{run.first:,}, then {abs(run.step):,} {'more' if run.step > 0 else 'fewer'} each round"


def _line(piece: Piece, task: Task, *, counted: bool) -> str:
    free = piece.kind in ("distance", "calories", "heaviest", "unscored", "work and rest") and task.run == ONCE
    shown = (counted or bool(task.part)) and (not free or task.sides is not None or task.most)
    said = task.asked(run_words(task.as_asked), ":" if _changes(task.amount) else "") if shown else task.movement
    return (f"{task.part}: " if task.part else "") + ", ".join((said, *task.marks()))


def _options(piece: Piece, task: Task) -> str:
    """Say the options of a movement, with whom they are for, and with an amount only where it is another one."""
    return f" ({'; '.join(option_lines(piece, task))})" if task.options else ""


def _option(piece: Piece, task: Task, option: Task) -> str:
    words = _line(piece, replace(option, part=""), counted=with_amount_of(option, task) != option)
    return f"{option.when}: {words}" if option.when else f"or {words}"


def _minutes(seconds: int) -> str:
    """Say how long something goes that is not scored: "10 min", or "2:30" where it is no whole minutes."""
    minutes, left = divmod(seconds, 60)
    return f"{minutes} min" if minutes and not left else time_words(seconds)


def _rounds(piece: Piece) -> str:
    return f"{piece.rounds} rounds " if piece.rounds and piece.rounds > 1 else ""


def _shared(piece: Piece) -> Run | None:
    """The run that all movements of the rounds have in common, as it is asked, if they do."""
    runs = {(task.as_asked, task.per_side) for task in piece.tasks if not task.part and not task.most}
    return runs.pop()[0] if len(runs) == 1 else None


def _a_side(piece: Piece) -> str:
    """What the run in the scheme is said of: each side, where each movement is done for both."""
    return " each side" if all(task.per_side for task in piece.tasks if not task.part and not task.most) else ""


def _changes(run: Run) -> bool:
    return len(set(run.reps)) > 1 if isinstance(run, Listed) else run.step != 0
