"""Rep-maxes that are known without their set: tested elsewhere, or declared. Recording one is in `training`."""

from __future__ import annotations

from tracker.desk.base.roles import may
from tracker.errors import BadInputError
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log.records import RepMaxRow
from tracker.log.unit_of_work import Log


@may("see")
def rep_maxes(log: Log, member_id: str) -> tuple[RepMaxRow, ...]:
    """List a member's rep-maxes, newest first."""
    with log.reading() as session:
        return tuple(reversed(log_rep_maxes.rep_maxes(session, member_id)))


@may("change")
def remove_rep_max(log: Log, member_id: str, rep_max_id: str) -> None:
    """Remove a rep-max; it can be taken back.

    Raises:
        BadInputError: if it is not in the log any more.
    """
    row = next((each for each in rep_maxes(log, member_id) if each.id == rep_max_id), None)
    if row is None:
        raise BadInputError("This rep-max is not in the log any more.", where="rep-max", mend="Reload the page.")
    with log.act(f"removed a {row.source} {row.reps}RM of {row.lift.title}: {row.load}", member_id, own=True) as act:
        log_rep_maxes.remove_rep_max(act, rep_max_id)
