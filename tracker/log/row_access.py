"""The second wall: what a person may not see is not there for them, and what they may not change can't be written.

The desk says first who may do what (`desk/base/roles.py`). This room holds it again for every row that a session of the database
reads or writes, by the member whom the row belongs to, so that a rule which somebody forgot lets nothing through.

A new table must be put into one of the groups below; until then only the owner's acts reach it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache, lru_cache, partial
from typing import Any

from sqlalchemy import ColumnElement, Connection, Select, Table, and_, bindparam, event, false, func, or_, select, true
from sqlalchemy.orm import ORMExecuteState, with_loader_criteria
from sqlalchemy.orm import Session as OrmSession

from tracker.log.columns import Base
from tracker.log.models import MODELS, Change, GroupCoach, GroupMember, Lift, Member, Meta, Piece, Place, Wave
from tracker.log.who import HERE, Grant, RefusedError, Who, granted, who

OF_MEMBER = {  # the column that says whose a row is
    "members": "id", "sessions": "member_id", "body_masses": "member_id", "rep_maxes": "member_id",
    "member_waves": "member_id", "piece_clocks": "member_id", "scores": "member_id", "rest_days": "member_id",
    "changes": "member_id", "goals": "member_id", "group_members": "member_id", "class_members": "member_id",
}  # fmt: skip
OF_GYM = {"lifts", "places", "waves", "pieces"}  # everybody's, unless they are private to a member
WITHIN = {  # belongs to whom the row belongs that it hangs on
    "sets": ("session_id", "sessions"), "member_steps": ("member_wave_id", "member_waves"),
    "kit_items": ("place_id", "places"), "wave_steps": ("wave_id", "waves"), "planned_sets": ("step_id", "wave_steps"),
    "step_pieces": ("step_id", "wave_steps"), "piece_options": ("piece_id", "pieces"),
}  # fmt: skip
OF_ALL = {"gym_groups", "classes", "class_times", "class_waves"}  # everybody's to read: they name no member
OF_OWNER = {"gym_groups"}  # of these written by the owner's acts alone, since a coach sees by groups
OF_NOBODY = {"log_facts"}  # facts of the log
CLOSED = {"accounts", "group_coaches"}  # only for the owner's acts
PRIVATE = "private_to"
SORE, FEEL = "sore places", "how one is"
ALONE = frozenset({SORE, FEEL})  # entries of history that are nobody's but the member's own, whoever they share with
WALLED = "walled"  # execution option: the one who sends this statement has seen to it


def stand(session: OrmSession, *, reads: bool = False) -> None:
    """Put the wall between this session and whoever acts; the household and the owner's acts have none.

    `reads` says that nothing is written in it.
    """
    if stands():
        Wall(session, who(), granted())
    elif not reads:
        event.listen(session, "after_flush", _on_own_lifts)


def stands() -> bool:
    """Tell whether there is a wall before whoever acts."""
    return who().role != HERE.role and not granted().all


def of_another(session: OrmSession, change: Change) -> bool:
    """Tell whether an entry of history is about a record of somebody else than the one who acts before a wall."""
    return stands() and owner_of(session.connection(), change.record, change.record_id) != who().member_id


def owner_of(connection: Connection, table: str, record_id: str) -> str | None:
    """Return the member whom a record belongs to; None where it is everybody's or is not there."""
    asked = _asked_owner(table)
    return None if asked is None else connection.scalar(asked, {"which": record_id})


@cache
def _asked_owner(table: str) -> Select[Any] | None:
    """Build once what is asked of a table for each record that is written."""
    found: Table = Base.metadata.tables[table]
    owner = _owner(table)
    return None if owner is None else select(owner).where(found.c.id == bindparam("which"))


def members_of_act(connection: Connection, act_id: str) -> frozenset[str | None]:
    """Return whose history an act stands in."""
    changes: Table = Base.metadata.tables[Change.__tablename__]
    return frozenset(connection.scalars(select(changes.c.member_id).where(changes.c.act_id == act_id)))


def of_others(connection: Connection, act_ids: Iterable[str]) -> frozenset[str]:
    """Return which of these acts whoever asks can't take back, because they are another's, or others' as well."""
    person = who()
    if person.role == HERE.role:
        return frozenset()
    changes: Table = Base.metadata.tables[Change.__tablename__]
    others = changes.c.member_id.is_not(None), changes.c.member_id != (person.member_id or "")
    return frozenset(connection.scalars(select(changes.c.act_id).where(changes.c.act_id.in_(list(act_ids)), *others)))


def sharing(connection: Connection, person: Who) -> frozenset[str]:
    """Return the members who let the coach see their log; for a coach who was given groups, those of these alone."""
    members: Table = Base.metadata.tables[Member.__tablename__]
    asked = select(members.c.id).where(members.c.shared, members.c.removed_at.is_(None))
    if person.of_groups and person.role == "coach":
        within: Table = Base.metadata.tables[GroupMember.__tablename__]
        led: Table = Base.metadata.tables[GroupCoach.__tablename__]
        theirs = select(within.c.member_id).join(led, led.c.group_id == within.c.group_id)
        asked = asked.where(members.c.id.in_(theirs.where(led.c.account_id == person.account_id)))
    return frozenset(connection.scalars(asked))


def seen_by(connection: Connection, person: Who) -> frozenset[str]:
    """Return the members whose log a person sees: their own, and for coach and owner of those who share."""
    own: set[str] = {person.member_id} if person.member_id and person.role != "nobody" else set()
    return frozenset(own | sharing(connection, person) if person.leads else own)


def _owner(table: str) -> ColumnElement[Any] | None:
    """Return the expression for whose a row of a table is; None where no row of it belongs to anybody."""
    found: Table = Base.metadata.tables[table]
    if table in OF_MEMBER:
        return found.c[OF_MEMBER[table]]
    if table in OF_GYM:
        return found.c[PRIVATE]
    if table not in WITHIN:
        return None
    column, parent = WITHIN[table]
    above: Table = Base.metadata.tables[parent]
    inner = _owner(parent)
    assert inner is not None
    theirs = select(inner).where(above.c.id == found.c[column]).scalar_subquery()
    return func.coalesce(found.c.member_id, theirs) if "member_id" in found.c else theirs


class Wall:
    """What one person may read and write in one session of the database."""

    def __init__(self, session: OrmSession, person: Who, grant: Grant) -> None:
        self.person, self.grant = person, grant
        self.seen: frozenset[str] | None = None
        event.listen(session, "do_orm_execute", self._execute)
        event.listen(session, "before_flush", self._before)
        event.listen(session, "after_flush", self._after)

    def _visible(self, connection: Connection) -> frozenset[str]:
        if self.seen is None:
            self.seen = seen_by(connection, self.person)
        return self.seen

    def _execute(self, state: ORMExecuteState) -> None:
        if state.execution_options.get(WALLED):
            return
        if not state.is_select or not state.is_orm_statement:
            raise RefusedError("This statement reaches past what belongs to one member.", mend="Report it as a fault.")
        if state.is_column_load or state.is_relationship_load:
            return  # of a row that was let through
        seen = self._visible(state.session.connection())
        state.statement = state.statement.options(*_criteria(seen, self.person.member_id or ""))

    def _before(self, session: OrmSession, _context: Any, _instances: Any) -> None:
        """Look at whose records are about to be changed, as they stand in the database; and say whose new ones are."""
        connection = session.connection()
        for item in (*session.dirty, *session.deleted):
            self._hold(connection, item)
        for item in session.new:
            if isinstance(item, Change) and item.member_id is not None:  # nobody writes into another's history
                self.may_write(connection, Change.__tablename__, item.member_id)
            if isinstance(item, Lift | Place | Wave | Piece) and item.private_to is None:
                item.private_to = private_to()
            if isinstance(item, Member) and "members" in self.grant.of_shared:
                item.shared = (
                    True  # who hands a result to the coach shares it; there is no account yet to say otherwise
                )

    def _after(self, session: OrmSession, _context: Any) -> None:
        """Look at whose they are now, and that nothing of theirs hangs on what is somebody else's."""
        connection = session.connection()
        if any(isinstance(item, Member) for item in (*session.new, *session.dirty)):
            self.seen = None
        for item in (*session.new, *session.dirty):
            self._hold(connection, item)
        for item in (*session.new, *session.dirty):
            self._hangs_on_own(connection, item)

    def _hold(self, connection: Connection, item: Any) -> None:
        if isinstance(item, Change | Meta):
            return
        table = item.__tablename__
        if table not in OF_MEMBER and table not in OF_GYM | OF_ALL and table not in WITHIN:
            raise RefusedError("Only the owner does that.", mend="Ask the owner of this log.")
        self.may_write(connection, table, owner_of(connection, table, item.id))

    def may_write(self, connection: Connection, table: str, owner: str | None) -> None:
        """Refuse a row of a table that belongs to `owner`, or to the gym where that is None."""
        if owner is None:
            if not self.person.leads or table in OF_OWNER:
                raise RefusedError("This belongs to the gym.", where=_word(table), mend="Ask the coach to change it.")
        elif not (owner == self.person.member_id or self._granted(connection, table, owner)):
            raise RefusedError("This is another member's log.", where=_word(table), mend="Only they change it.")

    def _granted(self, connection: Connection, table: str, owner: str) -> bool:
        shared = table in self.grant.of_shared and owner in self._visible(connection)
        return shared or table in self.grant.of_any

    def _hangs_on_own(self, connection: Connection, item: Any) -> None:
        if isinstance(item, Change | Meta):
            return
        mine = owner_of(connection, item.__tablename__, item.id)
        for column in item.__table__.columns:
            value = getattr(item, column.key)
            for key in column.foreign_keys if value else ():
                other = owner_of(connection, key.column.table.name, value)
                if other not in (None, mine):
                    raise RefusedError(
                        "It would hang on another member's record.", where=_word(item.__tablename__),
                        mend="Reload the page and choose again.",
                    )  # fmt: skip


def hold(session: OrmSession, table: str, owners: Iterable[str | None]) -> None:
    """Hold rows to the wall that are written past the ORM: whose they are is said by whoever writes them."""
    person, grant = who(), granted()
    if person.role == HERE.role or grant.all:
        return
    connection = session.connection()
    wall = Wall.__new__(Wall)
    wall.person, wall.grant, wall.seen = person, grant, None
    for owner in owners:
        wall.may_write(connection, table, owner)


def hold_history(session: OrmSession, entries: Iterable[Change]) -> None:
    """Hold new entries of the history to the wall, as it holds what the ORM writes: nobody writes into another's."""
    hold(session, Change.__tablename__, {each.member_id for each in entries} - {None})


def private_to() -> str | None:
    """Return to whom a lift, place, wave or piece is private that is made now: a member's to them, a coach's to nobody."""
    person = who()
    return person.member_id if person.role == "member" and not granted().all else None


def name_counts(model: type[Any]) -> ColumnElement[bool]:
    """Return under which condition the name of a record is taken for one that is made now: the gym's, and one's own.

    So a refusal never tells of what is private to somebody else. The household sees all, and there all names count.
    """
    if who().role == HERE.role:
        return true()
    return belongs(model, private_to())


def belongs(model: type[Any], member_id: str | None) -> ColumnElement[bool]:
    """Return the condition under which a record is the gym's, or private to this member."""
    of_all = model.private_to.is_(None)
    return of_all if member_id is None else or_(of_all, model.private_to == member_id)


def _on_own_lifts(session: OrmSession, _context: Any) -> None:
    """Hold the household and the owner's acts, which have no wall, to this: nobody's record hangs on another's own lift.

    It would not be there any more for whose record it is, as soon as they sign in.
    """
    for item in (*session.new, *session.dirty):
        lift_id = getattr(item, "lift_id", None)
        if not lift_id:
            continue
        connection = session.connection()
        whose = owner_of(connection, Lift.__tablename__, lift_id)
        if whose is not None and whose != owner_of(connection, item.__tablename__, item.id):
            raise RefusedError(
                "This lift is private to another member.", where="lift", mend="Choose or add another one."
            )


def hold_act(session: OrmSession, act_id: str) -> None:
    """Refuse to touch an act in the history of somebody else, or one that was all about what belongs to the gym."""
    owners = members_of_act(session.connection(), act_id)
    hold(session, Change.__tablename__, owners - {None} or owners)


@lru_cache(maxsize=128)
def _criteria(seen: frozenset[str], own: str) -> list[Any]:
    """Return for each kind of record the condition under which it is there for member `own`, who sees these members."""
    names = [name for name in MODELS if name not in OF_NOBODY]
    found = [
        with_loader_criteria(MODELS[name], _condition(name, partial(getattr, MODELS[name]), seen), include_aliases=True)
        for name in names
    ]
    theirs = or_(Change.record.not_in(sorted(ALONE)), Change.member_id == own)
    return [*found, with_loader_criteria(Change, theirs, include_aliases=True)]


def _condition(table: str, column: Callable[[str], Any], seen: frozenset[str]) -> ColumnElement[bool]:
    """Return when a row is there; `column` gives the columns of the table, or of the model that stands for it."""
    ids = sorted(seen)
    if table in OF_MEMBER:
        return column(OF_MEMBER[table]).in_(ids)
    if table in OF_GYM:
        return or_(column(PRIVATE).is_(None), column(PRIVATE).in_(ids))
    if table in OF_ALL:
        return true()
    if table not in WITHIN:
        return false()
    key, parent = WITHIN[table]
    above: Table = Base.metadata.tables[parent]
    within = column(key).in_(select(above.c.id).where(_condition(parent, above.c.__getitem__, seen)))
    if "member_id" not in Base.metadata.tables[table].c:
        return within
    return and_(within, or_(column("member_id").is_(None), column("member_id").in_(ids)))


def _word(table: str) -> str:
    return table.removesuffix("s").replace("_", " ")
