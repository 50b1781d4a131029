"""What a member chooses for a lift that loads a sore place: to leave it out, to do it as planned, or another one instead."""

from __future__ import annotations

from typing import cast

from tracker.desk.base.roles import may
from tracker.desk.day.sore import WORDS, How, lift_named
from tracker.desk.day.step_state import ask_again, is_done_but_for_its_state
from tracker.desk.people.people import facts_of
from tracker.errors import BadInputError
from tracker.log import by_hand
from tracker.log import members as log_members
from tracker.log import waves as log_waves
from tracker.log.records import Implement
from tracker.log.unit_of_work import SORE, Act, Log
from tracker.prescription.body_parts import ONE_AT_A_TIME, Other


@may("change")
def choose(log: Log, member_id: str, lift_id: str, how: How, *, other: Other | None = None, step_id: str = "") -> None:
    """Leave a lift out, do it as planned, or do another one instead, for as long as something is sore.

    With `step_id` it is of that session of theirs alone, whatever the reason: a lift for which nothing stands there.

    Raises:
        BadInputError: if the lift is not in the log, or nothing is said that could be done instead.
    """
    with log.reading() as session:
        name = lift_named(session, lift_id).name.casefold()
    if (how == "instead") != (other is not None):
        raise BadInputError("Nothing is chosen to be done instead.", where="lift", mend="Choose one of those offered.")
    with log.act(WORDS, member_id, own=other is None) as act:
        said = {"lift": name, "how": how, "with": _lift_for(act, member_id, other) if other else ""}
        by_hand.say(act, SORE, member_id, said | ({"step": step_id} if step_id else {}))
        if step_id and how != "leave":
            ask_again(act, member_id, step_id, name)
    if how == "leave":
        _finish(log, member_id)


def _finish(log: Log, member_id: str) -> None:
    """Call done what was begun and of which nothing else is asked: an act of its own, whose words say only that."""
    with log.reading() as session:
        steps = [
            step
            for step in log_waves.member_steps(session, member_id)
            if is_done_but_for_its_state(session, member_id, step)
        ]
    for step in steps:
        with log.act(f"finished {step.title}", member_id, own=True) as act:
            log_waves.set_state(act, step.id, "done")


def _lift_for(act: Act, member_id: str, other: Other) -> str:
    """Find the lift that is done instead, or add it."""
    implement = cast("Implement", other.implement)
    for each in log_members.lifts(act.session, member_id):
        if (each.name.casefold(), each.implement) == (other.name.casefold(), implement):
            return each.id
    return log_members.add_lift(
        act, other.name, implement, per_side=other.kind == ONE_AT_A_TIME, **facts_of(other.name, implement)
    ).id
