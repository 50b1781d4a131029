"""A score as it is told across a gym: beside the numbers the rung and the movement, and how many of all.

`score_words` says a score so that it can be read back; this is for whoever reads it. Both forms are common practice.
"""

from __future__ import annotations

import re

from tracker.conditioning.ladder import BUY_IN, Ladder, Position
from tracker.conditioning.pieces import Task, load_words
from tracker.conditioning.scores import Score
from tracker.conditioning.words import name_of, score_words

VERSIONS = ("home", "scaled")  # for whom a coach writes another way of a whole piece, in a sheet's own words
_COUNTED_BY_MOVEMENTS = re.compile(r" \(\d+ movements?(?: and \d[\d,]*)?\)$")
_NO_PLURAL = re.compile(r"[^a-z]$|s$|-to-|\s(?:over|with|from|to|on|in)\s", re.IGNORECASE)


def told_words(score: Score) -> str:
    """Say a score: "through the 12s, plus 21 (in the 15s: 6 burpees)", "CAP + 18 (207 of 225; in the 9s: 6 burpees)"."""
    if score.kept is not None:
        return ", ".join((_minutes(score), *version_words(score), *_together(score)))
    beside = "; ".join(each for each in (_of_all(score), place_words(score)) if each)
    said = f"{_COUNTED_BY_MOVEMENTS.sub('', score_words(score))} ({beside})" if beside else score_words(score)
    return ", ".join((said, *version_words(score), *_together(score)))


def _together(score: Score) -> tuple[str, ...]:
    """Say who did it together: by the name that was typed, else how many."""
    if score.partner:
        return (f"with {score.partner}",)
    return (f"{score.piece.partners} together",) if score.piece.partners > 1 else ()


def _minutes(score: Score) -> str:
    """Say intervals kept, with all that was done and those that fell short: "10/12 (18 power cleans, 58 cal bike; minute 8: none)"."""
    head, name = f"{score.kept}/{score.piece.intervals}", name_of(score.piece)
    short = "; ".join(f"{name} {number}: {done or 'none'}" for number, done in score.short)
    parts = [", ".join(done_words(score)), short]
    beside = "; ".join(part for part in parts if part)
    return f"{head} ({beside})" if beside else head


def done_words(score: Score) -> tuple[str, ...]:
    """Say how much of each movement was done in intervals that each ask for one; empty where that is not all known."""
    intervals, tasks = score.piece.intervals or 0, score.tasks
    if score.kept is None or len(score.short) != intervals - score.kept or not tasks:
        return ()
    short, totals = dict(score.short), [0] * len(tasks)
    for number in range(1, intervals + 1):
        asked = score.asked_in(number)
        if asked is None:
            return ()
        totals[(number - 1) % len(tasks)] += short.get(number, asked)
    loads = ("" if task.load is None else f" at {load_words(task.load)}" for task in tasks)
    return tuple(f"{_many(task, total)}{load}" for task, total, load in zip(tasks, totals, loads, strict=True))


def version_words(score: Score) -> tuple[str, ...]:
    """Say which of the coach's other versions was done: "home version", "scaled version"; none as prescribed."""
    meant = [swap.task.when.casefold().removeprefix("at ") for swap in score.swaps]
    return tuple(f"{name} version" for name in VERSIONS if any(each.startswith(name) for each in meant))


def place_words(score: Score) -> str:
    """Say where in a piece a score ended: "in the 15s: 6 burpees"; empty where that is between two rounds, or not known."""
    if score.positions is None or score.total is None or score.total.lost:
        return ""
    ladder, place = score.ladder, score.positions[0]
    asked = ladder.at(place.rounds)
    if not asked or not (place.done or place.reps):
        return ""
    first = ladder.first_of(place.rounds)
    if place.reps:
        what = _many(score.tasks[first + place.done], place.reps)
    else:
        what = f"{score.tasks[first + place.done - 1].movement} done"
    where = _where(ladder, place, asked)
    return f"{where}: {what}" if where else what


def _of_all(score: Score) -> str:
    """Say how many of all repetitions were done, of a piece for time that was not finished."""
    if score.missing is None or score.total is None or score.ended == "finished":
        return ""
    return f"{score.total} of {score.ladder.all_reps:,}"


def _where(ladder: Ladder, place: Position, asked: tuple[int, ...]) -> str:
    if place.rounds == BUY_IN:
        return "in the buy-in"
    if place.rounds == ladder.rounds:
        return "in the time left" if ladder.open_end and place.done == len(ladder.after) else "in the cash-out"
    if not ladder.alike and len(set(asked)) == 1:
        return f"in the {asked[0]:,}s"
    return "" if ladder.rounds == 1 else f"in round {place.rounds + 1:,}"


def _many(task: Task, number: int) -> str:
    if task.measure != "reps":
        return f"{number:,} {task.measure} {task.movement}"
    name = task.movement
    if number == 1 or (_NO_PLURAL.search(name) and not name.endswith("ss")):
        return f"{number:,} {name}"
    return f"{number:,} {name}{'es' if name.endswith(('ch', 'sh', 'ss', 'x')) else 's'}"
