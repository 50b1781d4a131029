"""The best result of each piece, among results of the same version, with what it beat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from tracker.conditioning.compare import Span, like_key, sorting_span
from tracker.conditioning.scores import Score
from tracker.conditioning.swaps import swap_words
from tracker.conditioning.told import told_words
from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.log import scores as log_scores
from tracker.log.unit_of_work import Log


@dataclass(frozen=True, slots=True)
class BestPiece:
    """The best of one version of a piece: the result in words and its day, and the best of the days before that it beat."""

    title: str
    version: str  # what was swapped; empty where it was done as prescribed
    said: str
    day: date
    goes: int  # results of this version that can be compared
    before: str = ""  # empty where it was the first, or where nothing it beat is known for sure
    before_on: date | None = None
    perhaps: bool = False  # a count was lost: another one may have been as good


@may("see")
@cached_until_write
def best_pieces(log: Log, member_id: str, until: date) -> tuple[BestPiece, ...]:
    """List the best of each piece in each version, the newest first; a stopped piece and one without a score have none."""
    with log.reading() as session:
        rows = log_scores.scores_of(session, member_id, until=until)
    versions: dict[object, list[Score]] = {}
    for row in rows:
        versions.setdefault((row.score.piece.title.casefold(), like_key(row.score)), []).append(row.score)
    found = [best for scores in versions.values() if (best := _best(scores))]
    return tuple(sorted(found, key=lambda each: each.day, reverse=True))


def _best(scores: Sequence[Score]) -> BestPiece | None:
    known = [(span, score) for score in scores if (span := sorting_span(score))]
    if not known:
        return None
    span, best = _first_of_best(known)
    earlier = [each for each in known if each[1].day < best.day]
    before = _first_of_best(earlier) if earlier else None
    if before is not None and before[0].high >= span.low:  # as good, or perhaps so
        before = None
    others = [each.high for each, score in known if score is not best and each != span]
    perhaps = any(high > span.low for high in others) or span.low != span.high
    return BestPiece(
        best.piece.title, ", ".join(swap_words(best)), told_words(best), best.day, len(known),
        told_words(before[1]) if before else "", before[1].day if before else None, perhaps and len(known) > 1,
    )  # fmt: skip


def _first_of_best(known: Sequence[tuple[Span, Score]]) -> tuple[Span, Score]:
    """Return the best result; of equal ones the first."""
    return max(known, key=lambda each: (each[0].low, each[0].high, -each[1].day.toordinal()))
