"""`tidemark sheet`: a coach's session sheet, what was understood of it, and the way into the log."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracker.cli.options import DAY, FILE, database_option, json_option, member_named, with_log
from tracker.cli.output import say_json
from tracker.errors import BadInputError

if TYPE_CHECKING:
    from tracker.desk.sheet_changes import SessionChange
    from tracker.desk.sheets import SheetPreview
    from tracker.log.keeper import Log


@click.command()
@click.argument("file", type=FILE)
@click.option(
    "--member", "names", metavar="NAME", multiple=True, help="Take it into the log for this member; repeatable."
)
@click.option("--start", type=DAY, help="The day of its first session, where the sheet names none.")
@click.option("--change", is_flag=True, help="Write what it changes against the earlier sheet of its title.")
@database_option
@json_option
def sheet(file: Path, names: tuple[str, ...], start: date | None, change: bool, as_json: bool) -> None:
    """Read a coach's session sheet, typed in any hand, and say back what was understood.

    What can be read in two ways is told with the reading that was taken; what is not understood stays as the coach's words.
    Nothing is written but with --member, which puts it into that member's calendar, or --change: without that, a sheet
    that says otherwise than the earlier one of its title only shows what it changes. What is begun or done stays.
    """
    from tracker.exchange.csv_text import read_text
    from tracker.prescription.sheet import as_json as record_of
    from tracker.prescription.sheet import read, said_back
    from tracker.prescription.sheet.words import ask_words

    text = read_text(file, save_as="text in UTF-8")
    understood = read(text, name=file.name)
    done = _into_the_log(text, file.name, names, start, change) if names or change else {}
    if as_json:
        say_json({**record_of(understood.sheet, understood.asks), **done})
        return
    for line in (*said_back(understood.sheet), *(ask_words(ask) for ask in understood.asks), *_words(done)):
        click.echo(line)


def _into_the_log(text: str, name: str, names: tuple[str, ...], start: date | None, change: bool) -> dict[str, Any]:
    from tracker.desk import sheets

    log = with_log()
    preview = sheets.read_sheet(log, text, name=name)
    members = [member_named(log, each) for each in dict.fromkeys(names)]
    done: dict[str, Any] = {}
    if preview.changes or change:
        done["changes"] = _changed(log, preview, text, write=change)
    on = sheets.members_on(log, preview.earlier.id) if preview.earlier else ()
    new = [each.id for each in members if each.id not in on]
    if new:
        taken = sheets.take_sheet(log, new, text, start)
        done["taken"] = {"members": list(taken.names), "start": taken.started.isoformat()}
    elif members:
        done["taken"] = {"members": [], "start": None}
    return done


def _changed(log: Log, preview: SheetPreview, text: str, *, write: bool) -> list[dict[str, Any]]:
    from tracker.desk import sheets

    if preview.earlier is None:
        raise BadInputError(
            "The log has no earlier sheet of this title.", where="--change", mend="Take it with --member NAME."
        )
    if not write:
        shown = "; ".join(f"{each.kind}: {each.words}" for each in preview.changes)
        raise BadInputError(
            f"It changes an earlier sheet of this title ({shown}). Nothing was written.", where="sheet",
            mend="Say --change to write that, or give it another title.",
        )  # fmt: skip
    return [_record(each) for each in sheets.take_changes(log, preview.earlier.id, text)]


def _record(change: SessionChange) -> dict[str, Any]:
    return {
        "kind": change.kind, "session": change.words, "before": list(change.before), "after": list(change.after),
        "kept": change.kept,
    }  # fmt: skip


def _words(done: dict[str, Any]) -> list[str]:
    said = [f"{each['kind'].capitalize()}: {each['session']}" for each in done.get("changes", ())]
    if taken := done.get("taken"):
        names = ", ".join(taken["members"])
        said.append(f"Taken into the log for {names} from {taken['start']}." if names else "In the log already.")
    return said
