"""Like with like: which scores of a piece may be compared, and what is different about the others.

What has to be equal is common practice, without a source: movements and their order, load, implement, height or target,
range of motion, what was swapped, the scheme, the cap, the setting or machine, alone or with partners. Nothing is ever
converted from one option to another. A best is only a best among like.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import zip_longest
from typing import Literal

from tracker.conditioning.counts import Count
from tracker.conditioning.pieces import IN_INTERVALS, Piece, Task, numbers_of
from tracker.conditioning.scores import Score
from tracker.conditioning.times import time_words
from tracker.units import Mass

Best = Literal["best", "perhaps best", ""]
Key = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Span:
    """A number to sort by, more being better: known where `low` equals `high`. Never a time, a pace or a plot."""

    low: Decimal
    high: Decimal


@dataclass(frozen=True, slots=True)
class Beside:
    """A score beside the one looked at: whether it is like it, what differs, and whether it is the best among like."""

    score: Score
    like: bool
    differs: tuple[str, ...]
    best: Best = ""


@dataclass(frozen=True, slots=True)
class Asked:
    """A piece as it is asked, without a result: what earlier scores of it are held against."""

    piece: Piece

    @property
    def tasks(self) -> tuple[Task, ...]:
        return self.piece.tasks


def task_key(task: Task) -> Key:
    """All of a movement that must be equal; masses in exact kilograms, so that 35 lb and 16 kg are not the same."""
    load = tuple(each.kg.normalize() for each in task.load) if isinstance(task.load, tuple) else None
    load = task.load.kg.normalize() if isinstance(task.load, Mass) else load
    key = (
        task.movement.casefold(), type(task.run).__name__, numbers_of(task.run), task.measure, load, task.implement.casefold(),
        task.implements, task.per_side, task.height_cm, task.target_cm, task.assistance.casefold(), task.standard.casefold(),
    )  # fmt: skip
    more = (task.sides, task.most, task.part)
    return (*key, *more) if any(more) else key  # the key of a movement without them is what it always was


def like_key(score: Score) -> Key:
    """What must be equal for two scores to be compared; the title and the coach's unused options are not part of it."""
    piece = score.piece
    scheme = (piece.kind, piece.rounds, piece.cap_s, piece.work_s, piece.rest_s, piece.intervals, piece.in_turn)
    return (*scheme, piece.scored_by, piece.partners, piece.setting.casefold(), *map(task_key, score.tasks))


def differences(score: Score | Asked, other: Score) -> tuple[str, ...]:
    """Say what is different about `other`, empty where the two may be compared."""
    said = [*_scheme_differences(score, other)]
    for ours, theirs in zip_longest(score.tasks, other.tasks):
        if ours is None or theirs is None:
            said.append("another number of movements")
        elif task_key(ours) != task_key(theirs):
            said.append(_task_difference(ours, theirs))
    if other.ended == "stopped":
        said.append("stopped early")
    return tuple(dict.fromkeys(said))


def beside(score: Score, history: Sequence[Score]) -> tuple[Beside, ...]:
    """Return `history`, in its order, marked against `score`; `score` itself is to be part of it.

    A best is marked among the like ones alone, as soon as there are two. Where a lost count overlaps it, both are
    perhaps best. Equal results are each best. The first attempt has beaten nothing: it is none, whatever comes after it.
    """
    marks = [(other, differences(score, other)) for other in history]
    like = [other for other, differs in marks if not differs]
    first = min((each for each in like if sorting_span(each) is not None), key=lambda each: each.day, default=None)
    best = iter(best_marks(like))
    found: list[Beside] = []
    for other, differs in marks:
        mark: Best = "" if differs else next(best)
        found.append(Beside(other, not differs, differs, "" if other is first else mark))
    return tuple(found)


def best_marks(like: Sequence[Score]) -> list[Best]:
    """Mark each of some comparable scores, in their order: best, perhaps best, or nothing."""
    spans = [sorting_span(score) for score in like]
    known = [span for span in spans if span is not None]
    if len(known) < 2:
        return [""] * len(spans)
    highs, lows = (
        sorted((span.high for span in known), reverse=True),
        sorted((span.low for span in known), reverse=True),
    )
    return [_mark(span, highs, lows) if span is not None else "" for span in spans]


def _mark(span: Span, highs: Sequence[Decimal], lows: Sequence[Decimal]) -> Best:
    """Compare a span with the highest of the others; `highs` and `lows` are of all, it among them, the highest first."""
    if span.low >= highs[1 if span.high == highs[0] else 0]:
        return "best"
    return "perhaps best" if span.high >= lows[1 if span.low == lows[0] else 0] else ""


def best_mark(score: Score, like: Sequence[Score]) -> Best:
    """Whether `score` is the best of `like`, all comparable; nothing for a single one or where there is no score."""
    span, spans = sorting_span(score), [found for found in map(sorting_span, like) if found is not None]
    if span is None or len(spans) < 2:
        return ""
    others = list(spans)
    others.remove(span)
    if span.low >= max(other.high for other in others):
        return "best"
    return "perhaps best" if span.high >= max(other.low for other in others) else ""


def sorting_span(score: Score) -> Span | None:
    """The number that scores of one key sort by, more being better; None where the piece has none, or it is only about so.

    A capped piece sorts as its cap and a second for each repetition missing (common practice, no source): a key to sort
    by, never shown as a time.
    """
    piece = score.piece
    if piece.kind == "unscored" or score.ended == "stopped" or score.about or score.time_unknown:
        return None
    if score.load is not None:
        return Span(score.load.kg, score.load.kg)
    if piece.kind == "for time":
        return _time_span(score)
    if piece.kind in IN_INTERVALS:
        return _interval_span(score)
    return _span(score.total) if score.total else None


def _time_span(score: Score) -> Span | None:
    if score.ended == "finished" and score.time_s:
        return Span(Decimal(-score.time_s), Decimal(-score.time_s))
    if score.missing is None or score.piece.cap_s is None:
        return None
    return Span(Decimal(-score.piece.cap_s - score.missing.high), Decimal(-score.piece.cap_s - score.missing.low))


def _interval_span(score: Score) -> Span | None:
    if score.piece.scored_by == "completed":
        return Span(Decimal(score.kept), Decimal(score.kept)) if score.kept is not None else None
    if score.piece.timed_intervals:
        times = score.all_intervals_s
        counts = Decimal(-(max(times) if score.piece.scored_by == "lowest" else sum(times)))
        return Span(counts, counts) if times else None
    if not score.each:
        return None
    if score.piece.scored_by == "lowest":
        return _span(Count(min(each.low for each in score.each), min(each.high for each in score.each)))
    return _span(score.total) if score.total else None


def _span(count: Count) -> Span:
    return Span(Decimal(count.low), Decimal(count.high))


def _scheme_differences(score: Score | Asked, other: Score) -> list[str]:
    ours, theirs = score.piece, other.piece
    times = (("cap", "cap_s"), ("intervals of", "work_s"), ("rest", "rest_s"))
    said = [
        f"{name} {time_words(getattr(theirs, key) or 0)} instead of {time_words(getattr(ours, key) or 0)}"
        for name, key in times
        if getattr(ours, key) != getattr(theirs, key)
    ]
    words = (
        ("another kind of piece", "kind"), ("another number of rounds", "rounds"), ("scored another way", "scored_by"),
        ("another number of intervals", "intervals"), ("movements taken another way", "in_turn"),
        ("another number of partners", "partners"), ("another setting", "setting"),
    )  # fmt: skip
    return said + [said_so for said_so, key in words if getattr(ours, key) != getattr(theirs, key)]


def _task_difference(ours: Task, theirs: Task) -> str:
    if ours.movement.casefold() != theirs.movement.casefold():
        return f"{theirs.movement} instead of {ours.movement}"
    if ours.marks() != theirs.marks():
        there = [mark for mark in theirs.marks() if mark not in ours.marks()]
        here = [mark for mark in ours.marks() if mark not in theirs.marks()]
        said = [", ".join(there), f"{'instead of' if there else 'without'} {', '.join(here)}" if here else ""]
        return f"{theirs.movement}: {' '.join(part for part in said if part)}"
    return f"{theirs.movement}: other repetitions"
