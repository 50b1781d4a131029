"""`tidemark backup`, `restore` and `check`: the log kept safe, put back, and looked over."""

from __future__ import annotations

from pathlib import Path

import click

from tracker.cli.options import FILE, database, database_option, json_option, with_log
from tracker.cli.output import say_json
from tracker.cli.watching import long_act
from tracker.wording import counted

NOT_IN_ORDER = 2  # the status of a log that is not in order: bad input, and no fault of the program


@click.command()
@click.option("--out", type=FILE, metavar="FILE", help="Where the copy goes; else among the copies that are kept.")
@click.option("--force", is_flag=True, help="Replace a file that is there.")
@click.option("--list", "as_list", is_flag=True, help="Make none: list the copies that are kept.")
@database_option
@json_option
def backup(out: Path | None, force: bool, as_list: bool, as_json: bool) -> None:
    """Make a verified copy of the log, also while the pages are open.

    The copy is one SQLite file that carries a checksum: `tidemark restore` refuses it if a single byte was changed.
    Without --out it is dated and kept in rotation beside the log: all of 7 days, then one a week for 5 weeks and one a
    month for a year. What you name yourself is never deleted.
    """
    from tracker.desk.files.custody import backup as make

    if as_list and (out or force):
        raise click.UsageError("--list makes no copy, so it takes neither --out nor --force.")
    if force and not out:
        raise click.UsageError("--force belongs to --out FILE.")
    if as_list:
        _list(as_json)
        return
    done = make(database(), out, force=force)
    if as_json:
        say_json({"file": str(done.file), "sets": done.sets, "bytes": done.size, "sha256": done.sha256})
        return
    click.echo(f"{done.file}: {counted(done.sets, 'set')}, {done.size / 1e6:,.1f} MB, verified. SHA-256 {done.sha256}")


def _list(as_json: bool) -> None:
    from tracker.desk.base.backups import kept

    found = kept(with_log())
    if as_json:
        say_json([
            {"file": str(each.file), "at": each.at.isoformat(), "why": each.why, "bytes": each.size, "whole": each.whole}
            for each in found
        ])  # fmt: skip
        return
    for each in found:
        how = "whole" if each.whole else "NOT as it was made" if each.state == "damaged" else "not sealed"
        click.echo(f"{each.at.astimezone():%Y-%m-%d %H:%M}  {each.size / 1e6:8,.1f} MB  {how}  {each.why}  {each.file}")
    if not found:
        click.echo("No copies yet.", err=True)


@click.command()
@click.argument("file", type=FILE)
@database_option
@json_option
def restore(file: Path, as_json: bool) -> None:
    """Put a backup in the place of the log.

    It is verified first, and brought up to date where it is older. The log that was there is kept beside it, with the
    time in its name. Ctrl-C stops it, and the log is what it was then. The log.json of an export is taken like a backup.
    """
    from tracker.desk.files.custody import restore as put_back

    with long_act():
        done = put_back(database(), file)
    if done.warning:
        click.echo(f"{file}: {done.warning}", err=True)
    if as_json:
        say_json({"log": str(done.log), "sets": done.sets, "former": str(done.former) if done.former else None})
        return
    kept = f" The former log is kept as {done.former}." if done.former else ""
    click.echo(f"{done.log}: restored, {counted(done.sets, 'set')}.{kept}")


@click.command()
@database_option
@json_option
def check(as_json: bool) -> int:
    """Look the log over: the file, its tables, and every record. Status 2 and the problems where it is not in order."""
    from tracker.desk.files.check import check_log

    report = check_log(database())
    if report.others:
        click.echo(report.others, err=True)
    if as_json:
        counts = report.counts or {"sets": None}
        say_json({"ok": report.ok, **counts, "log": report.log, **report.facts, "problems": list(report.problems)})
    elif report.ok:
        counts = ", ".join(f"{number:,} {name.replace('_', ' ')}" for name, number in report.counts.items())
        click.echo(f"{report.log}: in order. {counts}. {', '.join(report.facts.values())}")
    if report.ok:
        return 0
    told = "\n".join(f"  {problem}" for problem in report.problems)
    mend = "Keep the file as it is, export what can be read, and restore the newest backup."
    click.echo(f"tidemark: {report.log}: the log is not in order. {mend}\n{told}", err=True)
    return NOT_IN_ORDER
