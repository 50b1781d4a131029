"""Options that several commands share, and the values they take."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from tracker.errors import BadInputError

if TYPE_CHECKING:
    from tracker.log.keeper import Log
    from tracker.log.records import LiftRecord, MemberRecord

F = TypeVar("F", bound=Callable[..., Any])
DATABASE = "tidemark.database"  # key in click's own store, shared by a command and the group above it


def json_option(command: F) -> F:
    """Add `--json`: one JSON document on standard output and nothing else there."""
    return click.option("--json", "as_json", is_flag=True, help="Print one JSON document and nothing else.")(command)


def database_option(command: F) -> F:
    """Add `--database`, before or after the command's name."""
    return click.option(
        "--database",
        metavar="FILE|URL",
        expose_value=False,
        callback=_keep_database,
        help="The log to use; TIDEMARK_DATABASE says the same.",
    )(command)


def _keep_database(ctx: click.Context, _param: click.Parameter, value: str | None) -> None:
    if value is not None and not value.strip():
        raise BadInputError("The name of the log is empty.", where="--database", mend="Give a path or a URL.")
    if value:
        ctx.meta[DATABASE] = value


def database() -> str | None:
    """Return what `--database` said, or None."""
    return click.get_current_context().meta.get(DATABASE)


def with_log() -> Log:
    """Open the log that was named; it is closed when the command ends."""
    from tracker.desk.base.opening import open_log

    log = open_log(database())
    click.get_current_context().call_on_close(log.close)
    return log


class DayParam(click.ParamType):
    """A date written YYYY-MM-DD."""

    name = "date"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> date:
        if isinstance(value, date):
            return value
        from tracker.exchange.cells import parse_day

        return parse_day(str(value), where=param.opts[0] if param else "date")


DAY = DayParam()
FILE = click.Path(path_type=Path)


def member_named(log: Log, name: str | None) -> MemberRecord:
    """Return the member of that name; without a name the only one there is.

    Raises:
        BadInputError: if there is none of that name, or several to choose from.
    """
    from tracker.desk.people.people import members

    known = members(log)
    found = [each for each in known if name is None or each.name.casefold() == " ".join(name.split()).casefold()]
    if len(found) == 1:
        return found[0]
    names = ", ".join(each.name for each in known) or "nobody yet"
    what = (
        "The log has several members." if name is None and known else f"There is no member {name or ''}".strip() + "."
    )
    raise BadInputError(what, where="--member", mend=f"Name one of: {names}.")


def lift_named(log: Log, name: str) -> LiftRecord:
    """Return the lift of that title ("front squat, barbell") or name ("front squat"), where it is only one."""
    from tracker.desk.people.people import lifts

    known = lifts(log)
    said = " ".join(name.split()).casefold()
    found = [each for each in known if each.title.casefold() == said] or [
        each for each in known if each.name.casefold() == said
    ]
    if len(found) == 1:
        return found[0]
    if found:
        several = "; ".join(each.title for each in found)
        raise BadInputError(
            f"{name} is done with more than one implement.", where="--lift", mend=f"Name one: {several}."
        )
    titles = "; ".join(each.title for each in known[:20]) or "none yet"
    raise BadInputError(f"There is no lift {name}.", where="--lift", mend=f"The log has: {titles}.")
