"""`tidemark dump` and `rehearse`: a gym's nightly dump on PostgreSQL, put back each time to see that it can be."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from tracker.cli.options import FILE, database, database_option, json_option
from tracker.cli.output import say_json
from tracker.cli.watching import long_act
from tracker.wording import counted

if TYPE_CHECKING:
    from tracker.desk.files.dumps import Rehearsal

NOT_IN_ORDER = 2


@click.command()
@click.argument("folder", type=FILE, envvar="TIDEMARK_DUMPS")
@click.option("--keep", type=click.IntRange(1, 10_000), default=14, show_default=True, help="So many good dumps stay.")
@click.option("--look", is_flag=True, help="Make none: say whether the last night's is there and was put back.")
@database_option
@json_option
def dump(folder: Path, keep: int, look: bool, as_json: bool) -> int:
    """Dump a log on PostgreSQL into FOLDER (else what TIDEMARK_DUMPS names), put it back into a scratch database, look that over, and drop it.

    For a timer at night. Status 2 where the dump could not be made, or what came back is not in order; what was found
    stands in rehearsed.json beside the dumps. --look reads only that, and is 2 as well where the last one is over 26
    hours old. The user of the database must be allowed to make databases (CREATEDB).
    """
    from tracker.desk.files.dumps import make_dump, rehearsals, standing

    if look:
        found = standing(folder)
        newest = rehearsals(folder)[-1:]
        if as_json:
            say_json(
                {
                    "ok": found.good,
                    "said": found.said,
                    "mend": found.mend,
                    "newest": _document(newest[0]) if newest else None,
                }
            )
        else:
            click.echo(f"{found.said} {found.mend}".strip(), err=not found.good)
        return 0 if found.good else NOT_IN_ORDER
    with long_act():
        done = make_dump(database(), folder, keep=keep)
    return _say(done, as_json)


@click.command()
@click.argument("file", type=FILE)
@database_option
@json_option
def rehearse(file: Path, as_json: bool) -> int:
    """Put a dump (FILE, or the newest of a folder) back into a scratch database, look it over, and drop it again.

    The log itself is not touched. Status 2 where the dump is missing, damaged, or what comes back is not in order.
    """
    from tracker.desk.files.dumps import rehearse as put_back

    with long_act():
        done = put_back(database(), file)
    return _say(done, as_json)


def _say(done: Rehearsal, as_json: bool) -> int:
    if as_json:
        say_json(_document(done))
    elif done.good:
        sets = counted(done.counts.get("sets", 0), "set")
        click.echo(f"{done.file}: {done.size / 1e6:,.1f} MB, put back and in order: {sets}. SHA-256 {done.sha256}")
    if not done.good:
        told = "\n".join(f"  {problem}" for problem in done.problems)
        click.echo(f"tidemark: {done.file} is no good dump. Keep it, and make another.\n{told}", err=True)
    return 0 if done.good else NOT_IN_ORDER


def _document(done: Rehearsal) -> dict[str, object]:
    return {
        "file": done.file, "at": done.at.isoformat(), "ok": done.good, "bytes": done.size, "sha256": done.sha256,
        "counts": done.counts, "problems": list(done.problems),
    }  # fmt: skip
