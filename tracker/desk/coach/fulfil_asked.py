"""The coach says which planned session a result was, where day or implement did not fit by themselves."""

from __future__ import annotations

from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.coach.fulfil import Could, could, lay
from tracker.errors import BadInputError
from tracker.log import members as log_members
from tracker.log import waves as log_waves
from tracker.log.unit_of_work import Log
from tracker.log.who import RESULTS


@may("lead")
def asked(log: Log, member_id: str, day: date) -> tuple[Could, ...]:
    """List the planned sessions that a result of a day may have been, for the coach to say; none where it is clear."""
    with log.reading() as session:
        return could(session, member_id, day)


@may("lead", grant=RESULTS)
def say_it_was(log: Log, member_id: str, day: date, member_step_id: str) -> str:
    """Lay what results brought of a day against a planned session, and say how much of it that was.

    Raises:
        BadInputError: if the session is not planned for the member any more, or nothing of the result fits it.
    """
    with log.act("laid a result against a session", member_id) as act:
        member = log_members.member(act.session, member_id)
        steps = log_waves.member_steps(act.session, member_id)
        step = next((each for each in steps if each.id == member_step_id and each.state != "skipped"), None)
        if member is None or step is None:
            raise BadInputError("This session is not planned any more.", where="session", mend="Reload the page.")
        act.words = f"laid the result of {day.isoformat()} against {step.title}"
        words = lay(act, member_id, day, step)
        if not words:
            raise BadInputError("Nothing of the result fits this session.", where="session", mend="Choose another one.")
    return words
