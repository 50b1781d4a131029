"""`tidemark account`: who signs in to the log of a gym; the way to the first owner."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from tracker.cli.options import database_option, json_option, with_log
from tracker.cli.output import say_json, say_table

if TYPE_CHECKING:
    from tracker.log.keeper import Log

ROLES = click.Choice(("member", "coach", "owner"))


@click.command()
@click.option("--invite", type=ROLES, help="Make an invitation as this role; its code is shown once.")
@click.option("--enter", type=ROLES, help="Enter somebody by the identity that their page shows.")
@click.option("--identity", nargs=2, metavar="ISSUER SUBJECT", help="Whom --enter enters.")
@click.option(
    "--member",
    metavar="NAME",
    help="Whose log is theirs, which a member needs; a name that is not in the log is added to it.",
)
@click.option("--remove", metavar="ID", help="Take an account or invitation away at once; the log of the member stays.")
@database_option
@json_option
def account(
    invite: str | None,
    enter: str | None,
    identity: tuple[str, str] | None,
    member: str | None,
    remove: str | None,
    as_json: bool,
) -> None:
    """List who signs in to this log, invite or enter somebody, or take an account away.

    Whoever can run this on the server has the log itself, so nobody is asked to sign in here.
    """
    from tracker.desk.people import accounts

    if sum(each is not None for each in (invite, enter, remove)) > 1:
        raise click.UsageError("One of --invite, --enter and --remove at a time.")
    if (enter is None) != (identity is None):
        raise click.UsageError("--enter ROLE and --identity ISSUER SUBJECT belong together.")
    log = with_log()
    whose, new = _whose(log, member)
    if invite:
        made = accounts.invite(log, invite, whose, new_member=new)  # type: ignore[arg-type]  # one of the choices
        _say_new(new)
        if as_json:
            say_json({"code": made.code, "until": made.until.isoformat()})
        else:
            click.echo(f"{made.code}\nGood once, until {made.until.astimezone():%Y-%m-%d %H:%M}. It is kept nowhere.")
        return
    if enter and identity:
        accounts.enter(log, *identity, enter, whose, new_member=new)  # type: ignore[arg-type]  # one of the choices
        _say_new(new)
    elif remove:
        accounts.remove_account(log, remove)
    found = accounts.accounts(log)
    if as_json:
        say_json([
            {"id": each.id, "role": each.role, "member": each.name or None, "issuer": each.issuer, "subject": each.subject,
             "until": each.until.isoformat() if each.until else None}
            for each in found
        ])  # fmt: skip
    elif found:
        rows = [(each.id, each.role, each.name or "-", f"{each.issuer} {each.subject}" if each.issuer else "invited")
                for each in found]  # fmt: skip
        say_table(("id", "role", "member", "identity"), rows, words=(0, 1, 2, 3))
    else:
        click.echo("Nobody signs in yet: tidemark account --invite owner", err=True)


def _whose(log: Log, name: str | None) -> tuple[str | None, str]:
    """Return the member of that name, or else the name, of whom one is to be made."""
    from tracker.desk.people.people import clean_name, members

    if name is None:
        return None, ""
    said = clean_name(name, "member")
    found = next((each.id for each in members(log) if each.name.casefold() == said.casefold()), None)
    return found, "" if found else said


def _say_new(name: str) -> None:
    if name:
        click.echo(f"{name} is new in this log: the member was added.", err=True)
