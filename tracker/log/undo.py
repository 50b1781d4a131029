"""Taking an act back: an act of its own, which reads the history of that one backwards, and refuses what came later."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from sqlalchemy import Column, and_, bindparam, or_, select, update
from sqlalchemy.orm import Session as OrmSession

from tracker.errors import TidemarkError
from tracker.log import row_access
from tracker.log.bulk import take_import_back
from tracker.log.chain import CHANGES, TOLD
from tracker.log.columns import Base
from tracker.log.held import IMPORTS
from tracker.log.history import words_now
from tracker.log.models import MODELS, Change, Lift, LiftedSet, Session
from tracker.log.pointing import one_pointing, order, pointing_to
from tracker.log.states import from_plain, state
from tracker.log.unit_of_work import BY_HAND, SAID, Act, ChangedSinceError, Log

_OF_ACT = (
    select(Change).where(Change.act_id == bindparam("act"), Change.undone_by.is_(None)).order_by(Change.number.desc())
)
_ENTRIES = CHANGES.c
_UNDONE = (
    update(CHANGES)
    .where(
        or_(
            _ENTRIES.act_id == bindparam("which"),
            and_(_ENTRIES.record == TOLD, _ENTRIES.record_id == bindparam("which")),
        )
    )
    .values(undone_by=bindparam("undoer"))
)


class NothingToUndoError(TidemarkError):
    """There is no act that could be taken back."""

    def __init__(self) -> None:
        super().__init__("There is nothing to undo.")


def undo(log: Log, act_id: str, *, also: Callable[[Act, frozenset[str]], str] | None = None) -> str:
    """Take one act back as an act of its own, and return the words of what was taken back.

    `also` is given the ids of the sets that were changed by it, does what follows for them, and returns what to say of that.

    Raises:
        NothingToUndoError: there is no such act, or it was taken back before.
        ChangedSinceError: a later act touched the same record.
    """
    with log.act("undid an act") as act:
        session = act.session
        changes = session.scalars(_OF_ACT, {"act": act_id}).all()
        if not changes or changes[0].record == TOLD:
            raise NothingToUndoError
        row_access.hold_act(session, act_id)
        act.words, act.member_id, act.undoes = f"undid: {changes[0].act}", changes[0].member_id, act_id
        points_back = any(change.record in MODELS and _by_database(change) for change in changes) or _hung_together(
            changes
        )
        for change in sorted(changes, key=_parents_first if points_back else _children_first):
            if change.record == IMPORTS:
                take_import_back(act, change)
            elif change.record in SAID:
                act.note(change.record, change.record_id, before=change.after, after=None)
            elif change.record not in BY_HAND and not (_by_database(change) and row_access.of_another(session, change)):
                _take_back(session, change)
        session.flush()
        sets = frozenset(change.record_id for change in changes if change.record == LiftedSet.__tablename__)
        more = also(act, sets) if also and sets else ""
        act.words += more
        undone = {"which": act_id, "undoer": act.id}
        session.connection().execute(_UNDONE, undone)  # whose act it is was looked at above
        return words_now(changes[0].act) + more


def _hung_together(changes: Sequence[Change]) -> bool:
    """Whether a record went and others with it that hung on it, as a group with who was in it."""
    went = {change.record for change in changes if change.record in MODELS and change.after is None and change.before}
    return any(table.name in went for name in went for table, _, _ in pointing_to(name))


def _by_database(change: Change) -> bool:
    """Whether a record was only changed by the database, because what it pointed to went: it may be somebody else's."""
    if change.before is None or change.after is None:
        return False
    columns = Base.metadata.tables[change.record].columns
    differs = [key for key, value in change.before.items() if change.after.get(key) != value]
    return all(change.after.get(each) is None and _emptied(columns[each]) for each in differs)


def _emptied(column: Column[Any]) -> bool:
    return any(key.ondelete == "SET NULL" for key in column.foreign_keys)


def _children_first(change: Change) -> int:
    """Order what is taken back: values first, then records that the act made, each before those that it hangs on."""
    tables = order()
    return len(tables) - tables[change.record] if change.before is None and change.record in tables else 0


def _parents_first(change: Change) -> int:
    """Bring back what went before any value that points to it, each record before those that hang on it."""
    tables = order()
    gone = change.after is None and change.record in tables
    return tables[change.record] - len(tables) if gone else _children_first(change)


def _take_back(session: OrmSession, change: Change) -> None:
    model = MODELS[change.record]
    item = session.get(model, change.record_id)
    if not _as_left(item, change.after):
        raise ChangedSinceError(change.record.removesuffix("s").replace("_", " "))
    if change.before is None:
        _take_away(session, item)
    elif item is None:
        session.add(model(**from_plain(model, change.before)))
    else:
        for key, value in from_plain(model, change.before).items():
            setattr(item, key, value)


def _as_left(item: Any, after: dict[str, Any] | None) -> bool:
    """Whether a record is as an act left it; columns that a later version added are not part of it."""
    if item is None or after is None:
        return item is None and after is None
    now = state(item)
    return all(now.get(key) == value for key, value in after.items())


def _take_away(session: OrmSession, item: Any) -> None:
    """Delete a record that an act made, but never anything that a later act hung on it: that would go with it, unseen.

    A day's session stays as long as something is in it, and so does a lift, which is no more than a name; with any other
    record the later act has to be undone first.
    """
    session.flush()
    if not _hung_on(session, item):
        session.delete(item)
    elif not isinstance(item, Session | Lift):
        raise ChangedSinceError(item.__tablename__.removesuffix("s").replace("_", " "))


def _hung_on(session: OrmSession, item: Any) -> bool:
    walled = {row_access.WALLED: True}
    return any(
        session.scalar(one_pointing(column), {"which": item.id}, execution_options=walled)
        for _, column, _ in pointing_to(item.__tablename__)
    )
