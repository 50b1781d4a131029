"""`tidemark import` and `tidemark export`: sets from a file into the log, and the log into files."""

from __future__ import annotations

from pathlib import Path

import click

from tracker.cli.options import FILE, database_option, json_option, with_log
from tracker.cli.output import say_json


@click.command("import")
@click.argument("file", type=FILE)
@click.option("--member", metavar="NAME", help='Whose rows those are that name nobody; else "me".')
@database_option
@json_option
def import_file(file: Path, member: str | None, as_json: bool) -> None:
    """Read a CSV of sets into the log: all of it, or nothing where a row can't be taken.

    Columns are those of `tidemark estimate --sets`, and session, place, implement, per_side, left_out and note. A set that
    the log has already is not added again, so a file may be imported twice; a set that was mended or removed since does
    not come back. Members and lifts that are new are made. Undo on the pages takes an import back.

    The log.json of an export holds a whole log, with its history; it goes into a log that holds nothing yet.
    """
    if file.suffix.lower() == ".json":
        _import_log(file, member, as_json)
        return
    from tracker.exchange.sets_csv import read_sets

    rows = read_sets(file)  # before the log is opened: a file that can't be taken leaves no trace
    from tracker.desk.files import import_rows

    done = import_rows(with_log(), rows, member=member)
    if done.ignored:
        click.echo(f"{done.file}: columns that were not read: {', '.join(done.ignored)}", err=True)
    if as_json:
        say_json({
            "file": done.file, "rows": done.rows, "added": done.added, "known": done.known, "members": list(done.members),
            "lifts": list(done.lifts), "places": list(done.places),
        })  # fmt: skip
        return
    click.echo(f"{done.file}: {done.rows:,} sets read, {done.added:,} added, {done.known:,} known already.")
    for what, names in (("members", done.members), ("lifts", done.lifts), ("places", done.places)):
        if names:
            click.echo(f"New {what}: {', '.join(names)}")


def _import_log(file: Path, member: str | None, as_json: bool) -> None:
    from tracker.desk.files_json import take_log

    if member:
        raise click.UsageError("A whole log says itself whose each set is; --member is for a file of sets.")
    done = take_log(with_log(), file)
    if as_json:
        say_json({"file": done.file, "sets": done.sets, "records": done.records})
        return
    click.echo(f"{done.file}: {sum(done.records.values()):,} records, {done.sets:,} of them sets.")


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
    from tracker.desk.export import export as write

    done = write(with_log(), out)
    if as_json:
        say_json({"folder": str(done.folder), "files": done.files})
        return
    click.echo(f"{done.files['sets.csv']:,} sets and {len(done.files)} files in {done.folder}")
