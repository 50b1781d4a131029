"""Rep-maxes that are known without their set: tested elsewhere, or declared."""

from __future__ import annotations

from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.people.people import check_day
from tracker.errors import BadInputError
from tracker.limits import MOST_RM
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log.records import RepMaxRow
from tracker.log.unit_of_work import Log
from tracker.units import Mass, check_load


@may("see")
def rep_maxes(log: Log, member_id: str) -> tuple[RepMaxRow, ...]:
    """List a member's rep-maxes, newest first; those that were set aside say so."""
    with log.reading() as session:
        return tuple(reversed(log_rep_maxes.rep_maxes(session, member_id, also_aside=True)))


@may("change")
def add_rep_max(log: Log, member_id: str, lift_id: str, day: date, reps: int, load: Mass, *, tested: bool) -> None:
    """Record a rep-max that was tested elsewhere, or that the member believes in (declared)."""
    check_day(day)
    if not 1 <= reps <= MOST_RM:
        raise BadInputError(f"A {reps}RM can't be.", where="repetitions", mend="Write 1 to 30.")
    with log.reading() as session:
        lift = log_members.lift(session, lift_id)
    if lift is None:
        raise BadInputError("This lift is not in the log.", where="lift", mend="Choose one from the list.")
    check_load(load, where="load", assistance=lift.body)
    with log.act(
        f"recorded a {'tested' if tested else 'declared'} {reps}RM of {lift.title}: {load}", member_id, own=True
    ) as act:
        log_rep_maxes.add_rep_max(act, member_id, lift_id, day, reps, load, "tested" if tested else "declared")


@may("change")
def remove_rep_max(log: Log, member_id: str, rep_max_id: str) -> None:
    """Remove a rep-max; it can be taken back.

    Raises:
        BadInputError: if it is not in the log any more.
    """
    row = _known(log, member_id, rep_max_id)
    with log.act(f"removed a {row.source} {row.reps}RM of {row.lift.title}: {row.load}", member_id, own=True) as act:
        log_rep_maxes.remove_rep_max(act, rep_max_id)


@may("change")
def set_aside(log: Log, member_id: str, rep_max_id: str, day: date, *, aside: bool = True) -> None:
    """Use a rep-max for nothing any more, or again; it stays in the history and is drawn as set aside.

    Raises:
        BadInputError: if it is not in the log any more.
    """
    row = _known(log, member_id, rep_max_id)
    words = "set aside" if aside else "uses again"
    with log.act(f"{words} a {row.source} {row.reps}RM of {row.lift.title}: {row.load}", member_id, own=True) as act:
        log_rep_maxes.set_aside(act, member_id, rep_max_id, day, aside=aside)


def _known(log: Log, member_id: str, rep_max_id: str) -> RepMaxRow:
    row = next((each for each in rep_maxes(log, member_id) if each.id == rep_max_id), None)
    if row is None:
        raise BadInputError("This rep-max is not in the log any more.", where="rep-max", mend="Reload the page.")
    return row
