"""A score as it is told across a gym: beside the numbers the rung and the movement, and how many of all.

`score_words` says a score so that it can be read back; this is for whoever reads it. Both forms are common practice.
"""

from __future__ import annotations

import re

from tracker.conditioning.ladder import BUY_IN, Ladder, Position
from tracker.conditioning.named import many, measured
from tracker.conditioning.pairs import load_words
from tracker.conditioning.pieces import Task
from tracker.conditioning.scores import Score, Swap
from tracker.conditioning.standing import rounds_words, standing
from tracker.conditioning.swaps import swapped_words
from tracker.conditioning.words import name_of, score_words
from tracker.wording import counted

VERSIONS = ("home", "scaled")  # for whom a coach writes another way of a whole piece, in a sheet's own words
_COUNTED_BY_MOVEMENTS = re.compile(r" \(\d+ movements?(?: and \d[\d,]*)?\)$")


def told_words(score: Score) -> str:
    """Say a score: "111 reps (in the round of 15: 6 burpees)", "CAP + 18 (207 of 225; in the round of 9: 6 burpees)".

    Where the rounds of a ladder grow or shrink, how many repetitions that is comes before where they ended.
    """
    if score.kept is not None:
        return ", ".join((_minutes(score), *version_words(score), *_together(score)))
    said = _plainly(score)
    total = "" if said != score_words(score) else _of_all(score)
    end = (
        ""
        if said == score_words(score) or not score.positions or place_words(score)
        else _rounds_done(score, score.positions[0])
    )
    beside = "; ".join(each for each in (total, place_words(score), end) if each)
    said = f"{_COUNTED_BY_MOVEMENTS.sub('', said)} ({beside})" if beside else said
    return ", ".join((said, *version_words(score), *_together(score)))


def _plainly(score: Score) -> str:
    """Say a score as it is typed, but a place in rounds that are not alike by all the repetitions up to it."""
    said = score_words(score)
    if score.positions is None or score.total is None or score.total.lost or score.ended == "capped":
        return said
    words = standing(score.ladder, score.total.low).words
    if not words.startswith("through ") or words not in said:
        return said
    done, whole = score.total.low, score.ladder.all_reps
    of_all = f"{done:,} of {counted(whole, 'rep')}" if score.missing is not None and whole else counted(done, "rep")
    return said.replace(words, of_all)


def _rounds_done(score: Score, place: Position) -> str:
    """Say which rounds are done at a place between two: "round of 15 done"."""
    return f"{rounds_words(score.ladder, place.rounds)} done" if place.rounds > 0 else "no round done"


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
    """Say which of the coach's other versions was done: "home version"; none as prescribed, and what was changed in it.

    A movement that is neither prescribed nor one of the coach's is said by itself: it is none of a version's.
    """
    meant = {name: [swap for swap in score.swaps if _for_whom(swap).startswith(name)] for name in VERSIONS}
    if not any(meant.values()):
        return ()
    own = [swap for swap in score.swaps if not _is_coachs(score, swap)]
    names = (name for name, swaps in meant.items() if any(swap not in own for swap in swaps))
    return (
        *(f"{name} version" for name in names),
        *(swapped_words(swap.task, score.piece.tasks[swap.index]) for swap in own),
    )


def _for_whom(swap: Swap) -> str:
    return swap.task.when.casefold().removeprefix("at ")


def _is_coachs(score: Score, swap: Swap) -> bool:
    """Whether what was done is one of the coach's ways; where such a way says no load, any load is."""
    done = swap.task
    return any(
        done.movement.casefold() == way.movement.casefold()
        and (way.load is None or done.load == way.load)
        and (done.height_cm, done.target_cm, done.assistance) == (way.height_cm, way.target_cm, way.assistance)
        for way in score.piece.tasks[swap.index].options
    )


def place_words(score: Score) -> str:
    """Say where in a piece a score ended: "in the round of 15: 6 burpees"; empty where that is between two rounds, or not known."""
    if score.positions is None or score.total is None or score.total.lost:
        return ""
    return _at(score, score.positions[0])


def between_words(score: Score) -> str:
    """Say between which two places a lost count was: "in the round of 18: 8 box step-overs to 5 push-ups"."""
    places = [_at(score, place) or _rounds_done(score, place) for place in score.positions or ()]
    first, *more = dict.fromkeys(places) or ("",)
    where, _, _ = first.partition(": ")
    return " to ".join((first, *(each.removeprefix(f"{where}: ") for each in more)))


def _at(score: Score, place: Position) -> str:
    ladder = score.ladder
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
        return f"in the round of {asked[0]:,}"
    return "" if ladder.rounds == 1 else f"in round {place.rounds + 1:,}"


def _many(task: Task, number: int) -> str:
    return many(measured(task.movement, task.measure), number)
