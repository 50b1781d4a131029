"""A lift that the gym has from now on takes in what members had made for themselves under the same name.

Else a member whose squat was their own would find the coach's squat without a history, and be asked for a max that the log
has. Their sets, rep-maxes and waves stay as they are and hang on the gym's lift; nobody learns that there was another one.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Table, delete, select, update
from sqlalchemy.orm import Session as OrmSession

from tracker.log import chain, held
from tracker.log.columns import Base
from tracker.log.models import Change, Lift

LIFTS: Table = Base.metadata.tables[Lift.__tablename__]
CHANGES: Table = Base.metadata.tables[Change.__tablename__]


def take_in(session: OrmSession, lift_id: str) -> None:
    """Let a lift of the gym take the place of members' own of the same name, implement and kind of load."""
    connection = session.connection()
    lift = connection.execute(select(LIFTS).where(LIFTS.c.id == lift_id)).one()
    if lift.private_to is not None:
        return
    alike = (LIFTS.c.private_to.is_not(None), LIFTS.c.implement == lift.implement, LIFTS.c.body == lift.body)
    found = [
        each for each in connection.execute(select(LIFTS).where(*alike)) if each.name.casefold() == lift.name.casefold()
    ]
    if not found:
        return
    before = held.Audit(connection)
    for own in found:
        tables = _hang_on(connection, own.id, lift_id)
        _rewrite(connection, own.private_to, tables, own.id, lift_id)
        connection.execute(delete(LIFTS).where(LIFTS.c.id == own.id))
    # What was written of it is rewritten, so its seals are made anew, and what no entry tells is noted as it is now.
    noted = list(held.Audit(connection).since(connection, before))
    held.write(connection, noted, f"the lift {lift.name} is the gym's from now on")
    chain.seal_anew(connection, {*(own.private_to for own in found), *(each["member_id"] for each in noted)})
    session.expire_all()


def _hang_on(connection: Connection, former: str, lift_id: str) -> set[str]:
    tables: set[str] = set()
    for table in Base.metadata.sorted_tables:
        for key in table.foreign_keys:
            if key.column.table is LIFTS:
                tables.add(table.name)
                connection.execute(update(table).where(key.parent == former).values({key.parent: lift_id}))
    return tables


def _rewrite(connection: Connection, member_id: str, tables: set[str], former: str, lift_id: str) -> None:
    """Let the member's history speak of the lift that is there, so that their acts can still be taken back."""
    theirs = select(CHANGES).where(CHANGES.c.member_id == member_id, CHANGES.c.record.in_(tables))
    for row in connection.execute(theirs).all():
        states = {side: _with(getattr(row, side), former, lift_id) for side in ("before", "after")}
        if any(states[side] != getattr(row, side) for side in states):
            connection.execute(update(CHANGES).where(CHANGES.c.number == row.number).values(**states))


def _with(state: dict[str, Any] | None, former: str, lift_id: str) -> dict[str, Any] | None:
    return state and {key: lift_id if value == former else value for key, value in state.items()}
