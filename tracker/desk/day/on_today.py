"""Which session of a member's calendar is on: the same one for its sets, its piece and what comes after it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date, datetime

from tracker.desk.day.ceilings import ended
from tracker.desk.day.other_ways import is_complete
from tracker.log import choices as log_choices
from tracker.log import pieces as log_pieces
from tracker.log import scores as log_scores
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.choices import Choice
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberStepRow, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import Reader


@dataclass(frozen=True, slots=True)
class OnToday:
    """The session that is on, what stands beside it, and what the day holds already."""

    step: MemberStepRow | None
    ahead: MemberStepRow | None  # the first planned one of today or later that is not on
    missed: tuple[MemberStepRow, ...]  # planned for days before, and not on; the oldest first
    pieces: tuple[PieceRow, ...]  # of the session that is on, in the coach's order
    sets: tuple[SetRow, ...]  # all of the day
    scores: tuple[ScoreRow, ...]  # all of the day

    @property
    def open_pieces(self) -> tuple[PieceRow, ...]:
        return open_pieces(self.pieces, self.scores)


def on_today(session: Reader, member_id: str, day: date, wanted: str | None = None) -> OnToday:
    """Read which session is on.

    In this order: the one that is `wanted`, if it was begun today or is dated today; one begun today that has sets left; one begun today whose piece is open; one
    dated today; one finished today; and only where there is none of these the oldest that was missed.
    """
    known = log_waves.member_steps(session, member_id)
    steps = tuple(step for step in known if not step.own or step.due >= day)  # one's own for a day that is over is over
    sets = log_sets.sets_of(session, member_id, since=day, until=day)
    scores = log_scores.scores_of(session, member_id, since=day, until=day)

    def pieces(step: MemberStepRow) -> tuple[PieceRow, ...]:
        return log_pieces.pieces_of_step(session, step.step_id, member_id)

    chosen = log_choices.choices(session, member_id)
    now = _choose(steps, sets, scores, day, wanted, pieces, chosen)
    beside = [step for step in steps if step.state == "planned" and step is not now]
    return OnToday(
        now,
        next((step for step in beside if step.due >= day), None),
        tuple(step for step in beside if step.due < day),
        pieces(now) if now else (),
        sets,
        scores,
    )


def _choose(
    steps: tuple[MemberStepRow, ...],
    sets: tuple[SetRow, ...],
    scores: tuple[ScoreRow, ...],
    day: date,
    wanted: str | None,
    pieces: Callable[[MemberStepRow], tuple[PieceRow, ...]],
    said: Iterable[Choice] = (),
) -> MemberStepRow | None:
    begun = _begun(steps, sets, scores)
    planned = [step for step in steps if step.state == "planned"]
    due = [step for step in planned if step.due <= day]
    dated = [step for step in due if step.due == day]
    chosen = next((step for step in (*begun, *dated) if step.id == wanted), None)
    if chosen:
        return chosen
    going = [step for step in begun if step.state == "planned"]
    done = [step for step in begun if step.state == "done"]
    waiting = (step for step in done if not ended_by_hand(step, sets, said) and open_pieces(pieces(step), scores))
    return _first(going, waiting, dated, done, due)


def _first(*groups: Iterable[MemberStepRow]) -> MemberStepRow | None:
    """Return the first of all; a later group is looked at only where the earlier ones hold nothing."""
    return next((step for group in groups for step in group), None)


def _begun(
    steps: tuple[MemberStepRow, ...], sets: tuple[SetRow, ...], scores: tuple[ScoreRow, ...]
) -> list[MemberStepRow]:
    """List the steps that something of the day belongs to, the one of the newest act first."""
    newest: dict[str | None, datetime] = {}
    for row in (*sets, *scores):
        newest[row.member_step_id] = max(row.logged_at, newest.get(row.member_step_id, row.logged_at))
    return sorted((step for step in steps if step.id in newest), key=lambda step: newest[step.id], reverse=True)


def ended_by_hand(step: MemberStepRow, sets: Iterable[SetRow], chosen: Iterable[Choice] = ()) -> bool:
    """Whether a step was called done with sets left of a lift that the member had not ended."""
    rounds = {(row.planned_set_id, row.planned_round) for row in sets if row.member_step_id == step.id}
    return step.state == "done" and not is_complete(step, rounds, ended(chosen, step.id))


def open_pieces(pieces: Iterable[PieceRow], scores: Iterable[ScoreRow]) -> tuple[PieceRow, ...]:
    """List the pieces without a score of the day; one that was changed since is known by its title."""
    got = {row.score.piece.title.casefold() for row in scores}
    return tuple(row for row in pieces if row.piece.title.casefold() not in got)
