"""Where the rows of a file go: into which session of which day, in which order, with which body mass."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Any, cast

from tracker.desk.files.resolve_names import ResolvedRow
from tracker.desk.people.people import body_mass_on
from tracker.errors import BadInputError
from tracker.log import bulk
from tracker.log import members as log_members
from tracker.log import sessions as log_sessions
from tracker.log.unit_of_work import Reader
from tracker.units import Mass

BODY_STEP = Decimal("0.1")  # the step to which the pages carry a body mass into a set


class SessionAssigner:
    """The sessions that an import fills, those of the log first."""

    def __init__(self, session: Reader, file: str, fresh: Sequence[ResolvedRow]) -> None:
        self.file = file
        self.fresh = fresh
        self.members = {each.member_id for each in fresh}
        self.masses = {each: log_members.body_masses(session, each) for each in self.members}
        self.new_masses: list[dict[str, Any]] = []
        self.new_sessions: list[bulk.SessionRow] = []
        self.spans: list[tuple[str, int]] = []  # whose the sets are that `sets` returned: how many in a row
        self._ids = bulk.ids(len(fresh))
        self._sessions: dict[tuple[str, str, str, str | None], str] = {}
        self._any_place: dict[tuple[str, str, str], str] = {}
        self._last: dict[str, int] = {}
        self._read_sessions(session)

    def _read_sessions(self, session: Reader) -> None:
        days = {each.row.day for each in self.fresh}
        for each in log_sessions.last_places(session, self.members, min(days), max(days)):
            self._last[each.id] = each.last
            self._know(each.id, (each.member_id, each.day.isoformat(), each.label), each.place_id)

    def _know(self, session_id: str, key: tuple[str, str, str], place_id: str | None) -> None:
        self._sessions.setdefault((*key, place_id), session_id)
        self._any_place.setdefault(key, session_id)

    def _session_id(self, each: ResolvedRow) -> str:
        """Return the session of a row: the one of its member, day, name and place, else a new one."""
        row = each.row
        key = (each.member_id, row.day.isoformat(), row.session)
        found = self._sessions.get((*key, each.place_id)) if each.place_id else self._any_place.get(key)
        if found is None:
            found = next(self._ids)
            self.new_sessions.append(bulk.SessionRow(found, *key, each.place_id))
            self._know(found, key, each.place_id)
        return found

    def _by_session(self) -> dict[str, list[ResolvedRow]]:
        """Group the rows by session, each group in its order: that of the column, else that of the file."""
        sittings: dict[tuple[str, date, str, str], list[ResolvedRow]] = {}
        for each in self.fresh:
            row = each.row
            sittings.setdefault((each.member_id, row.day, row.session, row.place), []).append(each)
        groups: dict[str, list[ResolvedRow]] = {}
        for together in sittings.values():
            groups.setdefault(self._session_id(together[0]), []).extend(together)
        for group in groups.values():
            if any(each.row.order is not None for each in group):
                group[:] = [each for _, each in sorted(enumerate(group), key=_place_in_session)]
        return groups

    def sets(self, import_id: str, body_lifts: frozenset[str]) -> list[tuple[Any, ...]]:
        """Return every row as it goes into the log (`bulk.SET_COLUMNS`), session by session in their order."""
        made: list[tuple[Any, ...]] = []
        groups, moment, ids = self._by_session(), bulk.moment(), bulk.ids(len(self.fresh))
        for session_id, group in groups.items():
            self.spans.append((group[0].member_id, len(group)))
            position = self._last.get(session_id, -1)
            for identity, _, lift_id, _, rir, row in group:
                position += 1
                lifted = row.lifted
                body = lifted.body_typed
                if body is None and lift_id in body_lifts:
                    body = self._carried(row.day, group[0].member_id, row.line, row.lift, lifted.unit)
                made.append((
                    next(ids), session_id, lift_id, position, row.kind, lifted.typed, lifted.unit, row.reps,
                    rir or None, row.outcome, body, row.implements, row.per_side, row.left_out or None,
                    row.note, identity, import_id, moment,
                ))  # fmt: skip
        return made

    def _carried(self, day: date, member_id: str, line: int, lift: str, unit: Any) -> str:
        """Return the body mass known on the day, for a set of the body that names none, as the pages do."""
        known = body_mass_on(self.masses[member_id], day)
        if known is None:
            mend = "Fill in the column body_mass, or record the body mass on the pages first."
            what = f"{lift} lifts the body, and no body mass is known."
            raise BadInputError(what, where=f"{self.file}, line {line}, body mass", mend=mend)
        return str(known.to(unit).quantize(BODY_STEP))

    def weigh(self) -> None:
        """Note each dated body mass that is news: not what was known on that day anyway."""
        told = {
            (each.member_id, each.row.day): each.row for each in self.fresh if each.row.lifted.body_mass is not None
        }
        for (member_id, day), row in sorted(told.items(), key=lambda entry: entry[0]):
            mass = Mass(cast("Decimal", row.body_mass), row.unit)
            known = self.masses[member_id]
            before = [each for each in known if each[0] <= day]
            if before and (before[-1][0] == day or _same(before[-1][1], mass)):
                continue
            self.new_masses.append({"member_id": member_id, "day": day, "mass": mass.amount, "unit": mass.unit})
            self.masses[member_id] = tuple(sorted((*known, (day, mass)), key=lambda entry: entry[0]))


def _place_in_session(entry: tuple[int, ResolvedRow]) -> tuple[int, int]:
    at, each = entry
    return (at if each.row.order is None else each.row.order, at)


def _same(one: Mass, other: Mass) -> bool:
    return one.to(other.unit).quantize(BODY_STEP) == other.amount.quantize(BODY_STEP)
