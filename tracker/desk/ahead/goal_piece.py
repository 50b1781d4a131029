"""A goal in a piece: the version it is of, what is offered to touch, and what was typed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import date
from math import floor

from tracker.conditioning.compare import sorting_span
from tracker.conditioning.counts import exactly
from tracker.conditioning.pieces import IN_INTERVALS
from tracker.conditioning.scores import Score
from tracker.conditioning.words import parse_score
from tracker.units import Unit

BETTER = (0.01, 0.03, 0.05)  # than the best so far; own choice


def best_of(scores: Sequence[Score]) -> Score | None:
    """Return the best of some like scores; None where none of them has a number."""
    known = [(span.low, each) for each in scores if (span := sorting_span(each)) is not None]
    return max(known, key=lambda each: each[0])[1] if known else None


def offered_scores(best: Score) -> tuple[Score, ...]:
    """Return scores to touch, a little better than the best so far; none where only typing says one."""
    plain = replace(best, splits_s=(), note="", partner="", tie_break_s=None, short=())
    if best.piece.kind == "for time" and best.ended == "finished" and best.time_s:
        times = dict.fromkeys(max(1, floor(float(best.time_s) * (1 - part))) for part in BETTER)
        return tuple(replace(plain, time_s=each) for each in times)
    if best.piece.kind in IN_INTERVALS and best.ended == "finished":
        return tuple(_in_intervals(plain))
    if best.load is not None or best.count is None or best.ended != "finished":
        return ()
    most = best.count.high
    return tuple(replace(plain, count=exactly(each)) for each in _more_than(most))


def _more_than(count: int) -> tuple[int, ...]:
    return tuple(dict.fromkeys(max(count + 1, round(count * (1 + part))) for part in BETTER))


def _in_intervals(best: Score) -> Iterator[Score]:
    """Give better scores of a piece in intervals: one more kept, each faster, or more in them, as evenly as can be."""
    many = best.piece.intervals or 0
    if best.piece.scored_by == "completed":
        for kept in range((best.kept or 0) + 1, min(many, (best.kept or 0) + len(BETTER)) + 1):
            yield replace(best, kept=kept)
    elif times := best.all_intervals_s:
        for part in BETTER:
            yield replace(best, each_s=tuple(max(1, floor(float(each) * (1 - part))) for each in times))
    elif best.piece.scored_by == "lowest" and best.each:
        for least in _more_than(min(each.high for each in best.each)):
            yield replace(best, each=tuple(exactly(max(each.high, least)) for each in best.each))
    elif best.each and many:
        for whole in _more_than(sum(each.high for each in best.each)):
            every, over = divmod(whole, many)
            yield replace(best, each=tuple(exactly(every + (at < over)) for at in range(many)))


def typed_score(best: Score, text: str, unit: Unit, day: date) -> Score:
    """Read a score that somebody wants, of the same version as another one: see `parse_score`.

    Raises:
        BadInputError: if it can't be read, or can't be.
    """
    return parse_score(best.piece, day, text, swaps=best.swaps, unit=unit)
