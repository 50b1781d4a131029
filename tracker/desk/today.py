"""Today's session: what the wave asks, with loads that the place can make, and what is done already."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from tracker.desk import estimates, places
from tracker.desk.places import MadeLoad
from tracker.desk.references import STALE_DAYS, Reference, references, shown_load
from tracker.errors import BadInputError
from tracker.log import members as log_members
from tracker.log import sets as log_sets
from tracker.log import waves as log_waves
from tracker.log.keeper import Log
from tracker.log.records import LiftRecord, MemberRecord, MemberStepRow, PlaceRecord, PlannedSetRow, SessionRow, SetRow
from tracker.prescription.plates import Rounding
from tracker.units import Mass

LAY_OFF_DAYS = 14  # from here on a lower start and no test; the product's own rule, after Caterisano et al. 2019
LESS_LIKELY, UNLIKELY = 0.90, 0.60  # a word below the first, a stronger one below the second; design choice


@dataclass(frozen=True, slots=True)
class PlannedLine:
    """One set to be done: what the coach asks, what it weighs here, how likely it is, and whether it is done."""

    step_id: str  # the member's step
    planned: PlannedSetRow
    number: int  # which of the planned sets, 1-based
    reference: Reference | None
    options: tuple[Reference, ...]
    made: MadeLoad | None
    percent: float | None  # what the made load really is of the reference
    chance: float | None
    notes: tuple[str, ...]
    done: SetRow | None

    @property
    def lift(self) -> LiftRecord:
        return self.planned.lift

    @property
    def key(self) -> str:
        """A name for this line that stays the same from one reading to the next."""
        return f"{self.step_id}-{self.planned.id}-{self.number}"


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
    days_off: int | None  # days since the last session before today, None where there is none

    @property
    def next_line(self) -> PlannedLine | None:
        return next((line for line in self.lines if line.done is None), None)


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
    earlier = [each.day for each in sessions if each.day < day]
    days_off = (day - earlier[0]).days if earlier else None
    lines = _lines(log, member, place, step, todays, day, prefer or {}, days_off) if step else ()
    return DayPlan(
        member,
        day,
        place,
        step,
        lines,
        todays,
        next((each for each in sessions if each.day == day), None),
        ahead,
        days_off,
    )


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


def _lines(
    log: Log,
    member: MemberRecord,
    place: PlaceRecord | None,
    step: MemberStepRow,
    todays: tuple[SetRow, ...],
    day: date,
    prefer: Mapping[str, str],
    days_off: int | None,
) -> tuple[PlannedLine, ...]:
    done = {(row.planned_set_id, row.planned_round): row for row in todays if row.member_step_id == step.id}
    histories: dict[str, estimates.LiftHistory] = {}
    lines = []
    before: dict[str, int] = {}
    for planned in step.sets:
        history = histories.setdefault(planned.lift.id, estimates.history(log, member.id, planned.lift))
        options = references(history, planned.of_reps, day, member.unit) if planned.of_reps else ()
        chosen = next(
            (option for option in options if option.source == prefer.get(planned.lift.id)),
            options[0] if options else None,
        )
        made, percent, notes = _weigh(planned, chosen, member, place, step, day, days_off)
        for number in range(1, planned.sets + 1):
            chance = None
            if made and history.model is not None and not planned.test:
                chance = history.model.chance(
                    history.moved_kg(made.load, day), planned.reps, day=day, sets_before=before.get(planned.lift.id, 0)
                )
            lines.append(
                PlannedLine(
                    step.id,
                    planned,
                    number,
                    chosen,
                    options,
                    made,
                    percent,
                    chance,
                    notes,
                    done.get((planned.id, number)),
                )
            )
            before[planned.lift.id] = before.get(planned.lift.id, 0) + 1
    return tuple(lines)


def _weigh(
    planned: PlannedSetRow,
    chosen: Reference | None,
    member: MemberRecord,
    place: PlaceRecord | None,
    step: MemberStepRow,
    day: date,
    days_off: int | None,
) -> tuple[MadeLoad | None, float | None, tuple[str, ...]]:
    if chosen is None or planned.percent is None:
        return None, None, ()
    share = planned.percent / 100 * (1 - (step.ease or Decimal(0)) / 100)
    target = Mass(chosen.load.amount * share, chosen.load.unit)
    made = places.make_load(target, planned.lift, member, place, rounding_for(chosen, member, day, days_off))
    if made is None:
        return (
            None,
            None,
            (f"Nothing here for {planned.lift.title}. Ask your coach for another way, or change the place.",),
        )
    notes = [made.note] if made.note else []
    percent = float(made.load.kg / chosen.load.kg * 100) if chosen.load.kg > 0 else None
    asked = float(share * 100)
    if percent is not None and abs(percent / asked - 1) > 0.03 and not made.note:
        notes.append(f"Rounding changes {asked:.0f} % to {percent:.0f} %.")
    return made, percent, tuple(notes)


def rounding_for(reference: Reference, member: MemberRecord, day: date, days_off: int | None) -> Rounding:
    """Round down when the max is estimated, old, after a lay-off or alone; else to the nearest. Common practice."""
    careful = (
        reference.source != "tested"
        or reference.age_days(day) > STALE_DAYS
        or member.alone
        or (days_off or 0) >= LAY_OFF_DAYS
    )
    return "down" if careful else "nearest"


def chance_words(chance: float | None) -> str:
    """Say how likely a set is, with a plain word where it is less than 90 % likely and a stronger one under 60 %."""
    if chance is None:
        return ""
    percent = f"{min(max(round(chance * 100), 1), 99)} %"
    if chance < UNLIKELY:
        return f"{percent} likely: probably too heavy today"
    return f"{percent} likely: may not go up" if chance < LESS_LIKELY else f"{percent} likely"


def postpone(log: Log, member_id: str, step: MemberStepRow, days: int = 1) -> None:
    """Move a step, and the planned ones after it, `days` on from today or from its own day."""
    due = max(step.due, date.today()) + timedelta(days=days)
    with log.act(f"postponed {step.title} to {due.isoformat()}", member_id) as act:
        log_waves.postpone(act, step.id, due)


def skip(log: Log, member_id: str, step: MemberStepRow) -> None:
    """Leave a step out."""
    with log.act(f"skipped {step.title}", member_id) as act:
        log_waves.set_state(act, step.id, "skipped")


def finish(log: Log, member_id: str, step: MemberStepRow) -> None:
    """Call a step done, with whatever was done of it."""
    with log.act(f"finished {step.title}", member_id) as act:
        log_waves.set_state(act, step.id, "done")


def repeat(log: Log, member_id: str, step: MemberStepRow, due: date) -> None:
    """Do a step once more on `due`."""
    with log.act(f"repeats {step.title} on {due.isoformat()}", member_id) as act:
        log_waves.repeat(act, step.id, due)


def ease_off(log: Log, member_id: str, step: MemberStepRow, percent: Decimal | None) -> None:
    """Take some percent off all loads of a step, or take that back."""
    if percent is not None and not 0 < percent <= 50:
        raise BadInputError(f"{percent} % off can't be.", where="ease off", mend="Choose 1 to 50 %.")
    with log.act(f"eased off {step.title}" if percent else f"full loads again in {step.title}", member_id) as act:
        log_waves.set_ease(act, step.id, percent)


def steps(log: Log, member_id: str) -> tuple[MemberStepRow, ...]:
    """List the member's steps of waves that go on."""
    with log.reading() as session:
        return log_waves.member_steps(session, member_id)


__all__ = ["DayPlan", "PlannedLine", "day_plan", "shown_load"]
