"""Which lifts of a class are not estimated yet, and each of them estimated: one after the other, so that it can be stopped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tracker.desk.base.roles import may
from tracker.desk.maxes import estimates
from tracker.log import members as log_members
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log


@dataclass(frozen=True, slots=True)
class NotEstimated:
    """A lift that a member's coming loads rest on, of which no estimate is in memory."""

    member: MemberRecord
    lift: LiftRecord


@may("lead")
def not_estimated(log: Log, member_ids: Sequence[str]) -> tuple[NotEstimated, ...]:
    """List the lifts of the members' planned sessions that would have to be estimated first."""
    found: dict[tuple[str, str], NotEstimated] = {}
    with log.reading() as session:
        for member_id in member_ids:
            member = log_members.member(session, member_id)
            steps = log_waves.member_steps(session, member_id) if member else ()
            for lift in {line.of_lift or line.lift for step in steps if step.state == "planned" for line in step.sets}:
                if member and not estimates.is_kept(log, member_id, lift):
                    found[member_id, lift.id] = NotEstimated(member, lift)
    return tuple(sorted(found.values(), key=lambda each: (each.member.name, each.lift.title)))


@may("lead")
def estimate(log: Log, member_ids: Sequence[str], lift: LiftRecord) -> None:
    """Estimate one lift of these members; it is kept in memory from then on."""
    for member_id in member_ids:
        estimates.history(log, member_id, lift)
