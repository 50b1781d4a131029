"""Sessions beside the one that is on, whole: what they would ask on a day, for whoever takes the plan along."""

from __future__ import annotations

from datetime import timedelta

from tracker.desk.base.roles import may
from tracker.desk.day.in_turn import by_turns
from tracker.desk.day.lines import Grounds, PlannedLine, lines_on, read_grounds
from tracker.desk.day.scene import Scene, read_scene, with_sore
from tracker.desk.day.today import DayPlan
from tracker.log import pieces as log_pieces
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberStepRow
from tracker.log.unit_of_work import Log, Reader

DAYS = 14  # that are taken along
MOST_MISSED = 4


@may("see")
def steps_beside(log: Log, member_id: str, plan: DayPlan) -> tuple[MemberStepRow, ...]:
    """List the planned sessions beside the one that is on: those of the day, of the fourteen after it, and the missed."""
    with log.reading() as session:
        steps = log_waves.member_steps(session, member_id)
    last = plan.day + timedelta(days=DAYS)
    beside = [each for each in steps if each.state == "planned" and (plan.step is None or each.id != plan.step.id)]
    ahead = sorted((each for each in beside if plan.day <= each.due <= last), key=lambda each: each.due)
    return (*ahead, *plan.missed[-MOST_MISSED:])


@may("see")
def session_beside(
    log: Log, member_id: str, plan: DayPlan, step: MemberStepRow
) -> tuple[tuple[PlannedLine, ...], tuple[PieceRow, ...]]:
    """Return the sets and the pieces of a session, as they would be on the plan's day, or on its own where that is later."""
    with log.reading() as session:
        scene, grounds = read_ahead(session, log.name, plan, step)
        pieces = log_pieces.pieces_of_step(session, step.step_id, member_id)
    return by_turns(lines_on(scene, grounds), step), pieces


def read_ahead(session: Reader, log_name: str, plan: DayPlan, step: MemberStepRow) -> tuple[Scene, Grounds]:
    """Read what the sets of a session are worked out from on the plan's day, or on its own where that is later."""
    day, member = max(plan.day, step.due), plan.member
    scene = read_scene(session, log_name, member, plan.place, day)
    done = log_sets.sets_of_step(session, member.id, step.id, plan.day)
    scene = with_sore(scene, plan.sore)  # of this member's own day alone
    return scene, read_grounds(session, scene, step, done, plan.sets if day == plan.day else ())
