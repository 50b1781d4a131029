"""Where the rows of a file go: into which session of which day, in which order, with which body mass."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date
from decimal import Decimal
from typing import Any, cast

from sqlalchemy import func, select
from sqlalchemy.orm import Session as OrmSession

from tracker.desk.arrivals import Arrivals
from tracker.desk.people import body_mass_on
from tracker.errors import BadInputError
from tracker.exchange.sets_csv import FileSet
from tracker.log import bulk
from tracker.log import members as log_members
from tracker.log.models import LiftedSet, Session, new_id
from tracker.units import Mass

BODY_STEP = Decimal("0.1")  # the step to which the pages carry a body mass into a set
Masses = tuple[tuple[date, Mass], ...]
Row = tuple[str, FileSet]  # a row with its identity


class Seating:
    """The sessions that an import fills, those of the log first."""

    def __init__(self, session: OrmSession, arrivals: Arrivals, rows: Sequence[Row]) -> None:
        self.arrivals = arrivals
        self.rows = rows
        self.members = {arrivals.member_id(row) for _, row in rows}
        self.masses = {each: log_members.body_masses(session, each) for each in self.members}
        self.new_masses: list[dict[str, Any]] = []
        self.new_sessions: list[bulk.SessionRow] = []
        self._sessions: dict[tuple[str, str, str, str | None], str] = {}
        self._any_place: dict[tuple[str, str, str], str] = {}
        self._read_sessions(session)

    def _read_sessions(self, session: OrmSession) -> None:
        days = [row.day for _, row in self.rows]
        query = (
            select(
                Session.id,
                Session.member_id,
                Session.day,
                Session.label,
                Session.place_id,
                func.max(LiftedSet.position),
            )
            .outerjoin(LiftedSet, LiftedSet.session_id == Session.id)
            .where(Session.member_id.in_(self.members), Session.day >= min(days), Session.day <= max(days))
            .group_by(Session.id)
            .order_by(Session.created_at)
        )
        self._last: dict[str, int] = {}
        for session_id, member_id, day, label, place_id, last in session.execute(query):
            self._last[session_id] = -1 if last is None else last
            self._know(session_id, (member_id, day.isoformat(), label), place_id)

    def _know(self, session_id: str, key: tuple[str, str, str], place_id: str | None) -> None:
        self._sessions.setdefault((*key, place_id), session_id)
        self._any_place.setdefault(key, session_id)

    def session_id(self, row: FileSet) -> str:
        """Return the session of a row: the one of its member, day, name and place, else a new one."""
        key = (self.arrivals.member_id(row), row.day.isoformat(), row.session)
        place_id = self.arrivals.place_id(row) if row.place else None
        found = self._sessions.get((*key, place_id)) if row.place else self._any_place.get(key)
        if found is None:
            found = new_id()
            self.new_sessions.append(bulk.SessionRow(found, *key, place_id))
            self._know(found, key, place_id)
        return found

    def sets(self, body_lifts: set[str]) -> list[bulk.SetRow]:
        """Return every row as it goes into the log, session by session in their order."""
        by_session: dict[str, list[Row]] = {}
        for entry in self.rows:
            by_session.setdefault(self.session_id(entry[1]), []).append(entry)
        made = []
        for session_id, entries in by_session.items():
            start = self._last.get(session_id, -1) + 1
            if any(row.order is not None for _, row in entries):
                places = {id(entry): at for at, entry in enumerate(entries)}
                entries.sort(key=lambda entry: places[id(entry)] if entry[1].order is None else entry[1].order)
            made += [
                self._set(session_id, start + at, origin, row, body_lifts) for at, (origin, row) in enumerate(entries)
            ]
        return made

    def _set(self, session_id: str, position: int, origin: str, row: FileSet, body_lifts: set[str]) -> bulk.SetRow:
        lift_id = self.arrivals.lift_id(row)
        body = row.body_mass if row.body_mass is not None or lift_id not in body_lifts else self._carried(row)
        return bulk.SetRow(
            session_id, lift_id, position, row.kind, format(row.load, "f"), row.unit, row.reps,
            None if row.rir is None else format(row.rir, "f"), row.outcome, None if body is None else format(body, "f"),
            row.implements, row.per_side, row.left_out or None, row.note, origin,
        )  # fmt: skip

    def _carried(self, row: FileSet) -> Decimal:
        """Return the body mass known on the day, for a set of the body that names none, as the pages do."""
        known = body_mass_on(self.masses[self.arrivals.member_id(row)], row.day)
        if known is None:
            mend = "Fill in the column body_mass, or record the body mass on the pages first."
            where = f"line {row.line}, body mass"
            raise BadInputError(f"{row.lift} lifts the body, and no body mass is known.", where=where, mend=mend)
        return known.to(row.unit).quantize(BODY_STEP)

    def weigh(self) -> None:
        """Note each dated body mass that is news: not what was known on that day anyway."""
        told = {(self.arrivals.member_id(row), row.day): row for _, row in self.rows if row.body_mass is not None}
        for (member_id, day), row in sorted(told.items()):
            mass = Mass(cast("Decimal", row.body_mass), row.unit)
            known = self.masses[member_id]
            before = [each for each in known if each[0] <= day]
            if before and (before[-1][0] == day or _same(before[-1][1], mass)):
                continue
            self.new_masses.append({"member_id": member_id, "day": day, "mass": mass.amount, "unit": mass.unit})
            self.masses[member_id] = tuple(sorted((*known, (day, mass)), key=lambda entry: entry[0]))


def _same(one: Mass, other: Mass) -> bool:
    return one.to(other.unit).quantize(BODY_STEP) == other.amount.quantize(BODY_STEP)


def sets_by_member(arrivals: Arrivals, rows: Iterable[FileSet]) -> dict[str, int]:
    """Count the rows of each member."""
    return dict(Counter(arrivals.member_id(row) for row in rows))
