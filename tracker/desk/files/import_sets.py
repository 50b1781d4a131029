"""Files into the log: every set that the file has more than the log, in one act, or none of them."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from tracker.collector import collector_off
from tracker.desk.base.roles import may
from tracker.desk.files.assign_sessions import SessionAssigner
from tracker.desk.files.resolve_names import Resolved, resolve
from tracker.desk.maxes.maxes import ME
from tracker.desk.people.people import facts_of
from tracker.errors import BadInputError
from tracker.exchange.cells import parse_name
from tracker.exchange.sets_csv import SetsFile
from tracker.log import bulk
from tracker.log.columns import new_id
from tracker.log.known_names import body_lifts, lift_the_body
from tracker.log.unit_of_work import Act, Log
from tracker.progress import tell
from tracker.units import Unit


@dataclass(frozen=True, slots=True)
class Imported:
    """What an import did."""

    file: str
    rows: int
    added: int
    members: tuple[str, ...] = ()  # that are new in the log
    lifts: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    ignored: tuple[str, ...] = ()  # columns that were not read

    @property
    def known(self) -> int:
        """Rows that the log had already."""
        return self.rows - self.added


@may("bring")
def import_rows(log: Log, file: SetsFile, *, member: str | None = None) -> Imported:
    """Write the rows of a file of sets, all or nothing.

    A row is the same as a set of the log where all is equal but its order. For each such identity the log gets what the
    file has more than it; a set that was mended or removed by hand counts as known.

    Args:
        log: The log.
        file: What `exchange.sets_csv` or `exchange.foreign` read.
        member: Whose rows those are that name nobody; "me" where it is not given. With "" every row must name one.

    Raises:
        BadInputError: if any row can't be taken; nothing is written then.
    """
    named_all = member == "" and all(row.member for row in file.rows)
    nobody = ME if member is None else "" if named_all else _member(member)
    if not file.rows:
        return Imported(file.name, 0, 0, ignored=file.ignored)
    with log.act(f"imported sets from {_short(file.name)}") as act, collector_off():
        found = resolve(act.session, file, nobody)
        if found.rows:
            _write(act, file.name, found)
    new = ((*found.members.values(),), (*dict.fromkeys(each.name for each in found.lifts),), (*found.places.values(),))
    return Imported(file.name, len(file.rows), len(found.rows), *new, file.ignored)


def _write(act: Act, file: str, found: Resolved) -> None:
    import_id = new_id()
    created, body = _create(act, found)
    tell("putting the sets into their sessions")
    sessions = SessionAssigner(act.session, file, found.rows)
    sessions.weigh()
    created["body_masses"] = bulk.put_body_masses(act, sessions.new_masses)
    sets = sessions.sets(import_id, body)
    made_at = bulk.insert_sessions(act, import_id, sessions.new_sessions)
    bulk.insert_sets(act, sets)
    tell("sealing what came")
    brought = bulk.Brought(sessions.new_sessions, sets, made_at, sessions.spans)
    bulk.note_import(act, import_id, brought, created, dict(Counter(each.member_id for each in found.rows)))


def _create(act: Act, found: Resolved) -> tuple[dict[str, list[str]], frozenset[str]]:
    """Make what the rows need and the log lacks; return the ids by kind, and the lifts in which the body is lifted."""
    units: dict[str | None, Unit] = {}  # of members and places: that of the first row of each
    body: dict[str, None] = {}  # lifts of which the file says so, in its order
    sides: set[str] = set()
    for _, member_id, lift_id, place_id, _, row in found.rows:
        if member_id not in units:
            units[member_id] = row.unit
        if place_id not in units:
            units[place_id] = row.unit
        if row.body_mass is not None:
            body[lift_id] = None
        if row.per_side:
            sides.add(lift_id)
    for record_id, name in found.members.items():
        flags = {"no_heavy": False, "minor": False, "alone": False}
        bulk.create(act, "members", id=record_id, name=name, unit=units[record_id], **flags)
    for lift in found.lifts:
        facts = facts_of(lift.name, lift.implement)
        facts["body"] = facts["body"] or lift.id in body
        bulk.create(act, "lifts", **lift._asdict(), per_side=lift.id in sides, **facts)
    known = body_lifts(act.session)
    for lift_id in body:
        if lift_id not in known:
            lift_the_body(act, lift_id)  # the file says that it is
    for record_id, name in found.places.items():
        bulk.create(act, "places", id=record_id, name=name, unit=units[record_id], pins=False)
    ids = {"members": [*found.members], "lifts": [each.id for each in found.lifts], "places": [*found.places]}
    return ids, known.union(body)


def _member(name: str) -> str:
    try:
        return parse_name(name, "member", needed=True)
    except BadInputError as err:
        if name == "":
            mend = "Name in each row whose set it is, or import the file as that member."
            raise BadInputError("There are rows that name no member.", where="column member", mend=mend) from err
        raise BadInputError(err.what, where="--member", mend=err.mend) from err


def _short(name: str) -> str:
    return name if len(name) <= 60 else f"{name[:57]}..."
