"""What results brought into a log: recognised again, marked with the moment they were true at, withdrawn by newer ones.

A set or score that a result brought carries that moment in `import_id`. One that a newer result no longer holds is
removed, and remembers the newer moment, so that an older result that comes late changes nothing.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from decimal import Decimal

from sqlalchemy import or_, select
from sqlalchemy.orm import Session as OrmSession

from tracker.conditioning.piece_record import piece_from
from tracker.conditioning.score_record import score_from
from tracker.conditioning.scores import Score
from tracker.log import models
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.columns import now
from tracker.log.identity import identity
from tracker.log.models import LiftedSet, PieceScore, RepMax, Session
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Act
from tracker.units import Mass

BROUGHT, WITHDRAWN = "result ", "withdrawn "
_STAMP = "%Y%m%dT%H%M%SZ"


@dataclass(frozen=True, slots=True)
class Brought:
    """A set or score that a result brought and that still stands; `same` where nobody has mended it since."""

    id: str
    key: str
    same: bool


def origin_of(member_id: str, day: date, new: NewSet) -> str:
    """Return the identity that a set will have when it is added."""
    return identity(
        member_id=member_id, lift_id=new.lift_id, day=day, load=new.load, body_mass=new.body_mass, reps=new.reps,
        rir=new.rir, outcome=new.outcome, kind=new.kind,
    )  # fmt: skip


def _current(row: LiftedSet, member_id: str, day: date) -> str:
    return identity(
        member_id=member_id, lift_id=row.lift_id, day=day, load=Mass(row.load, row.unit),
        body_mass=row.body_mass, reps=row.reps, rir=row.rir, outcome=row.outcome, kind=row.kind,
    )  # fmt: skip


def sets_known(session: OrmSession, member_id: str, day: date, origins: Iterable[str]) -> Counter[str]:
    """Count how often each identity is in the log: as it came, or as it was mended to; a removed set still counts.

    Only what a newer result withdrew does not: a still newer one may bring it back.
    """
    query = (
        select(LiftedSet, Session.member_id, Session.day)
        .join(Session, LiftedSet.session_id == Session.id)
        .where(or_(LiftedSet.origin.in_(list(origins)), (Session.member_id == member_id) & (Session.day == day)))
    )
    found: Counter[str] = Counter()
    for row, whose, when in session.execute(query):
        if not (row.import_id or "").startswith(WITHDRAWN):
            found.update({row.origin, _current(row, whose, when)})
    return found


def body_mass_known(session: OrmSession, member_id: str, day: date, new: NewSet) -> Decimal | None:
    """Return the body mass of a set of the day that is `new` but for it: a result may come with and without."""
    query = (
        select(LiftedSet)
        .join(Session, LiftedSet.session_id == Session.id)
        .where(Session.member_id == member_id, Session.day == day, LiftedSet.lift_id == new.lift_id)
        .where(LiftedSet.unit == new.load.unit, LiftedSet.reps == new.reps, LiftedSet.body_mass.is_not(None))
    )
    same = (new.load.amount, new.rir, new.outcome, new.kind)
    rows = session.scalars(query).all()
    return next((row.body_mass for row in rows if (row.load, row.rir, row.outcome, row.kind) == same), None)


def sets_brought(session: OrmSession, member_id: str, day: date) -> tuple[Brought, ...]:
    """List the sets of a day that results brought, in the order they were done."""
    query = (
        select(LiftedSet)
        .join(Session, LiftedSet.session_id == Session.id)
        .where(Session.member_id == member_id, Session.day == day, LiftedSet.removed_at.is_(None))
        .where(LiftedSet.import_id.startswith(BROUGHT))
        .order_by(LiftedSet.position)
    )
    rows = session.scalars(query).all()
    return tuple(Brought(row.id, row.origin, _current(row, member_id, day) == row.origin) for row in rows)


def scores_on(session: OrmSession, member_id: str, day: date) -> tuple[tuple[str, Score, bool, bool], ...]:
    """List all scores of a day: id, score without note, whether a result brought it, and whether it still stands.

    What a newer result withdrew is left out.
    """
    query = select(PieceScore, models.Piece).join(models.Piece, PieceScore.piece_id == models.Piece.id)
    rows = session.execute(query.where(PieceScore.member_id == member_id, PieceScore.day == day)).all()
    return tuple(
        (row.id, replace(score_from(piece_from(of.definition), row.result), note=""),
         (row.import_id or "").startswith(BROUGHT), row.removed_at is None)
        for row, of in rows
        if not (row.import_id or "").startswith(WITHDRAWN)
    )  # fmt: skip


def max_known(session: OrmSession, member_id: str, lift_id: str, day: date, reps: int, load: Mass) -> bool:
    """Whether a rep-max is in the log: by itself, also a removed one, or as the set of its test."""
    stated = select(RepMax.load, RepMax.unit).where(
        RepMax.member_id == member_id, RepMax.lift_id == lift_id, RepMax.day == day, RepMax.reps == reps
    )
    tests = (
        select(LiftedSet.load, LiftedSet.unit)
        .join(Session, LiftedSet.session_id == Session.id)
        .where(Session.member_id == member_id, Session.day == day, LiftedSet.lift_id == lift_id)
        .where(LiftedSet.reps == reps, LiftedSet.kind == "test")
    )
    loads = [(row.load, row.unit) for query in (stated, tests) for row in session.execute(query)]
    return (load.amount, load.unit) in loads


def replace_max(act: Act, member_id: str, day: date, test: NewSet) -> None:
    """Remove a tested rep-max that stands by itself where the set of its test has come: one fact is not told twice."""
    query = select(RepMax).where(
        RepMax.member_id == member_id, RepMax.lift_id == test.lift_id, RepMax.day == day, RepMax.reps == test.reps,
        RepMax.source == "tested", RepMax.removed_at.is_(None), RepMax.unit == test.load.unit,
    )  # fmt: skip
    for row in act.session.scalars(query):
        if row.load == test.load.amount:
            row.removed_at = now()


def newest_result(session: OrmSession, member_id: str, day: date) -> datetime | None:
    """Return the moment of the newest result of a day that was taken; None where there was none."""
    sets = select(LiftedSet.import_id).join(Session, LiftedSet.session_id == Session.id)
    sets = sets.where(Session.member_id == member_id, Session.day == day)
    scores = select(PieceScore.import_id).where(PieceScore.member_id == member_id, PieceScore.day == day)
    rated = select(Session.import_id).where(Session.member_id == member_id, Session.day == day)
    marks = [mark for query in (sets, scores, rated) for mark in session.scalars(query) if mark]
    known = [mark.split(" ", 1)[1] for mark in marks if mark.startswith((BROUGHT, WITHDRAWN))]
    return max((datetime.strptime(each, _STAMP).replace(tzinfo=UTC) for each in known), default=None)


def add_sets(act: Act, member_id: str, day: date, news: Sequence[NewSet], as_of: datetime) -> None:
    """Add sets that a result brings."""
    for new in news:
        set_id = log_sets.add_set(act, member_id, day, new)
        act.session.get_one(LiftedSet, set_id).import_id = _mark(BROUGHT, as_of)


def add_scores(act: Act, member_id: str, news: Sequence[tuple[str, Score]], as_of: datetime) -> None:
    """Add scores that a result brings, each with the id of its piece."""
    for piece_id, score in news:
        score_id = log_scores.add_score(act, member_id, piece_id, score)
        act.session.get_one(PieceScore, score_id).import_id = _mark(BROUGHT, as_of)


def withdraw(act: Act, sets: Iterable[str], scores: Iterable[str], as_of: datetime) -> None:
    """Remove what an earlier result brought and the newer one does not hold any more."""
    rows = [act.session.get_one(LiftedSet, each) for each in sets]
    for row in [*rows, *(act.session.get_one(PieceScore, each) for each in scores)]:
        row.removed_at, row.import_id = now(), _mark(WITHDRAWN, as_of)
    act.session.flush()


def rate(act: Act, member_id: str, day: date, rating: int | None, minutes: int | None, as_of: datetime) -> bool:
    """Put rating and minutes of a session, unless the log has others of its own; tell whether anything was changed."""
    row = log_sessions.session_on(act, member_id, day)
    own = (row.rating is not None or row.minutes is not None) and not (row.import_id or "").startswith(BROUGHT)
    if own or (row.rating, row.minutes) == (rating, minutes):
        return False
    row.rating, row.minutes, row.import_id = rating, minutes, _mark(BROUGHT, as_of)
    row.rated_at = as_of if rating is not None else None
    act.session.flush()
    return True


def _mark(word: str, as_of: datetime) -> str:
    return f"{word}{as_of.astimezone(UTC).strftime(_STAMP)}"
