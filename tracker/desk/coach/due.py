"""Who needs attention: whose coming loads rest on an old, doubtful or missing max, by how much, and who has been away.

Ranked by the load at stake: by how much the heaviest coming set would change if the max were what the estimate says now.
Nobody is urged to test: where a test is held back from a member, that stands beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day.today import scene_of
from tracker.desk.day.told import told
from tracker.desk.maxes import estimates
from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.references import Reference, references
from tracker.desk.people import places
from tracker.log import members as log_members
from tracker.log import scores as log_scores
from tracker.log import sessions as log_sessions
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.log.unit_of_work import Log
from tracker.prescription.rounding import OLD_WEEKS, rounded
from tracker.safety import LAY_OFF_DAYS, HeldBack, held_back
from tracker.strength.holds import LIKELY
from tracker.strength.when_to_test import QUIET_DAYS
from tracker.units import Mass, Unit, plain

COMING_DAYS = 28  # loads of the next four weeks; own choice
USUAL_STEP: dict[Unit, Mass] = {"kg": Mass(Decimal("2.5"), "kg"), "lb": Mass(Decimal(5), "lb")}  # common practice


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
    stake: Mass | None = None  # what the heaviest coming set would change by; None where nobody can tell
    step: Mass | None = None  # the least that the load of this lift can change by, here

    @property
    def below_step(self) -> bool:
        """Whether the change is too small for any load to follow it."""
        return self.stake is not None and self.step is not None and abs(self.stake.kg) < self.step.kg

    @property
    def rank(self) -> tuple[int, Decimal]:
        """No load at all comes first, then the most at stake, then what nobody can tell, at last what no load can follow."""
        if self.known is None:
            return 0, Decimal(0)
        if self.stake is None:
            return 2, Decimal(0)
        return (3 if self.below_step else 1), -abs(self.stake.kg)

    @property
    def much(self) -> str:
        """Say by how much: `+1 kg, below your smallest step (2.5 kg): leave it`."""
        if self.known is None:
            return "loads by feel"
        if self.stake is None:
            return "by how much can't be told"
        if self.stake.amount == 0:
            return "no change: leave it"
        change = f"{'+' if self.stake.amount > 0 else '−'}{plain(abs(self.stake.amount))} {self.stake.unit}"
        return f"{change}, below your smallest step ({self.step}): leave it" if self.below_step else change


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
    """List the maxes that coming loads refer to and that are missing, doubtful or older than twelve weeks.

    What has the most load at stake comes first. For three weeks after a test of a lift nothing is said of its maxes.
    """
    found = [entry for member in _members(log, member_ids) for entry in _of_member(log, member, day)]
    return tuple(sorted(found, key=lambda each: (*each.rank, each.member.name.casefold())))


def _of_member(log: Log, member: MemberRecord, day: date) -> Iterator[DueTest]:
    with log.reading() as session:
        steps = log_waves.member_steps(session, member.id)
    coming = [step for step in steps if step.state == "planned" and step.due <= day + timedelta(days=COMING_DAYS)]
    wanted = dict.fromkeys((line.lift, line.of_reps) for step in coming for line in step.sets if line.of_reps)
    if not wanted:
        return
    scene = scene_of(log, member, None, day, {})
    for lift, reps in wanted:
        history = estimates.history(log, member.id, lift)
        options = references(history, reps, day, member.unit)
        known = next((each for each in options if each.source != "estimated"), None)
        why = _why(known, reps, day)
        if why and not (known and _tested_lately(history, day)):
            settle = known.holds.settle if known and known.holds else ""
            now = next((each for each in options if each.source == "estimated"), None)
            most = max(
                line.percent or Decimal(0)
                for step in coming
                for line in step.sets
                if (line.lift, line.of_reps) == (lift, reps)
            )
            stake = _stake(history, known, now, most / 100, day, member.unit)
            held = held_back(scene.person, test=True)
            yield DueTest(member, lift, reps, known, why, settle, held, stake, _step(lift, member, scene.place))


def _tested_lately(history: LiftHistory, day: date) -> bool:
    """Whether the lift was tested within three weeks: a coach who has just seen a test needs no word about it."""
    tests = [row.day for row in history.sets if row.kind == "test" and row.outcome == "done"]
    tests += [row.day for row in history.rep_maxes if row.source == "tested"]
    return any(0 <= (day - each).days <= QUIET_DAYS for each in tests)


def _stake(
    history: LiftHistory, known: Reference | None, now: Reference | None, share: Decimal, day: date, unit: Unit
) -> Mass | None:
    """By how much the heaviest coming set would change, to the half kilogram: finer than that no max is known."""
    if known is None or now is None or not share:
        return None
    before, after = (history.share(Mass(each.load.to(unit), unit), share, day) for each in (known, now))
    return rounded(Mass(after.amount - before.amount, unit))


def _step(lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> Mass:
    """The least that a load can change by: a pair of the smallest discs, else what is usual for what is held in the hand."""
    kit = places.bar_kit(member, place) if lift.implement == "barbell" else None
    discs = [disc.mass for disc in kit.discs if disc.pairs != 0] if kit else []
    if discs:
        least = min(discs, key=lambda mass: mass.kg)
        return Mass(2 * least.amount, least.unit)
    return USUAL_STEP[member.unit]


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
