"""Looks the log over: the file, its tables against what this version expects, and every record against the rules.

The rules are those that pages and imports hold before they write; here they are read from the bare values, so that a
value that nothing should have written is found too.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date

from tracker.desk.base import backups
from tracker.desk.base.opening import open_log, read_by_others
from tracker.desk.base.roles import may
from tracker.desk.files import rules
from tracker.desk.people import people
from tracker.errors import BadInputError, TidemarkError
from tracker.log import look_over
from tracker.log.engine import database_url, file_of
from tracker.log.migrate import shown
from tracker.log.unit_of_work import Log, Reader
from tracker.progress import tell, through

MOST_TOLD = 50  # problems named; more are counted
MISSING = ("tables: add_table", "tables: add_column")  # what it would take to be right again: it is not there


@dataclass(frozen=True, slots=True)
class Report:
    """What was found: no problems is a log in order."""

    log: str
    counts: dict[str, int] = field(default_factory=dict[str, int])
    facts: dict[str, str] = field(default_factory=dict[str, str])  # revision, database and journal
    problems: tuple[str, ...] = ()
    others: str = ""  # what other accounts of the machine can read, what holds a deleted member: no fault of the log

    @property
    def ok(self) -> bool:
        return not self.problems


@may("run")
def check_log(database: str | None, *, today: date | None = None) -> Report:
    """Check the file, the tables and the records of a log; it is opened, and brought up to date where it is older.

    Raises:
        TidemarkError: if it is no log, newer, or can't be opened.
    """
    url = database_url(database)
    path = file_of(url)
    tell("looking over the file")
    of_file = tuple(look_over.file_problems(path)) if path and path.exists() else ()
    try:
        report = _opened_and_read(database, people.latest_day(today))
    except (TidemarkError, ValueError, TypeError, ArithmeticError, LookupError):
        if not of_file:
            raise
        return Report(shown(url), problems=of_file)  # what can't be read any more was told by the file already
    return replace(
        report,
        problems=(*of_file, *report.problems),
        others="\n".join(filter(None, (report.others, read_by_others(url)))),
    )


def _opened_and_read(database: str | None, latest: date) -> Report:
    log = open_log(database)
    try:
        with log.reading() as session:
            return replace(_report(log, session, latest), others=_still_there(log))
    finally:
        log.close()


def _still_there(log: Log) -> str:
    """Name the copies that hold a deleted member and could not be let go of."""
    left = [each.name for each in backups.still_going(log)]
    if not left:
        return ""
    return f"These copies hold a deleted member and could not be deleted: {', '.join(left)}. Make room, or delete them."


def _report(log: Log, session: Reader, latest: date) -> Report:
    of_tables = (*look_over.schema_problems(session), *look_over.foreign_problems(session))
    if any(problem.startswith(MISSING) for problem in of_tables):
        unread = "records: not read, because a table or a column is missing"
        return Report(log.name, {}, look_over.facts(session), (*of_tables[: MOST_TOLD - 1], unread))
    counts = look_over.counts(session)
    found = [
        *of_tables,
        *look_over.orphans(session),
        *_record_problems(session, latest),
        *look_over.moment_problems(session),
    ]
    found += look_over.history_problems(session)
    more = [f"and {len(found) - MOST_TOLD:,} more"] if len(found) > MOST_TOLD else []
    return Report(log.name, counts, look_over.facts(session), (*found[:MOST_TOLD], *more))


def _record_problems(session: Reader, latest: date) -> Iterator[str]:
    for table, (columns, rule) in rules.RULES.items():
        rows = look_over.values(session, columns, rules.SOURCES.get(table, table))
        for values in through(f"reading every record: {table.replace('_', ' ')}", rows, 0):
            try:
                rule(values, latest)
            except BadInputError as err:
                yield f"{table}, {values['id']}: {err}"
            except (ValueError, TypeError, ArithmeticError, LookupError, AttributeError) as err:
                yield f"{table}, {values['id']}: a value that can't be read ({err})"
