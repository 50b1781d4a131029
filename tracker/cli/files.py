"""`tidemark import` and `tidemark export`: sets from a file into the log, and the log into files."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tracker.cli.foreign import Answers
from tracker.cli.options import FILE, database_option, json_option, with_log
from tracker.cli.output import say_json
from tracker.cli.watching import long_act
from tracker.errors import BadInputError
from tracker.wording import counted

if TYPE_CHECKING:
    from tracker.desk.files.import_sets import Imported


@click.command("import")
@click.argument("file", type=FILE)
@click.option("--member", metavar="NAME", help='Whose rows those are that name nobody; else "me".')
@click.option("--foreign", is_flag=True, help="Any table, CSV or xlsx: guess from the cells which column is which.")
@click.option(
    "--column",
    "columns",
    multiple=True,
    metavar="FACT=COLUMN",
    help='With --foreign: which column it is, by heading or number ("load=Weight", "rir=" for none).',
)
@click.option("--unit", type=click.Choice(["kg", "lb"]), help="With --foreign: the unit, where no cell says it.")
@click.option("--dates", type=click.Choice(["ymd", "dmy", "mdy"]), help="With --foreign: the order in its dates.")
@click.option("--sheet", default="", metavar="NAME", help="With --foreign: which sheet of a workbook.")
@click.option("--preview", is_flag=True, help="With --foreign: say how it is understood, and take nothing.")
@database_option
@json_option
def import_file(
    file: Path, member: str | None, foreign: bool, columns: tuple[str, ...], unit: str | None, dates: str | None,
    sheet: str, preview: bool, as_json: bool,
) -> None:  # fmt: skip
    """Read a CSV of sets into the log: all of it, or nothing where a row can't be taken.

    Columns are those of `tidemark estimate --sets`, and session, place, implement, per_side, left_out and note. A set that
    the log has already is not added again, so a file may be imported twice; a set that was mended or removed since does
    not come back. Members and lifts that are new are made. Undo on the pages takes an import back.

    The log.json of an export holds a whole log, with its history; it goes into a log that holds nothing yet.

    With --foreign the table may have any layout; --preview shows how it is understood, and what must be answered first.
    Ctrl-C stops an import, and nothing of it is in the log then.
    """
    if foreign:
        _import_foreign(file, member, Answers(columns, unit, dates, sheet), preview, as_json)
        return
    if columns or unit or dates or sheet or preview:
        raise click.UsageError("--column, --unit, --dates, --sheet and --preview belong to --foreign.")
    if file.suffix.lower() == ".json":
        _import_log(file, member, as_json)
        return
    from tracker.exchange.sets_csv import read_sets

    with long_act():
        rows = read_sets(file)  # before the log is opened: a file that can't be taken leaves no trace
        from tracker.desk.files.import_sets import import_rows

        done = import_rows(with_log(), rows, member=member)
    _say_imported(done, as_json)


def _say_imported(done: Imported, as_json: bool) -> None:
    if done.ignored:
        click.echo(f"{done.file}: columns that were not read: {', '.join(done.ignored)}", err=True)
    if as_json:
        say_json({
            "file": done.file, "rows": done.rows, "added": done.added, "known": done.known, "members": list(done.members),
            "lifts": list(done.lifts), "places": list(done.places),
        })  # fmt: skip
        return
    click.echo(f"{done.file}: {counted(done.rows, 'set')} read, {done.added:,} added, {done.known:,} known already.")
    for what, names in (("members", done.members), ("lifts", done.lifts), ("places", done.places)):
        if names:
            click.echo(f"New {what}: {', '.join(names)}")


def _import_foreign(file: Path, member: str | None, answers: Answers, preview: bool, as_json: bool) -> None:
    from tracker.cli.foreign import open_options, say, understood
    from tracker.desk.files.foreign import as_understood, take

    log, today = with_log(), date.today()
    with long_act():
        brought, mapping = understood(log, file, answers, member)
        reading = as_understood(brought.table, mapping, today)
    if preview:
        if as_json:
            say_json({
                "file": brought.table.name, "rows": len(brought.table.rows), "columns": dict(mapping.columns),
                "open": list(open_options(reading)), "first": [{"line": row.line, **row.cells} for row in reading.rows],
            })  # fmt: skip
        else:
            say(brought, mapping, reading)
        return
    if reading.questions:
        mend = f"Add {'; '.join(open_options(reading))}; --preview shows how the rows are understood then."
        raise BadInputError("The table does not say everything itself.", where=brought.table.name, mend=mend)
    with long_act():
        done = take(log, brought.table, mapping, member=member, today=today)
    _say_imported(done, as_json)


def _import_log(file: Path, member: str | None, as_json: bool) -> None:
    from tracker.desk.files.files_json import take_log

    if member:
        raise click.UsageError("A whole log says itself whose each set is; --member is for a file of sets.")
    with long_act():
        done = take_log(with_log(), file)
    if as_json:
        say_json({"file": done.file, "sets": done.sets, "records": done.records})
        return
    click.echo(f"{done.file}: {counted(sum(done.records.values()), 'record')}, {done.sets:,} of them sets.")


@click.command()
@click.option("--out", type=FILE, required=True, metavar="FOLDER", help="Where the files go; made where it is missing.")
@database_option
@json_option
def export(out: Path, as_json: bool) -> None:
    """Write the whole log as CSV and JSON: sets.csv and log.json, which `tidemark import` takes back, and the rest.

    Every kind of record has a CSV of its own, which csv-metadata.json describes; log.json holds all of them, and
    log.schema.json describes it.

    A text that a spreadsheet would take for a formula has an apostrophe before it; importing takes it off again. Files
    of the same names in the folder are replaced.
    """
    from tracker.desk.files.export import export as write

    done = write(with_log(), out)
    if as_json:
        say_json({"folder": str(done.folder), "files": done.files})
        return
    click.echo(f"{counted(done.files['sets.csv'], 'set')} and {counted(len(done.files), 'file')} in {done.folder}")
