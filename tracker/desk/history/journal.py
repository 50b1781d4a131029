"""What was done: sessions with their sets, newest first, and the history of acts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from itertools import groupby

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day import log_set, max_of_set
from tracker.desk.day.step_state import reopened
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.limits import MOST_NAME
from tracker.log import history
from tracker.log import members as log_members
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.records import ChangeRow, SessionRow, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.undo import undo
from tracker.log.unit_of_work import Log
from tracker.log.who import PLAN
from tracker.wording import counted


@dataclass(frozen=True, slots=True)
class JournalSession:
    """One session, the sets done in it, and the scores of its pieces."""

    session: SessionRow
    sets: tuple[SetRow, ...]
    scores: tuple[ScoreRow, ...] = ()


@may("see")
def sessions(
    log: Log, member_id: str, *, limit: int = 20, text: str = "", day: date | None = None
) -> tuple[JournalSession, ...]:
    """List the newest sessions with their sets, or those of a day; `text` searches lifts, pieces, notes and labels."""
    with log.reading() as session:
        if day is None:
            rows = log_sessions.sessions_of(session, member_id, limit=limit, text=text.strip())
        else:
            rows = log_sessions.sessions_on(session, member_id, day)
        days = [row.day for row in rows]
        sets = log_sets.sets_of(session, member_id, since=min(days), until=max(days)) if rows else ()
        scores = log_scores.scores_of(session, member_id, since=min(days), until=max(days)) if rows else ()
    by_session = {
        key: tuple(group)
        for key, group in groupby(sorted(sets, key=lambda row: row.session_id), key=lambda row: row.session_id)
    }
    found = (
        JournalSession(
            row,
            tuple(sorted(by_session.get(row.id, ()), key=lambda each: each.position)),
            tuple(score for score in scores if score.session_id == row.id),
        )
        for row in rows
    )
    return tuple(
        entry for entry in found if entry.sets or entry.scores or entry.session.note or entry.session.rating is not None
    )


@may("see")
@cached_until_write
def acts(log: Log, member_id: str, *, limit: int = 30) -> tuple[ChangeRow, ...]:
    """List the newest acts of a member, newest first."""
    with log.reading() as session:
        return history.acts(session, member_id, limit)


@may("change", grant=PLAN)
def undo_act(log: Log, act_id: str) -> str:
    """Take one act of the history back, and return its words; a max that a set made goes with that set.

    Raises:
        TidemarkError: if it was taken back before, or a later act touched the same record.
    """
    return undo(log, act_id, also=max_of_set.undone)


@may("change")
def leave_out(log: Log, set_id: str, reason: str) -> SetRow:
    """Leave a set out of the estimate, with the reason.

    Raises:
        BadInputError: if no reason is given or the set is gone.
    """
    reason = " ".join(reason.split())
    if not reason:
        raise BadInputError(
            "A set is left out for a reason.", where="reason", mend="Say why the estimate must not read it."
        )
    if len(reason) > MOST_NAME:
        raise BadInputError("The reason is too long.", where="reason", mend=f"Use at most {MOST_NAME} letters.")
    return _left_out(log, set_id, reason)


@may("change")
def take_in_again(log: Log, set_id: str) -> SetRow:
    """Let the estimate read a set again that was left out."""
    return _left_out(log, set_id, None)


def _left_out(log: Log, set_id: str, reason: str | None) -> SetRow:
    with log.reading() as session:
        row = log_sets.one_set(session, set_id)
    if row is None or row.removed_at:
        raise BadInputError("This set is not in the log any more.", where="set", mend="Reload the page.")
    return log_set.mend_set(log, set_id, replace(log_set.as_new(row), left_out=reason), sure=True)


@may("change")
def move_session(log: Log, session_id: str, member_id: str, day: date, *, today: date) -> int:
    """Give all sets of a session to the member who did them, or to the day they were done; return how many moved.

    Rating, minutes and note go along where the other session has none of them. A step that the sets had finished is open
    again where they were of the reader's `today`: it was not this member, or not that day.

    Raises:
        BadInputError: if the session or the member is gone, nothing would change, or the day can't be.
    """
    check_day(day)
    with log.reading() as session:
        source = log_sessions.one_session(session, session_id)
        target = log_members.member(session, member_id)
        if source is None or target is None:
            raise BadInputError("This session is not in the log any more.", where="session", mend="Reload the page.")
        sets = log_sets.sets_of(session, source.member_id, since=source.day, until=source.day)
    if (source.member_id, source.day) == (member_id, day):
        raise BadInputError("The session is there already.", where="session", mend="Choose another member or day.")
    mine = sorted((row for row in sets if row.session_id == session_id), key=lambda row: row.position)
    words = f"moved a session of {counted(len(mine), 'set')} to {target.name}, {day.isoformat()}"
    with log.act(words, source.member_id) as act:
        with reopened(act, mine, today):
            for row in mine:
                act.words += max_of_set.moved(act, row, member_id, day)
                log_sets.move_set(act, row.id, member_id, day)
        log_sessions.carry_over(act, session_id, log_sessions.session_on(act, member_id, day).id)
    return len(mine)
