"""Today's session: what the wave asks, with loads that the place can make, and what is done already."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, timedelta
from decimal import Decimal
from itertools import pairwise

from tracker.conditioning.load import days_off_before
from tracker.desk import places
from tracker.desk.lines import PlannedLine, Scene, chance_words, lines_of, made_in, ramp_of
from tracker.desk.roles import may
from tracker.desk.unchanged import while_unchanged
from tracker.errors import BadInputError
from tracker.log import members as log_members
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.keeper import Log
from tracker.log.records import MemberRecord, MemberStepRow, PlaceRecord, SessionRow, SetRow
from tracker.prescription.ramp import RampSet
from tracker.prescription.rounding import LAY_OFF_DAYS, LayOff, lay_off
from tracker.safety import Person

NO_LAY_OFF = LayOff(False, False, False)


@dataclass(frozen=True, slots=True)
class DayPlan:
    """A member's day."""

    member: MemberRecord
    day: date
    place: PlaceRecord | None
    step: MemberStepRow | None
    lines: tuple[PlannedLine, ...]
    sets: tuple[SetRow, ...]  # all of the day, planned or not
    session: SessionRow | None
    ahead: MemberStepRow | None  # the step after this one
    person: Person  # what the days of training so far mean for care
    ramp: tuple[RampSet, ...] = ()  # up to the first working set
    lay_off: LayOff = NO_LAY_OFF

    @property
    def days_off(self) -> int | None:
        """Whole days without a session just before the day; None where there was never one."""
        return self.person.days_off

    @property
    def next_line(self) -> PlannedLine | None:
        return next((line for line in self.lines if line.done is None), None)


@may("see")
@while_unchanged
def day_plan(log: Log, member_id: str, day: date, *, prefer: Mapping[str, str] | None = None) -> DayPlan:
    """Read a member's day.

    Args:
        log: The log.
        member_id: Whose day.
        day: Which day.
        prefer: For a lift's id, which source its reference max is taken from (tested, declared, estimated) where the
            member chose another one than the first.

    Raises:
        BadInputError: if there is no such member.
    """
    with log.reading() as session:
        member = log_members.member(session, member_id)
        if member is None:
            raise BadInputError("This member is not in the log.", where="member", mend="Choose one from the list.")
        steps = log_waves.member_steps(session, member_id)
        todays = log_sets.sets_of(session, member_id, since=day, until=day)
        sessions = log_sets.sessions_of(session, member_id, limit=2, until=day)
    place = places.place_of(log, member)
    step, ahead = _step_of(steps, todays, day)
    scene = scene_of(log, member, place, day, prefer or {})
    lines = lines_of(scene, step, todays) if step else ()
    return DayPlan(
        member,
        day,
        place,
        step,
        lines,
        todays,
        next((each for each in sessions if each.day == day), None),
        ahead,
        scene.person,
        ramp_of(scene, lines),
        lay_off(scene.person.days_off),
    )


@may("see")
@while_unchanged
def made_by(
    log: Log, member_id: str, day: date, key: str, source: str, *, prefer: Mapping[str, str]
) -> places.MadeLoad | None:
    """Work out what one line of a day, named by its key, would be loaded with by the max of another source.

    Returns:
        None where the kit makes no such load, or the day has no such line.
    """
    plan = day_plan(log, member_id, day, prefer=prefer)
    line = next((each for each in plan.lines if each.key == key), None)
    if plan.step is None or line is None:
        return None
    scene = Scene(log, plan.member, plan.place, day, plan.person, {**prefer, line.lift.id: source})
    return made_in(scene, plan.step, line)


def _step_of(
    steps: tuple[MemberStepRow, ...], todays: tuple[SetRow, ...], day: date
) -> tuple[MemberStepRow | None, MemberStepRow | None]:
    """Choose the step that is on: one begun today, else the first planned one that is due, else none."""
    begun = {row.member_step_id for row in todays}
    planned = [step for step in steps if step.state == "planned"]
    now = next((step for step in steps if step.id in begun), None) or next(
        (step for step in planned if step.due <= day), None
    )
    later = [step for step in planned if step is not now and (now is None or step.due >= now.due)]
    return now, later[0] if later else None


@may("see")
def scene_of(log: Log, member: MemberRecord, place: PlaceRecord | None, day: date, prefer: Mapping[str, str]) -> Scene:
    """Put together who trains where, and what the days of training so far mean for care."""
    with log.reading() as session:
        days = log_sets.training_days(session, member.id, day)
    return Scene(log, member, place, day, _person(member, days, day), prefer)


def _person(member: MemberRecord, days: tuple[date, ...], day: date) -> Person:
    breaks = [after for before, after in pairwise(days) if (after - before).days > LAY_OFF_DAYS]
    return Person(
        days_off=days_off_before(days, day),
        days_since_first=(day - days[0]).days if days else None,
        days_back=(day - breaks[-1]).days if breaks else None,
        minor=member.minor,
        nothing_heavy=member.no_heavy,
    )


@may("change")
def postpone(
    log: Log, member_id: str, step: MemberStepRow, days: int = 1, *, today: date | None = None
) -> MemberStepRow:
    """Move a step, and the planned ones after it, `days` on from the reader's `today` or from its own day.

    Returns:
        The step, with its new day.
    """
    due = max(step.due, today or date.today()) + timedelta(days=days)
    with log.act(f"postponed {step.title} to {due.isoformat()}", member_id, own=True) as act:
        log_waves.postpone(act, step.id, due)
    return replace(step, due=due)


@may("change")
def begin_now(log: Log, member_id: str, step: MemberStepRow, day: date) -> None:
    """Bring a step forward to `day`; those after it stay where they are."""
    with log.act(f"brought {step.title} forward to {day.isoformat()}", member_id, own=True) as act:
        log_waves.postpone(act, step.id, day)


@may("change")
def skip(log: Log, member_id: str, step: MemberStepRow) -> None:
    """Leave a step out."""
    with log.act(f"skipped {step.title}", member_id, own=True) as act:
        log_waves.set_state(act, step.id, "skipped")


@may("change")
def finish(log: Log, member_id: str, step: MemberStepRow) -> None:
    """Call a step done, with whatever was done of it."""
    with log.act(f"finished {step.title}", member_id, own=True) as act:
        log_waves.set_state(act, step.id, "done")


@may("change")
def repeat(log: Log, member_id: str, step: MemberStepRow, due: date) -> None:
    """Do a step once more on `due`."""
    with log.act(f"repeats {step.title} on {due.isoformat()}", member_id, own=True) as act:
        log_waves.repeat(act, step.id, due)


@may("change")
def ease_off(log: Log, member_id: str, step: MemberStepRow, percent: Decimal | None) -> None:
    """Take some percent off all loads of a step, or take that back."""
    if percent is not None and not (percent.is_finite() and 0 < percent <= 50):
        raise BadInputError(f"{percent} % off can't be.", where="ease off", mend="Choose 1 to 50 %.")
    with log.act(
        f"eased off {step.title}" if percent else f"full loads again in {step.title}", member_id, own=True
    ) as act:
        log_waves.set_ease(act, step.id, percent)


@may("see")
def steps(log: Log, member_id: str) -> tuple[MemberStepRow, ...]:
    """List the member's steps of waves that go on."""
    with log.reading() as session:
        return log_waves.member_steps(session, member_id)


__all__ = ["DayPlan", "PlannedLine", "Scene", "chance_words", "day_plan", "scene_of"]
