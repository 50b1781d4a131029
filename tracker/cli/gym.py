"""`tidemark roster` and `tidemark class`: a gym's people from a table, and what its classes are handed."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracker.cli.options import DAY, FILE, database_option, json_option, with_log
from tracker.cli.output import say_json, say_table
from tracker.errors import BadInputError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tracker.desk.people.invitations import Invited
    from tracker.desk.people.roster import RosterPreview
    from tracker.log.classes import ClassRecord
    from tracker.log.unit_of_work import Log

HERE = "http://127.0.0.1:8501"


@click.command()
@click.argument("file", type=FILE, required=False)
@click.option("--unit", type=click.Choice(["kg", "lb"]), default="kg", show_default=True, help="Where a row says none.")
@click.option("--place", default="", metavar="NAME", help="Where members train of whom the table says none.")
@click.option("--preview", is_flag=True, help="Say how it is understood, and take nothing.")
@click.option("--invite", is_flag=True, help="Invite all members who neither sign in nor are invited.")
@click.option(
    "--address", metavar="URL", help="With --invite: what members type, where TIDEMARK_SIGN_IN does not say it."
)
@click.option(
    "--page", type=FILE, metavar="FILE", help="With --invite: write a page to print, a strip for each member."
)
@database_option
@json_option
def roster(
    file: Path | None, unit: str, place: str, preview: bool, invite: bool, address: str | None, page: Path | None,
    as_json: bool,
) -> None:  # fmt: skip
    """Take members from a table: name, and where they are said unit, place and group; all of it, or nothing.

    A CSV, a workbook (xlsx) or a text with a heading such as name,unit,place,group, cells parted by commas, semicolons or tabs; names alone,
    one a line, need none. Who is in the log already only joins the groups that the table names. A place that is new gets
    the usual kit of a gym, to be looked at on the page Kit.

    --invite makes invitations for members who sign in: each is good once and for four weeks, and its code is shown now and
    kept nowhere. Without FILE nothing is taken, and all who have none are invited.
    """
    if file is None and not invite:
        raise click.UsageError("Name a FILE with members, or --invite those of the log.")
    if (address or page) and not invite:
        raise click.UsageError("--address and --page belong to --invite.")
    if invite and preview:
        raise click.UsageError("--preview takes nothing, so there is nobody to --invite.")
    from tracker.desk.people import roster as desk

    found: RosterPreview | None = None
    if file is not None:
        from tracker.exchange.roster import read_roster

        table = read_roster(_bytes(file), file.name)
        log = with_log()
        look = {"unit": unit, "place": place}
        found = desk.look_at(log, table, **look) if preview else desk.take(log, table, **look).preview  # type: ignore[arg-type]  # one of the choices
    typed = address or _typed() if invite else HERE
    made = _invite(with_log(), typed, page) if invite else ()
    if as_json:
        say_json(_record(found, made, typed, taken=not preview))
        return
    if found is not None:
        _say(found, taken=not preview)
    if made:
        say_table(
            ("member", "code", "link"),
            [(each.name, each.code, each.link(typed)) for each in made],
            words=(0, 1, 2),
        )
        click.echo(f"Each good once, until {made[0].until.astimezone():%Y-%m-%d}. They are kept nowhere.")
    elif invite:
        click.echo("Nobody is left to invite: all members sign in or have an invitation.", err=True)


def _bytes(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError as err:
        what = f"The file can't be read: {err.strerror or err}."
        raise BadInputError(what, where=str(file), mend="Check its name and its rights.") from err


def _typed() -> str:
    """Return what members type, as the settings of sign-in have it; without them the pages of this machine."""
    from tracker.door import sign_in

    found = sign_in.settings()
    return found.address if found else HERE


def _invite(log: Log, address: str, page: Path | None) -> Sequence[Invited]:
    from tracker.desk.people import invitations

    whom = invitations.uninvited(log)
    made = invitations.invite_all(log, whom) if whom else ()
    if page is not None and made:
        from tracker.private import make_file

        make_file(page)  # for whoever runs this alone: it holds codes
        page.write_text(invitations.page_of(made, address), encoding="utf-8")
        click.echo(f"To print: {page}", err=True)
    return made


def _record(found: RosterPreview | None, made: Sequence[Invited], address: str, *, taken: bool) -> dict[str, Any]:
    members = [
        {
            "name": each.name,
            "unit": each.unit,
            "place": each.place or None,
            "groups": list(each.groups),
            "new": each.new,
        }
        for each in (found.people if found else ())
    ]
    return {
        "taken": taken and found is not None, "members": members, "new_groups": list(found.new_groups) if found else [],
        "new_places": list(found.new_places) if found else [], "ignored": list(found.ignored) if found else [],
        "invitations": [
            {"member": each.name, "code": each.code, "link": each.link(address), "until": each.until.isoformat()}
            for each in made
        ],
    }  # fmt: skip


def _say(found: RosterPreview, *, taken: bool) -> None:
    if found.ignored:
        click.echo(f"Columns that were not read: {', '.join(found.ignored)}", err=True)
    if not taken:
        rows = [
            (each.name, each.unit, each.place or "-", ", ".join(each.groups) or "-", "new" if each.new else "known")
            for each in found.people
        ]
        say_table(("member", "unit", "place", "groups", ""), rows, words=(0, 1, 2, 3, 4))
    click.echo(f"{'Taken' if taken else 'Understood'}: {found.words}.")
    for what, names in (("groups", found.new_groups), ("places, with the usual kit of a gym", found.new_places)):
        if names:
            click.echo(f"New {what}: {', '.join(names)}")


@click.command("class")
@click.argument("name", required=False)
@click.option("--add", is_flag=True, help="Add the class NAME.")
@click.option("--group", metavar="NAME", help="With --add: all of this group are in it.")
@click.option("--times", default="", metavar="TEXT", help='With --add: when it is, as in "Mon 18:00, Thu 18:00".')
@click.option("--coach", default="", metavar="NAME", help="With --add: who leads it.")
@click.option("--hand", "sheet", type=FILE, metavar="FILE", help="Hand this session sheet to all members of the class.")
@click.option("--start", type=DAY, help="With --hand: the day of its first session, where the sheet names none.")
@click.option("--did", is_flag=True, help="Say who did the newest session, or that of --day.")
@click.option("--day", type=DAY, help="With --did: which session.")
@click.option("--remove", is_flag=True, help="Take the class away; what was handed to it stays in the calendars.")
@database_option
@json_option
def class_(
    name: str | None, add: bool, group: str | None, times: str, coach: str, sheet: Path | None, start: date | None,
    did: bool, day: date | None, remove: bool, as_json: bool,
) -> None:  # fmt: skip
    """List the classes, add one, hand a session to one in one act, or say who did it.

    A session reaches all members of the class, also those who keep their log to themselves.
    """
    if sum((add, sheet is not None, did, remove)) > 1:
        raise click.UsageError("One of --add, --hand, --did and --remove at a time.")
    if (add or sheet or did or remove) and not name:
        raise click.UsageError("Name the class.")
    if (group or times or coach) and not add:
        raise click.UsageError("--group, --times and --coach belong to --add.")
    if (start and sheet is None) or (day and not did):
        raise click.UsageError("--start belongs to --hand, and --day to --did.")
    log = with_log()
    if sheet is not None:
        _hand(log, _named(log, name or ""), sheet, start, as_json=as_json)
        return
    if did:
        _did(log, _named(log, name or ""), day, as_json=as_json)
        return
    from tracker.desk.coach import classes

    if add:
        classes.add_class(log, name or "", times, group_id=_group(log, group) if group else None, coach=coach)
    elif remove:
        classes.remove_class(log, _named(log, name or "").id)
    found = [_named(log, name)] if name and not remove and not add else classes.classes(log)
    if as_json:
        say_json([
            {"name": each.name, "group": each.group or None, "times": classes.times_words(each.times), "coach": each.coach or None,
             "members": each.total}
            for each in found
        ])  # fmt: skip
    elif found:
        rows = [
            (each.name, classes.times_words(each.times) or "-", each.group or "-", each.coach or "-", str(each.total))
            for each in found
        ]
        say_table(("class", "times", "group", "coach", "members"), rows, words=(0, 1, 2, 3))
    else:
        click.echo('There is no class yet: tidemark class NAME --add --group GROUP --times "Mon 18:00"', err=True)


def _named(log: Log, name: str) -> ClassRecord:
    from tracker.desk.coach.classes import classes

    known = classes(log)
    found = next((each for each in known if each.name.casefold() == " ".join(name.split()).casefold()), None)
    if found is None:
        names = ", ".join(each.name for each in known) or "none yet"
        raise BadInputError(f"There is no class {name}.", where="class", mend=f"The log has: {names}.")
    return found


def _group(log: Log, name: str) -> str:
    from tracker.desk.people.groups import groups

    known = groups(log)
    found = next((each.id for each in known if each.name.casefold() == " ".join(name.split()).casefold()), None)
    if found is None:
        names = ", ".join(each.name for each in known) or "none yet"
        raise BadInputError(f"There is no group {name}.", where="--group", mend=f"The log has: {names}.")
    return found


def _hand(log: Log, found: ClassRecord, sheet: Path, start: date | None, *, as_json: bool) -> None:
    from tracker.desk.coach.hand_out import hand_out
    from tracker.exchange.csv_text import read_text

    done = hand_out(log, found.id, read_text(sheet, save_as="text in UTF-8"), start, today=date.today())
    if as_json:
        say_json({
            "class": done.class_name, "title": done.title, "start": done.started.isoformat(), "given": done.given,
            "had": done.had,
        })  # fmt: skip
    else:
        click.echo(f"{done.words}.")


def _did(log: Log, found: ClassRecord, day: date | None, *, as_json: bool) -> None:
    from tracker.desk.coach import who_did

    days = who_did.class_days(log, found.id)
    today = date.today()
    past = [each.day for each in days if each.day <= today] or [each.day for each in days[-1:]]
    if not past or (day and day not in {each.day for each in days}):
        known = ", ".join(each.day.isoformat() for each in days[:10]) or "none yet"
        raise BadInputError("The class has no session then.", where="--day", mend=f"Its sessions are on: {known}.")
    told = who_did.who_did_it(log, found.id, day or past[0], today=today)
    if as_json:
        say_json({
            "class": told.class_name, "title": told.session.title, "day": told.session.day.isoformat(), "members": told.total,
            "words": told.words, "private": told.unseen,
            "by_member": [
                {"member": each.member.name, "how": each.how, "results": list(each.results)} for each in told.rows
            ],
        })  # fmt: skip
    else:
        click.echo(told.text(names=True))
