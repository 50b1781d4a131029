"""Whom a coach might speak to: whose coming loads rest on an old, doubtful or missing max, and who has been away.

Nobody is urged to test: where a test is held back from a member, that stands beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from tracker.desk.base.roles import may
from tracker.desk.day.today import scene_of
from tracker.desk.day.told import told
from tracker.desk.maxes import estimates
from tracker.desk.maxes.references import Reference, references
from tracker.log import members as log_members
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.prescription.rounding import OLD_WEEKS
from tracker.safety import LAY_OFF_DAYS, HeldBack, held_back
from tracker.strength.holds import LIKELY

COMING_DAYS = 28  # loads of the next four weeks; own choice


@dataclass(frozen=True, slots=True)
class DueTest:
    """A max that coming loads refer to and that wants a look: `why` in words; `held` where no test is offered now."""

    member: MemberRecord
    lift: LiftRecord
    reps: int
    known: Reference | None  # the newest tested or declared one; None where there is none
    why: str
    settle: str  # what would settle it
    held: HeldBack | None


@dataclass(frozen=True, slots=True)
class Away:
    """When a member was last here; `days` is None where they never were. `told` is what they chose to tell the coach."""

    member: MemberRecord
    last: date | None
    days: int | None
    told: tuple[str, ...] = ()

    @property
    def long(self) -> bool:
        """Two weeks or more: the next sessions want care."""
        return self.days is not None and self.days >= LAY_OFF_DAYS


@may("lead")
def due_tests(log: Log, member_ids: Sequence[str], day: date) -> tuple[DueTest, ...]:
    """List the maxes that coming loads refer to and that are missing, doubtful or older than twelve weeks, oldest first."""
    found = [entry for member in _members(log, member_ids) for entry in _of_member(log, member, day)]
    return tuple(sorted(found, key=lambda each: each.known.day if each.known else date.min))


def _of_member(log: Log, member: MemberRecord, day: date) -> Iterator[DueTest]:
    with log.reading() as session:
        steps = log_waves.member_steps(session, member.id)
    coming = [step for step in steps if step.state == "planned" and step.due <= day + timedelta(days=COMING_DAYS)]
    wanted = dict.fromkeys((line.lift, line.of_reps) for step in coming for line in step.sets if line.of_reps)
    if not wanted:
        return
    person = scene_of(log, member, None, day, {}).person
    for lift, reps in wanted:
        options = references(estimates.history(log, member.id, lift), reps, day, member.unit)
        known = next((each for each in options if each.source != "estimated"), None)
        if why := _why(known, reps, day):
            settle = known.holds.settle if known and known.holds else ""
            yield DueTest(member, lift, reps, known, why, settle, held_back(person, test=True))


def _why(known: Reference | None, reps: int, day: date) -> str:
    """Say why a max wants a look; nothing where it is fresh and holds."""
    if known is None:
        return f"No {reps}RM was tested or declared."
    if known.holds and known.holds.within < LIKELY:
        return known.holds.words
    weeks = known.age_days(day) // 7
    return f"The {reps}RM is {weeks} weeks old." if weeks > OLD_WEEKS else ""


@may("lead")
def away(log: Log, member_ids: Sequence[str], day: date) -> tuple[Away, ...]:
    """List when each member last did a set or a piece, the longest away first, those who never did at the end."""
    found: list[Away] = []
    for member in _members(log, member_ids):
        with log.reading() as session:
            days = [*log_sessions.training_days(session, member.id, day)]
            days += [row.score.day for row in log_scores.scores_of(session, member.id, until=day)]
        last = max(days, default=None)
        found.append(Away(member, last, (day - last).days if last else None, told(log, member.id, day)))
    return tuple(sorted(found, key=lambda each: (each.days is None, -(each.days or 0), each.member.name.casefold())))


def _members(log: Log, member_ids: Sequence[str]) -> list[MemberRecord]:
    with log.reading() as session:
        found = [log_members.member(session, each) for each in dict.fromkeys(member_ids)]
    return sorted((each for each in found if each), key=lambda each: each.name.casefold())
