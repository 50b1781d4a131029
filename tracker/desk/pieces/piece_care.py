"""Which cautions go with a piece for a member, before it and on the days after."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from tracker.conditioning.movements import is_eccentric
from tracker.conditioning.pieces import Piece
from tracker.conditioning.scores import Score
from tracker.desk.base.roles import may
from tracker.desk.day.scene import read_scene
from tracker.desk.day.today import scene_of
from tracker.desk.people import places
from tracker.log import scores as log_scores
from tracker.log.records import MemberRecord
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Log
from tracker.safety import MANY_ECCENTRIC, WATCH_DAYS, Caution, for_days_after, for_piece


@may("see")
def cautions(log: Log, member: MemberRecord, piece: Piece, day: date) -> tuple[Caution, ...]:
    """Return the cautions of a piece for this member on this day; how much it will be is read off the last time."""
    with log.reading() as session:
        earlier = log_scores.scores_of(session, member.id, title=piece.title, until=day)
        scene = read_scene(session, log.name, member, places.read_place(session, member, day), day)
    expected = _eccentric(earlier[-1].score) if earlier else _eccentric_at_most(piece)
    return for_piece(scene.person, scene.around, eccentric_reps=expected)


@may("see")
def watch(log: Log, member: MemberRecord, scores: Sequence[ScoreRow], day: date) -> tuple[Caution, ...]:
    """What to look out for, where a piece of the last days was more than the member was used to."""
    for row in reversed(scores):
        since = (day - row.score.day).days
        if since > WATCH_DAYS:
            break
        scene = scene_of(log, member, None, row.score.day, {})
        then = for_piece(scene.person, scene.around, eccentric_reps=_eccentric(row.score))
        if found := for_days_after(since, then):
            return found
    return ()


def _eccentric(score: Score) -> int:
    """Repetitions of a score that lowered the body or a load; the most that a lost count allows."""
    done = score.per_movement()
    if not done:
        return _eccentric_at_most(score.piece)
    pairs = zip(score.tasks, done, strict=True)
    return sum(count.high for task, count in pairs if task.measure == "reps" and is_eccentric(task.movement))


def _eccentric_at_most(piece: Piece) -> int:
    """Such repetitions of a piece that was never done; of one that only time ends they count as many, to be careful."""
    places_of_it = [n for n, task in enumerate(piece.tasks) if task.measure == "reps" and is_eccentric(task.movement)]
    if not places_of_it:
        return 0
    rounds = piece.ladder.rounds or (piece.intervals if not piece.in_turn else None)
    if rounds is None:
        return MANY_ECCENTRIC
    if any(piece.tasks[n].most or piece.tasks[n].no_amount for n in places_of_it):
        return MANY_ECCENTRIC
    return sum(piece.tasks[n].amount.through(1 if piece.tasks[n].part else rounds) for n in places_of_it)
