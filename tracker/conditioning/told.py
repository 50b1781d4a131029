"""A score as it is told across a gym: beside the numbers the rung and the movement, and how many of all.

`score_words` says a score so that it can be read back; this is for whoever reads it. Both forms are common practice.
"""

from __future__ import annotations

import re

from tracker.conditioning.ladder import BUY_IN, Ladder, Position
from tracker.conditioning.pieces import Task
from tracker.conditioning.scores import Score
from tracker.conditioning.words import score_words

VERSIONS = ("home", "scaled")  # for whom a coach writes another way of a whole piece, in a sheet's own words
_COUNTED_BY_MOVEMENTS = re.compile(r" \(\d+ movements?(?: and \d[\d,]*)?\)$")
_NO_PLURAL = re.compile(r"[^a-z]$|s$|-to-|\s(?:over|with|from|to|on|in)\s", re.IGNORECASE)


def told_words(score: Score) -> str:
    """Say a score: "through the 12s, plus 21 (in the 15s: 6 burpees)", "CAP + 18 (207 of 225; in the 9s: 6 burpees)"."""
    beside = "; ".join(each for each in (_of_all(score), place_words(score)) if each)
    said = f"{_COUNTED_BY_MOVEMENTS.sub('', score_words(score))} ({beside})" if beside else score_words(score)
    return ", ".join((said, *version_words(score)))


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
    if number == 1 or _NO_PLURAL.search(name) and not name.endswith("ss"):
        return f"{number:,} {name}"
    return f"{number:,} {name}{'es' if name.endswith(('ch', 'sh', 'ss', 'x')) else 's'}"
