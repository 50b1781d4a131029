"""Sessions of days before that were begun and not finished: how much of each is done, and what is left of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from datetime import date

from tracker.desk.day.on_today import open_pieces
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sets as log_sets
from tracker.log.records import MemberStepRow
from tracker.log.unit_of_work import Reader
from tracker.wording import counted


def unfinished(session: Reader, member_id: str, steps: Iterable[MemberStepRow], day: date) -> dict[str, str]:
    """Return by a step's id "unfinished: 3 of 5 sets done, 2 sets of back squat, the piece Lantern ladder left".

    Nothing of a step of which nothing is done.
    """
    found: dict[str, str] = {}
    for step in steps:
        done = log_sets.planned_rounds_done(session, step.id)
        total = sum(row.sets for row in step.sets)
        if step.state != "planned" or not done or len(done) >= total:
            continue
        left = Counter(row.lift.name for row in step.sets for n in range(1, row.sets + 1) if (row.id, n) not in done)
        known = sum(left.values()) == total - len(
            done
        )  # else some were done in another way, and stand for some of these
        pieces = log_pieces.pieces_of_step(session, step.step_id, member_id)
        open_ones = open_pieces(pieces, log_scores.scores_of_step(session, member_id, step.id, day)) if pieces else ()
        names = [f"{counted(number, 'set')} of {name}" for name, number in left.items()] if known else []
        said = ", ".join((*names, *(f"the piece {row.piece.title}" for row in open_ones)))
        found[step.id] = f"unfinished: {len(done)} of {counted(total, 'set')} done{f', {said} left' if said else ''}"
    return found
