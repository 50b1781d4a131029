"""Bringing a table that somebody else wrote: looked at, asked about, shown as understood, and taken in whole or not at all."""

from __future__ import annotations

import threading
from collections.abc import Generator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.files.import_sets import Imported, import_rows
from tracker.errors import TidemarkError
from tracker.exchange.foreign import Understood, first_rows, sets_of
from tracker.exchange.guess import guess
from tracker.exchange.mapping import Mapping, Open, from_text, layout_of, open_questions, to_text
from tracker.exchange.tables import Table, read_table
from tracker.log import members as log_members
from tracker.log.facts import fact, forget, of_member, put_fact
from tracker.log.unit_of_work import Log, Reader
from tracker.log.who import who

LAYOUT = "layout "  # before the key of a remembered mapping: whose it is, and the heading
LONGEST_WAIT_S = 20.0
_reading = threading.Lock()  # one file at a time in a server: what one may cost is limited, and so is what many cost


class BusyError(TidemarkError):
    """Others' files are being read; this one was not looked at."""


@dataclass(frozen=True, slots=True)
class Brought:
    """A table as it was read, and what is thought of its columns."""

    table: Table
    mapping: Mapping
    remembered: bool  # a table with the same heading was taken before


@dataclass(frozen=True, slots=True)
class Reading:
    """How a table is understood with a mapping: what is still open, and the first rows."""

    questions: Open
    rows: tuple[Understood, ...]


@contextmanager
def _one_at_a_time() -> Generator[None]:
    if not _reading.acquire(timeout=LONGEST_WAIT_S):
        raise BusyError("Other files are being read just now.", mend="Try again in a minute; nothing was taken.")
    try:
        yield
    finally:
        _reading.release()


@may("common")
def look_at(log: Log, content: bytes, name: str, today: date, *, sheet: str = "", whose: str | None = None) -> Brought:
    """Read a file that was brought, and recall or guess which column is which.

    What is recalled is what the same member answered: another's pounds under the same heading are nobody else's.

    Args:
        log: The log.
        content: The file.
        name: Its name.
        today: The day it is.
        sheet: Which sheet of a workbook.
        whose: The name of the member whose the rows are that name nobody.

    Raises:
        BadInputError: if it is no table.
        BusyError: if others' files are still being read after a while.
    """
    with _one_at_a_time():
        table = read_table(content, name, sheet=sheet)
    with log.reading() as session:
        key = _key(session, table, whose)
        kept = fact(session, key) if key else None
    known = from_text(kept, table) if kept else None
    return Brought(table, known or guess(table, today), known is not None)


def as_understood(table: Table, mapping: Mapping, today: date) -> Reading:
    """Say how the table is understood: what must be answered first, and the first rows."""
    return Reading(open_questions(table, mapping, today), first_rows(table, mapping, today))


@may("bring")
def take(log: Log, table: Table, mapping: Mapping, *, member: str | None, today: date) -> Imported:
    """Take all sets of a table that the log does not have yet, and remember the mapping.

    Args:
        log: The log.
        table: What was brought.
        mapping: Which column is which, as the person saw it.
        member: Whose the rows are that name nobody.
        today: The day it is.

    Raises:
        BadInputError: if a question is open or a row can't be taken; nothing is written then.
    """
    done = import_rows(log, sets_of(table, mapping, today), member=member)
    with log.act("remembered the columns of a file") as act:
        if key := _key(act.session, table, member):
            put_fact(act, key, to_text(mapping))
            forget(act, LAYOUT + layout_of(table))  # of an earlier version, for whoever came next
    return done


def _key(session: Reader, table: Table, member: str | None) -> str | None:
    """Name what is remembered of a heading for one member; None where nobody knows whose file it is."""
    own = who().member_id
    if who().role in ("here", "owner"):
        known = {each.name.casefold(): each.id for each in log_members.members(session)}
        own = known.get(" ".join(member.split()).casefold()) if member else own
    return f"{of_member(own)}{LAYOUT}{layout_of(table)}" if own else None
