"""Scores of conditioning pieces: what was done."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from hashlib import blake2b
from json import dumps
from typing import Any

from sqlalchemy import Select, func, select
from sqlalchemy.orm import Session as OrmSession

from tracker.conditioning.piece_record import piece_from, record_of
from tracker.conditioning.pieces import Piece
from tracker.conditioning.score_record import score_from, score_record
from tracker.conditioning.scores import Score
from tracker.log import models
from tracker.log.columns import now
from tracker.log.models import PieceScore
from tracker.log.sessions import session_of_step, session_on
from tracker.log.sets import GOES_ON
from tracker.log.touches import touched_at
from tracker.log.unit_of_work import Act


@dataclass(frozen=True, slots=True)
class ScoreRow:
    """One score as it stands in the log."""

    id: str
    member_id: str
    piece_id: str
    session_id: str | None
    score: Score
    clock_id: str | None
    member_step_id: str | None
    logged_at: datetime
    removed_at: datetime | None


def scores_of(
    session: OrmSession,
    member_id: str,
    *,
    title: str = "",
    since: date | None = None,
    until: date | None = None,
    removed: bool = False,
) -> tuple[ScoreRow, ...]:
    """List a member's scores in the order they were done; those of one title with `title`."""
    query = select(PieceScore, models.Piece).join(models.Piece, PieceScore.piece_id == models.Piece.id)
    query = query.where(PieceScore.member_id == member_id)
    if not removed:
        query = query.where(PieceScore.removed_at.is_(None))
    if title:
        query = query.where(func.lower(models.Piece.title) == title.lower())
    if since:
        query = query.where(PieceScore.day >= since)
    if until:
        query = query.where(PieceScore.day <= until)
    return _score_rows(session, query)


def scores_of_step(session: OrmSession, member_id: str, member_step_id: str, until: date) -> tuple[ScoreRow, ...]:
    """List the scores that were got in one planned session, of the weeks up to `until`."""
    since = until - GOES_ON
    found = scores_of(session, member_id, since=since, until=until)
    return tuple(row for row in found if row.member_step_id == member_step_id)


def newest_days(session: OrmSession, member_id: str, until: date) -> dict[str, date]:
    """Return for each title, in small letters, the newest day up to `until` on which the member did that piece."""
    query = (
        select(models.Piece.title, func.max(PieceScore.day))
        .join(models.Piece, PieceScore.piece_id == models.Piece.id)
        .where(PieceScore.member_id == member_id, PieceScore.removed_at.is_(None), PieceScore.day <= until)
        .group_by(models.Piece.title)
        .order_by(func.max(PieceScore.day))
    )
    return {title.casefold(): day for title, day in session.execute(query)}


def one_score(session: OrmSession, score_id: str) -> ScoreRow | None:
    return _one(session, PieceScore.id == score_id)


def score_with_token(session: OrmSession, token: str) -> ScoreRow | None:
    """Find the score that the same tap logged before."""
    return _one(session, PieceScore.token == token)


def _one(session: OrmSession, where: Any) -> ScoreRow | None:  # an SQL expression, of no type that could be named
    query = select(PieceScore, models.Piece).join(models.Piece, PieceScore.piece_id == models.Piece.id)
    found = _score_rows(session, query.where(where))
    return found[0] if found else None


def _score_rows(session: OrmSession, query: Select[PieceScore, models.Piece]) -> tuple[ScoreRow, ...]:
    known: dict[str, Piece] = {}
    found: list[ScoreRow] = []
    for row, of in session.execute(query.order_by(PieceScore.day, PieceScore.logged_at)):
        if of.id not in known:
            known[of.id] = piece_from(of.definition)
        score = score_from(known[of.id], row.result)
        found.append(
            ScoreRow(
                row.id, row.member_id, of.id, row.session_id, score, row.clock_id, row.member_step_id, row.logged_at,
                row.removed_at,
            )
        )  # fmt: skip
    return tuple(found)


def add_score(
    act: Act,
    member_id: str,
    piece_id: str,
    score: Score,
    *,
    token: str | None = None,
    clock_id: str | None = None,
    member_step_id: str | None = None,
    place_id: str | None = None,
) -> str:
    """Add a score to the day's session and return its id."""
    session = session_of_step(act, member_id, score.day, member_step_id, place_id=place_id)
    row = PieceScore(member_id=member_id, piece_id=piece_id, session_id=session.id, clock_id=clock_id, token=token)
    row.member_step_id = member_step_id
    _fill_score(row, score)
    row.origin, row.logged_at = identity(member_id, score), touched_at()
    act.session.add(row)
    act.session.flush()
    return row.id


def change_score(act: Act, score_id: str, score: Score) -> None:
    """Give a score another result; its origin stays what it was."""
    row = act.session.get_one(PieceScore, score_id)
    if score.day != row.day:
        row.session_id = session_on(act, row.member_id, score.day).id
    _fill_score(row, score)
    act.session.flush()


def put_step(act: Act, score_id: str, member_step_id: str) -> None:
    """Say to which session a score belongs that came without saying so."""
    act.session.get_one(PieceScore, score_id).member_step_id = member_step_id
    act.session.flush()


def remove_score(act: Act, score_id: str) -> None:
    """Take a score out of everything; it stays in the history."""
    act.session.get_one(PieceScore, score_id).removed_at = now()
    act.session.flush()


def _fill_score(row: PieceScore, score: Score) -> None:
    total = score.total
    row.day, row.result, row.note = score.day, score_record(score), score.note
    row.low, row.high = (None, None) if total is None else (total.low, total.high)
    row.time_s, row.ended, row.tie_break_s = (
        None if score.time_s is None else int(score.time_s),
        score.ended,
        score.tie_break_s,
    )
    row.as_prescribed = score.as_prescribed


def identity(member_id: str, score: Score) -> str:
    """Return 40 hexadecimal digits that are equal for equal scores of equal pieces: an import adds none twice."""
    facts = [member_id, record_of(score.piece), score_record(score)]
    return blake2b(dumps(facts, sort_keys=True).encode(), digest_size=20).hexdigest()
