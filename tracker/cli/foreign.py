"""`tidemark import --foreign`: a table of somebody else's, understood as the page Files understands it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import click

from tracker.errors import BadInputError
from tracker.wording import counted

if TYPE_CHECKING:
    from tracker.desk.files.foreign import Brought, Reading
    from tracker.exchange.mapping import Mapping
    from tracker.exchange.tables import Table
    from tracker.log.keeper import Log


@dataclass(frozen=True, slots=True)
class Answers:
    """What the person said about the table on the command line."""

    columns: tuple[str, ...] = ()  # "load=Weight", "load=3"
    unit: str | None = None
    dates: str | None = None
    sheet: str = ""


def understood(log: Log, path: Path, answers: Answers, member: str | None) -> tuple[Brought, Mapping]:
    """Read a table of a member and say how it is understood, with what was answered.

    Raises:
        BadInputError: if it is no table, or an answer does not fit it.
    """
    from tracker.desk.files.foreign import look_at

    try:
        content = path.read_bytes()
    except OSError as err:
        what = f"The file can't be read: {err.strerror or err}."
        raise BadInputError(what, where=str(path), mend="Check its name and its rights.") from err
    brought = look_at(log, content, path.name, date.today(), sheet=answers.sheet, whose=member)
    mapping = brought.mapping
    for said in answers.columns:
        role, _, column = said.partition("=")
        mapping = mapping.put(_role(role), _at(brought.table, column.strip(), said))
    if answers.unit:
        mapping = replace(mapping, unit=cast("Any", answers.unit))
    if answers.dates:
        mapping = replace(mapping, date_order=cast("Any", answers.dates))
    return brought, mapping


def _role(word: str) -> str:
    from tracker.exchange.mapping import ROLES

    role = " ".join(word.replace("_", " ").split()).lower()
    if role not in ROLES:
        raise BadInputError(f"{word!r} is no fact of a set.", where="--column", mend=f"Name one of {', '.join(ROLES)}.")
    return role


def _at(table: Table, word: str, said: str) -> int | None:
    """Find a column by its heading or its number; nothing means that the fact is in none."""
    if not word:
        return None
    names = [heading.casefold() for heading in table.heading]
    if names.count(word.casefold()) == 1:
        return names.index(word.casefold())
    if word.isascii() and word.isdigit() and 1 <= int(word) <= len(names):
        return int(word) - 1
    columns = ", ".join(table.place(at) for at in range(len(names)))
    raise BadInputError(f"{said!r} names no column.", where="--column", mend=f"The table has {columns}.")


def say(brought: Brought, mapping: Mapping, reading: Reading) -> None:
    """Print which column is which, what is still open, and the first rows as they are understood."""
    table = brought.table
    known = " Its columns are remembered from the last time." if brought.remembered else ""
    click.echo(f"{counted(len(table.rows), 'row')}; {table.how}.{known}")
    for role, at in mapping.columns.items():
        click.echo(f"  {role}: {table.place(at)}")
    for row in reading.rows:
        cells = ", ".join(f"{role} {cell}" for role, cell in row.cells.items() if cell)
        click.echo(f"line {row.line}: {row.problem or cells}")
    if reading.questions:
        click.echo(f"Open: {'; '.join(open_options(reading))}")


def open_options(reading: Reading) -> Sequence[str]:
    """Name the option that answers each open question."""
    asked = [f'--column "{role}=..."' for role in reading.questions.columns]
    asked += ["--unit kg|lb"] if reading.questions.unit else []
    return [*asked, *([f"--dates {'|'.join(reading.questions.date_orders)}"] if reading.questions.date_orders else [])]
