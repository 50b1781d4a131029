"""`tidemark next`: what is next for a member on a day, and what stands beside it."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import click

from tracker.cli.options import DAY, database_option, json_option, member_named, with_log
from tracker.cli.output import say_json

if TYPE_CHECKING:
    from tracker.desk.day.next import Next


@click.command("next")
@click.option("--member", metavar="NAME", help="Whose day; needed where the log has several members.")
@click.option("--day", type=DAY, metavar="YYYY-MM-DD", help="Which day; without it today.")
@database_option
@json_option
def next_thing(member: str | None, day: date | None, as_json: bool) -> None:
    """Say what is next: the next set, the piece, how hard the session was, or nothing.

    The prescribed sets of the session that is on come first, then its pieces, then its rating. Warm-up, ramp and rest stand
    beside it, and so do the next planned session and those that were missed.
    """
    from tracker.desk.day.next import whats_next
    from tracker.desk.day.next_record import next_record

    log = with_log()
    found = whats_next(log, member_named(log, member).id, day or date.today())
    if as_json:
        say_json(next_record(found))
    else:
        _say(found)


def _say(found: Next) -> None:
    if found.session and found.kind != "nothing":
        click.echo(found.session.words)
    if found.warm_up and not found.warm_up.begun:
        click.echo(f"Warm-up ({found.warm_up.state}): {' '.join(found.warm_up.lines)}")
    if found.kind in ("set", "piece"):
        which = f", {found.which}" if found.which else ""
        click.echo(f"Next: {found.title}{which}: {found.words}")
    else:
        click.echo(f"Next: {found.words}" if found.kind == "rating" else found.words)
    for each in found.then:
        click.echo(f"Then: {each.title}: {each.words}")
    if found.planned:
        click.echo(f"Planned next: {found.planned.words}")
    for each in found.missed:
        click.echo(f"{'Unfinished' if each.step_id in found.plan.unfinished else 'Missed'}: {each.words}")
