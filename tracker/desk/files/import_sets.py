"""Files into the log: every set that the file has more than the log, in one act, or none of them."""

from __future__ import annotations

import gc
from collections import Counter
from collections.abc import Generator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

from tracker.desk.base.roles import may
from tracker.desk.files.assign_sessions import SessionAssigner
from tracker.desk.files.resolve_names import NameResolver, ResolvedRow
from tracker.desk.maxes.maxes import ME
from tracker.errors import BadInputError
from tracker.exchange.cells import parse_name
from tracker.exchange.sets_csv import SetsFile
from tracker.log import bulk
from tracker.log.columns import new_id
from tracker.log.known_names import body_lifts
from tracker.log.unit_of_work import Act, Log
from tracker.progress import tell, through


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
    with log.act(f"imported sets from {_short(file.name)}") as act, _no_collection():
        names = NameResolver(act.session, nobody, file.name)
        tell("comparing with the log")
        known = bulk.times_known(act.session, {names.member_id(row) for row in file.rows})
        tell("comparing with the log")
        names.settle(file.rows, known)
        fresh = _fresh(names.resolved(file.rows), known)
        if fresh:
            _write(act, names, fresh)
    return Imported(file.name, len(file.rows), len(fresh), *names.new_names(fresh), file.ignored)


def _fresh(resolved: Sequence[ResolvedRow], known: dict[str, int]) -> list[ResolvedRow]:
    """Choose the rows to add: of equal ones the last, as many as the file has more than the log."""
    fresh: list[ResolvedRow] = []
    for each in through("comparing with the log", resolved, len(resolved)):
        left = known.get(each.origin, 0)
        if left:
            known[each.origin] = left - 1
        else:
            fresh.append(each)
    return fresh


def _write(act: Act, names: NameResolver, fresh: Sequence[ResolvedRow]) -> None:
    import_id = new_id()
    created = names.create(act, [each.row for each in fresh])
    tell("putting the sets into their sessions")
    sessions = SessionAssigner(act.session, names, fresh)
    sessions.weigh()
    created["body_masses"] = bulk.put_body_masses(act, sessions.new_masses)
    sets = sessions.sets(import_id, body_lifts(act.session))
    made_at = bulk.insert_sessions(act, import_id, sessions.new_sessions)
    bulk.insert_sets(act, sets)
    tell("sealing what came")
    brought = bulk.Brought(sessions.new_sessions, sets, made_at, sessions.spans)
    bulk.note_import(act, import_id, brought, created, dict(Counter(each.member_id for each in fresh)))


@contextmanager
def _no_collection() -> Generator[None]:
    """Leave the garbage collector off while many rows are held: it would look at all of them again and again.

    Measured: a fifth of the time of an import of 100,000 rows, and none of them is garbage.
    """
    on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if on:
            gc.enable()


def _member(name: str) -> str:
    try:
        return parse_name(name, "member", needed=True)
    except BadInputError as err:
        if name == "":
            mend = "Name in each row whose set it is, or bring the file as that member."
            raise BadInputError("There are rows that name no member.", where="column member", mend=mend) from err
        raise BadInputError(err.what, where="--member", mend=err.mend) from err


def _short(name: str) -> str:
    return name if len(name) <= 60 else f"{name[:57]}..."
