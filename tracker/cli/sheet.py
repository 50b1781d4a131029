"""`tidemark sheet`: a coach's session sheet, and what was understood of it."""

from __future__ import annotations

from pathlib import Path

import click

from tracker.cli.options import FILE, json_option
from tracker.cli.output import say_json


@click.command()
@click.argument("file", type=FILE)
@json_option
def sheet(file: Path, as_json: bool) -> None:
    """Read a coach's session sheet and say back what was understood.

    Where it can't be read, every place is told with its line and column, what was expected, and a line that would pass.
    """
    from tracker.exchange.csv_text import read_text
    from tracker.prescription.sheet import as_json as record_of
    from tracker.prescription.sheet import parse_sheet, said_back

    understood = parse_sheet(read_text(file, save_as="text in UTF-8"), name=file.name)
    if as_json:
        say_json(record_of(understood))
        return
    for line in said_back(understood):
        click.echo(line)
