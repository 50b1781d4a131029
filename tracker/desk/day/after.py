"""After a wave: what may follow for each of its lifts, with the reason; taken only when the member says so."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day.today import scene_of
from tracker.desk.maxes import estimates
from tracker.errors import BadInputError
from tracker.log import members as log_members
from tracker.log import rep_maxes as log_rep_maxes
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord, MemberStepRow, SetRow
from tracker.log.unit_of_work import Act, Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.prescription.next_step import Offer, SetDone, next_steps

LOWER_BODY = ("squat", "deadlift", "lunge", "hip", "leg", "step-up")  # words in a lift's name; common practice
FRESH_DAYS = 21  # so long after its last day a wave still asks what follows; design choice
MOST_CHANGE = Decimal(10)  # per cent up; ACSM 2009 goes from 2 to 10 %


@dataclass(frozen=True, slots=True)
class WaveEnd:
    """A wave that a member has gone through, and what may follow it, by lift."""

    wave_id: str
    wave: str
    last_day: date
    offers: tuple[tuple[LiftRecord, tuple[Offer, ...]], ...]


@may("see")
@cached_until_write
def wave_ends(log: Log, member: MemberRecord, day: date) -> tuple[WaveEnd, ...]:
    """List the waves that a member finished lately and that nobody has gone on from."""
    with log.reading() as session:
        steps = [step for step in log_waves.member_steps(session, member.id) if not step.own]
    found: list[WaveEnd] = []
    for wave_id in dict.fromkeys(step.wave_id for step in steps):
        mine = [step for step in steps if step.wave_id == wave_id]
        last = max(step.due for step in mine)
        lifts = _lifts(mine)
        if lifts and all(step.state != "planned" for step in mine) and 0 <= (day - last).days <= FRESH_DAYS:
            person = scene_of(log, member, None, day, {}).person
            offers = tuple((lift, _offers(log, member, lift, mine, person.days_off, day)) for lift in lifts)
            found.append(WaveEnd(wave_id, mine[0].wave, last, offers))
    return tuple(found)


def _offers(
    log: Log, member: MemberRecord, lift: LiftRecord, steps: list[MemberStepRow], days_off: int | None, day: date
) -> tuple[Offer, ...]:
    sets = estimates.history(log, member.id, lift).sets
    last_week, asked = _last_week(lift, steps, sets)
    with log.reading() as session:
        tested = [row.day for row in log_rep_maxes.rep_maxes(session, member.id, lift.id) if row.source == "tested"]
    return tuple(
        next_steps(
            last_week, left_out=max(asked - len(last_week), 0), lower_body=any(word in lift.name for word in LOWER_BODY),
            days_off=days_off, test_age_days=_test_age(lift, sets, tested, day), nothing_heavy=member.no_heavy,
        )
    )  # fmt: skip


def _lifts(steps: list[MemberStepRow]) -> list[LiftRecord]:
    """List the lifts that come in several sessions of a wave: a single session is none, and asks nothing when it is over."""
    in_each = [{planned.lift.id: planned.lift for planned in step.sets} for step in steps]
    times = Counter(lift_id for lifts in in_each for lift_id in lifts)
    return [
        lift
        for lift_id, lift in {key: lift for lifts in in_each for key, lift in lifts.items()}.items()
        if times[lift_id] > 1
    ]


def _last_week(lift: LiftRecord, steps: list[MemberStepRow], sets: tuple[SetRow, ...]) -> tuple[list[SetDone], int]:
    """List what was done in the last step that has this lift, and say how many sets of it were asked."""
    having = [step for step in steps if any(planned.lift == lift for planned in step.sets)]
    last = max(having, key=lambda step: (step.due, step.position))
    asked = {planned.id: planned.reps for planned in last.sets if not planned.test}  # attempts are no sets of a wave
    number = sum(planned.sets for planned in last.sets if planned.lift == lift and not planned.test)
    return [
        SetDone(
            asked[row.planned_set_id], row.reps, None if row.rir is None else float(row.rir),
            missed=row.outcome == "missed", cut=row.outcome == "cut",
        )
        for row in sets
        if row.member_step_id == last.id and row.planned_set_id in asked and row.lift == lift and row.kind != "ramp"
    ], number  # fmt: skip


def _test_age(lift: LiftRecord, sets: tuple[SetRow, ...], tested: list[date], day: date) -> int | None:
    """Return the days since the newest test: one of the log, or one that the member said was tested elsewhere."""
    tests = [row.day for row in sets if row.lift == lift and row.kind == "test"]
    tests = [each for each in (*tests, *tested) if each <= day]
    return (day - max(tests)).days if tests else None


@may("change")
def go_again(log: Log, member: MemberRecord, wave_id: str, start: date, percent: Decimal = Decimal(0)) -> None:
    """Do the whole wave once more from `start`, all loads changed by `percent` (below zero: easier).

    Raises:
        BadInputError: if the change is more than 10 % up or 50 % down; the log never raises by itself.
    """
    if not percent.is_finite() or not -50 <= percent <= MOST_CHANGE:
        raise BadInputError(f"{percent} % can't be.", where="change", mend="Choose -50 to 10 %.")
    with log.act("goes through the wave again", member.id, own=True) as act:
        _end(act, member, wave_id, start)
        log_waves.start_wave(act, member.id, wave_id, start)
        if percent:
            for step in log_waves.member_steps(act.session, member.id):
                if step.wave_id == wave_id:
                    log_waves.set_ease(act, step.id, -percent)


@may("change")
def go_test(log: Log, member: MemberRecord, wave_id: str, lift: LiftRecord, reps: int, start: date) -> None:
    """Put a test of one lift's nRM into the member's calendar, and end the wave."""
    with log.act(f"plans a test of the {reps}RM of {lift.title}", member.id) as act:
        _end(act, member, wave_id, start)
        name = _free_name(act, f"{reps}RM test, {lift.title}, {start.isoformat()}")
        step = NewStep(f"Find a {reps}RM: {lift.name}", 0, [NewPlannedSet(lift.id, 1, reps, test=True)])
        log_waves.start_wave(act, member.id, log_waves.add_wave(act, name, [step]), start)


@may("change")
def go_home(log: Log, member: MemberRecord, wave_id: str, day: date) -> None:
    """End a wave with nothing to follow."""
    with log.act("ended a wave", member.id, own=True) as act:
        _end(act, member, wave_id, day)


@may("common")
def tested_reps(log: Log, wave_id: str, lift: LiftRecord) -> int:
    """Return which nRM a wave's percentages of a lift refer to; 1 where it says none."""
    with log.reading() as session:
        planned = log_waves.planned_of_wave(session, wave_id)
    return next((row.of_reps for row in planned if row.lift == lift and row.of_reps), 1)


def _end(act: Act, member: MemberRecord, wave_id: str, day: date) -> None:
    if log_members.member(act.session, member.id) is None:
        raise BadInputError("This member is not in the log.", where="member", mend="Choose one from the list.")
    log_waves.end_wave(act, member.id, wave_id, day - timedelta(days=1))


def _free_name(act: Act, name: str) -> str:
    taken = log_waves.titles(act.session)
    return next(text for n in range(1, 1000) if (text := name if n == 1 else f"{name} ({n})") not in taken)
