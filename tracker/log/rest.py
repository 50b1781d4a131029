"""Days on which a member says that they rested; a day without any entry is not known to be one."""

from __future__ import annotations

from datetime import date

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.models import RestDay
from tracker.log.unit_of_work import Act


def rest_days(session: OrmSession, member_id: str, since: date) -> frozenset[date]:
    """Return the days from `since` on of which the member said that they rested."""
    return frozenset(session.scalars(select(RestDay.day).where(RestDay.member_id == member_id, RestDay.day >= since)))


def put_rest_day(act: Act, member_id: str, day: date) -> None:
    """Say that the member rested on a day; twice is once."""
    row = act.session.scalars(select(RestDay).where(RestDay.member_id == member_id, RestDay.day == day)).first()
    if row is None:
        act.session.add(RestDay(member_id=member_id, day=day))
    act.session.flush()
