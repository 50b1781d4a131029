"""A goal in a piece: the version it is of, what is offered to touch, and what was typed."""

from __future__ import annotations

from collections.abc import Sequence
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
    if best.piece.kind in IN_INTERVALS or best.load is not None or best.count is None or best.ended != "finished":
        return ()
    most = best.count.high
    counts = dict.fromkeys(max(most + 1, round(most * (1 + part))) for part in BETTER)
    return tuple(replace(plain, count=exactly(each)) for each in counts)


def typed_score(best: Score, text: str, unit: Unit, day: date) -> Score:
    """Read a score that somebody wants, of the same version as another one: see `parse_score`.

    Raises:
        BadInputError: if it can't be read, or can't be.
    """
    return parse_score(best.piece, day, text, swaps=best.swaps, unit=unit)
