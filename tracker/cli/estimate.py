"""`tidemark estimate`: current maxes with their band, from a file of sets or from the log."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tracker.cli.options import DAY, FILE, database_option, json_option, lift_named, member_named, with_log
from tracker.cli.output import rounded, say_json, say_table
from tracker.errors import BadInputError

if TYPE_CHECKING:
    from tracker.desk.maxes.maxes import History

FLAGS = 3  # things to look at that the table tells, the newest
AHEAD = (1, 3, 5)  # the rep-maxes of the table of weeks ahead
SHOWN = (1, 2, 3, 5, 8, 10)  # the rep-maxes of the table; the document has them all


@click.command()
@click.option("--sets", "sets_file", type=FILE, metavar="FILE.csv", help="Read a file of sets; the log is not touched.")
@click.option("--as-of", type=DAY, metavar="DATE", help="Use the sets up to this day, YYYY-MM-DD; else all of them.")
@click.option("--trend", is_flag=True, help="Also what could be known on each earlier day with sets.")
@click.option(
    "--ahead", type=int, metavar="WEEKS", help="Also so many weeks ahead, 1 to 104, if training goes on as it has."
)
@click.option("--member", metavar="NAME", help="Only this member.")
@click.option("--lift", metavar="NAME", help="Only this lift.")
@database_option
@json_option
def estimate(
    sets_file: Path | None,
    as_of: date | None,
    trend: bool,
    ahead: int | None,
    member: str | None,
    lift: str | None,
    as_json: bool,
) -> None:
    r"""Estimate current maxes: the median and an 80 % band, of every member and lift.

    \b
    A file of sets is a CSV in UTF-8 whose first line names its columns:
      date, lift, load, unit, reps          needed; YYYY-MM-DD, kg or lb
      member, rir, outcome, kind, order     may be there; outcome is done, missed or cut,
                                            kind is work, test or ramp
      body_mass                             where the body is lifted: the load is what is added

    Where the body is lifted, estimates are of the added load, as in the load column, with the newest body mass known.
    An estimate is a range and no promise; a maximal test wants your coach. What lies ahead is no promise either, and says
    of no training that it makes stronger.
    """
    from tracker.desk.maxes.maxes import answer
    from tracker.strength.forecast import check_weeks

    if ahead is not None:
        check_weeks(ahead, where="--ahead")
    found = _of_file(sets_file, member, lift) if sets_file else _of_log(member, lift)
    answers = [answer(history, as_of=as_of, trend=trend, ahead=ahead or 0) for history in found]
    if as_json:
        say_json(answers)
    else:
        _say(answers, trend)


def _of_file(path: Path, member: str | None, lift: str | None) -> tuple[History, ...]:
    from tracker.desk.maxes.maxes import histories_of_file
    from tracker.exchange.sets_csv import read_sets

    file = read_sets(path)
    if file.ignored:
        click.echo(f"{path.name}: columns that were not read: {', '.join(file.ignored)}", err=True)
    found = histories_of_file(file.rows)
    found = _narrowed(found, "member", member, path)
    return _narrowed(found, "lift", lift, path)


def _narrowed(found: tuple[History, ...], what: str, name: str | None, path: Path) -> tuple[History, ...]:
    if name is None:
        return found
    said = " ".join(name.split()).casefold()
    left = tuple(each for each in found if getattr(each, what).casefold() == said)
    if not left:
        there = "; ".join(dict.fromkeys(getattr(each, what) for each in found)) or "no rows"
        raise BadInputError(f"{path.name} has no {what} {name}.", where=f"--{what}", mend=f"It has: {there}.")
    return left


def _of_log(member: str | None, lift: str | None) -> tuple[History, ...]:
    from tracker.desk.maxes.maxes import histories_of_log
    from tracker.desk.people.people import members

    log = with_log()
    whose = members(log) if member is None else (member_named(log, member),)
    return histories_of_log(log, whose, None if lift is None else lift_named(log, lift))


def _say(answers: Sequence[dict[str, Any]], trend: bool) -> None:
    if not answers:
        click.echo("There are no sets to estimate from.")
        return
    heading = ["member", "lift", "as of", "sets", "1RM, 80 % band", *(f"{reps}RM" for reps in SHOWN[1:])]
    say_table(heading, [_row(entry) for entry in answers], words=(0, 1))
    for entry in answers:
        _say_flags(entry)
    for entry in answers if trend else ():
        click.echo(f"\n{entry['member']}, {entry['lift']}: what could be known on each day")
        rows = [[point["date"], _shown(point["one_rm"], entry["unit"])] for point in entry.get("trend", ())]
        say_table(["day", "1RM, 80 % band"], rows)
    for entry in answers:
        if entry.get("ahead"):
            click.echo(f"\n{entry['member']}, {entry['lift']}: weeks ahead, if training goes on as it has; no promise")
            _say_ahead(entry)


def _say_ahead(entry: dict[str, Any]) -> None:
    rows = [
        [then["date"], *(_shown(then["rep_max"][str(reps)], entry["unit"]) for reps in AHEAD)]
        for then in entry["ahead"]
    ]
    say_table(["day", *(f"{reps}RM, 80 % band" for reps in AHEAD)], rows)


def _say_flags(entry: dict[str, Any]) -> None:
    """Say the newest things that a person should look at; the document has them all."""
    flags = entry.get("flags", [])
    for flag in flags[-FLAGS:]:
        click.echo(f"{entry['member']}, {entry['lift']}: {flag['words']}")
    if len(flags) > FLAGS:
        click.echo(
            f"{entry['member']}, {entry['lift']}: {len(flags) - FLAGS:,} more of that kind; --json has them all."
        )


def _row(entry: dict[str, Any]) -> list[str]:
    unit, bands = entry["unit"], entry["rep_max"]
    head = [entry["member"], entry["lift"], entry["as_of"], str(entry["sets_used"])]
    if bands is None:
        return [*head, "not known", *("" for _ in SHOWN[1:])]
    return [*head, _shown(bands["1"], unit), *(rounded(bands[str(reps)]["estimate"], unit) for reps in SHOWN[1:])]


def _shown(band: dict[str, float], unit: str) -> str:
    low, high = (rounded(band[name], unit).removesuffix(f" {unit}") for name in ("low80", "high80"))
    return f"{rounded(band['estimate'], unit)} ({low} to {high})"
