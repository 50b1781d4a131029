"""When a test of a lift's nRM would pay: what it would tell, what hangs on it, how fresh one is; and when it would not.

Nobody is urged to test. What the log does not offer now (the member's own switch, days away, under 18, illness, pain) stands
in place of it, and a coach's word goes first.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day import sore
from tracker.desk.day.scene import Scene, read_scene, with_sore
from tracker.desk.maxes import estimates, little
from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.words import full_day
from tracker.desk.people import places
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.unit_of_work import Log
from tracker.prescription import illness
from tracker.safety import held_back
from tracker.strength.records import Band
from tracker.strength.when_to_test import WouldTell, quiet_until, would_tell
from tracker.units import Mass, Unit, from_kg, short
from tracker.wording import counted

COMING_DAYS = 28  # sessions of the next four weeks; own choice
FRESH_DAYS = 2  # without training before a test; common practice
USUAL_STEP: dict[Unit, Mass] = {"kg": Mass(Decimal("2.5"), "kg"), "lb": Mass(Decimal(5), "lb")}  # common practice
INSTEAD = "Two hard sets with what was left written down tell some of it too, and want no test."
COACH = "Your coach's word goes first."


@dataclass(frozen=True, slots=True)
class DayToTest:
    """One day to come: what is believed of the nRM then without a test, and the band's width and the move by one."""

    day: date
    without: Band
    width: float
    moves: float


@dataclass(frozen=True, slots=True)
class WhenToTest:
    """What is said in one line, why, and the days that were looked at; `pays` is the first on which a test would pay."""

    words: str
    why: tuple[str, ...] = ()
    days: tuple[DayToTest, ...] = ()
    pays: date | None = None


@may("see")
@cached_until_write
def when_to_test(log: Log, member: MemberRecord, lift: LiftRecord, *, reps: int, unit: Unit, day: date) -> WhenToTest:
    """Say when a test of the nRM would pay in the coming twelve weeks, and why, or why not."""
    hurts = sore.state(log, member.id)
    with log.reading() as session:
        scene = with_sore(read_scene(session, log.name, member, places.read_place(session, member, day), day), hurts)
        steps = log_waves.member_steps(session, member.id)
    history = estimates.history(log, member.id, lift)
    if why := _not_now(scene, history, lift, day):
        return WhenToTest(why)
    until = quiet_until(_tests(history), day)
    if until is not None:
        return WhenToTest(f"Tested lately: no word of a test before {full_day(until)}.")
    assert history.model is not None
    step = _step(history, lift, scene, reps, day)
    found = would_tell(history.model, reps, float(step.kg), day)
    days = tuple(_in_unit(each, history, day, unit) for each in found)
    pays = next((shown for shown, each in zip(days, found, strict=True) if each.moves >= float(step.kg)), None)
    coming = day + timedelta(days=COMING_DAYS)
    hanging = sum(
        line.sets
        for each in steps
        if each.state == "planned" and each.due <= coming
        for line in each.sets
        if line.of_reps == reps and (line.of_lift or line.lift).id == lift.id
    )
    return WhenToTest(
        _words(pays, days, step, reps, day),
        _why(pays or days[-1], hanging, reps, scene, history.model.last_day, unit),
        days,
        pays and pays.day,
    )


def _not_now(scene: Scene, history: LiftHistory, lift: LiftRecord, day: date) -> str:
    """Say why no test is spoken of at all; empty where one may be."""
    if scene.sore.ill:
        return illness.OFFERED
    if scene.sore.is_painful(lift.name):
        return f"{lift.name} was marked as painful: no test of it."
    if held := held_back(scene.person, test=True):
        return held.text
    if scene.back is not None:
        return "On the way back: build up first, and ask your coach when a test is due."
    if history.model is None or history.model.days[0].day > day or little.rests_on_little(history, day):
        return little.TREND
    return ""


def _tests(history: LiftHistory) -> list[date]:
    made = [row.day for row in history.sets if row.kind == "test" and row.outcome == "done"]
    return made + [row.day for row in history.rep_maxes if row.source == "tested"]


def _step(history: LiftHistory, lift: LiftRecord, scene: Scene, reps: int, day: date) -> Mass:
    """Return by what the load near the nRM can be changed at least, with the kit that stands here."""
    assert history.model is not None
    band = history.bar(history.model.estimate(day).rep_max[reps], day, scene.member.unit)
    near = Mass(Decimal(repr(round(band.estimate, 3))), scene.member.unit)
    made = places.make_load(near, lift, scene.member, scene.place)
    if made is None:
        return USUAL_STEP[scene.member.unit]
    lighter, heavier = places.next_loads(made.load, lift, scene.member, scene.place)
    other = heavier or lighter
    if other is None or other.unit != made.load.unit or other.amount == made.load.amount:
        return USUAL_STEP[scene.member.unit]
    return Mass(abs(other.amount - made.load.amount), other.unit)


def _in_unit(each: WouldTell, history: LiftHistory, day: date, unit: Unit) -> DayToTest:
    return DayToTest(
        each.day, history.bar(each.without, day, unit), from_kg(each.width, unit), from_kg(each.moves, unit)
    )


def _words(pays: DayToTest | None, days: tuple[DayToTest, ...], step: Mass, reps: int, day: date) -> str:
    if pays is None:
        return (
            f"No test of the {reps}RM would pay up to {full_day(days[-1].day)}: it would move the estimate by less than your "
            f"smallest step ({short(step)})."
        )
    when = "now" if pays.day == day else f"from about {full_day(pays.day)} on"
    return f"A test of the {reps}RM would pay {when}: it would move the estimate by more than your smallest step ({short(step)})."


def _why(at: DayToTest, hanging: int, reps: int, scene: Scene, newest: date, unit: Unit) -> tuple[str, ...]:
    day = scene.day
    wide = at.without.high80 - at.without.low80
    lines = [
        (
            f"On {full_day(at.day)} the {reps}RM would be known to a band of {_said(wide, unit)} without a test, and of about "
            f"{_said(at.width, unit)} after one; the estimate would go up or down by some {_said(at.moves, unit)}."
        ),
        f"{counted(hanging, 'set')} of the next four weeks {'is' if hanging == 1 else 'are'} asked as a part of it."
        if hanging
        else "No set of the next four weeks is asked as a part of it, so nothing waits for a test.",
    ]
    last = max((each for each in (*scene.trained, newest) if each <= day), default=None)
    if last is not None and (day - last).days < FRESH_DAYS:
        when = "today" if last == day else "yesterday"
        lines.append(f"You trained {when}: a test is for a day after two without (common practice).")
    return (*lines, INSTEAD, COACH)


def _said(amount: float, unit: Unit) -> str:
    """Write a width to the half kilogram or the pound."""
    return f"{round(amount * 2) / 2:g} kg" if unit == "kg" else f"{round(amount):d} lb"
