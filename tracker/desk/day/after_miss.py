"""After a miss: what now? Less, the same again, or enough of this lift; each with its reason, and never a heavier load.

For the rest of the day no set of the lift is offered heavier than what was missed (common practice); a person may still type
it, and is told. What a miss means for the max is the estimate's matter; here it is said in words. Nothing here finds out why
something hurts: with pain the lift ends for the day, and whoever it does not leave is sent to a clinician.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Literal

from tracker.desk.base.roles import may
from tracker.desk.day import step_state
from tracker.desk.day.ceilings import ceilings, ended_on
from tracker.desk.day.lines import PlannedLine, chance_words
from tracker.desk.day.scene import Scene
from tracker.desk.day.today import DayPlan
from tracker.desk.day.today import scene_of as read_scene_of
from tracker.desk.maxes import estimates
from tracker.desk.maxes.words import first_up, load_words
from tracker.desk.people import places
from tracker.desk.people.places import MadeLoad
from tracker.errors import BadInputError
from tracker.log import by_hand
from tracker.log import choices as log_choices
from tracker.log import members as log_members
from tracker.log import sets as log_sets
from tracker.log.records import LiftRecord, MemberRecord, SetRow
from tracker.log.unit_of_work import SORE, Log
from tracker.prescription.lighter import next_lighter
from tracker.prescription.technique import technique
from tracker.strength.outcomes import ordinal
from tracker.units import Mass
from tracker.wording import counted

How = Literal["less", "same", "stop", "hurt", "go on"]
TWICE_DAYS = 28  # two days with a miss within it count in full, as the estimate has it
HARD_SHARE = 0.85  # of the missed load: a set from here on tires; own choice
TIRED_AFTER = 2  # hard sets before it; own choice
PAIN = (
    "It hurt: no more of {lift} today. Pain that is sharp, gets worse or is still there after a few days is for a clinician; "
    "what they and your coach say goes before anything here."
)


@dataclass(frozen=True, slots=True)
class Way:
    """One way to go on: what a touch says, why, and the load it means, with its chance; None where it means no load."""

    how: How
    label: str
    reason: str
    made: MadeLoad | None = None
    chance: float | None = None


@dataclass(frozen=True, slots=True)
class WhatNow:
    """After a missed set that nobody has answered yet: what is to be said of it, and the ways to go on."""

    missed: SetRow
    words: tuple[str, ...]
    ways: tuple[Way, ...]

    @property
    def lift(self) -> LiftRecord:
        return self.missed.lift


@dataclass(frozen=True, slots=True)
class Stopped:
    """A lift that the member ended for the day, and what is to be said of it."""

    lift: LiftRecord
    set_id: str  # after which it was ended; empty where that was before a set of it, or without a word on any
    hurt: bool
    words: str
    step_id: str = ""


@may("see")
def what_now(log: Log, member: MemberRecord, plan: DayPlan) -> WhatNow | None:
    """Say what there is to choose after the newest missed set of a lift; None where nothing was missed, or all is answered."""
    missed = _unanswered(plan)
    if missed is None:
        return None
    scene = read_scene_of(log, member, plan.place, plan.day, {})
    history = estimates.history(log, member.id, missed.lift)
    line = next((each for each in plan.lines if each.open and each.lift.id == missed.lift.id), None)
    return WhatNow(missed, _words(plan, missed, history.sets), tuple(_ways(scene, plan, missed, line, history)))


def _unanswered(plan: DayPlan) -> SetRow | None:
    """Return the newest missed set after which no other set of its lift came, and nothing was chosen; no attempt of a test."""
    tests = {row.id for line in plan.lines for row in line.attempts}
    answered = {each.get("set") for each in plan.choices if each.what == "after a miss"}
    newest = {row.lift.id: row for row in plan.sets}
    open_ = [row for row in newest.values() if row.outcome == "missed" and row.id not in answered | tests]
    return max(open_, key=lambda row: row.position, default=None)


def _words(plan: DayPlan, missed: SetRow, sets: Sequence[SetRow]) -> tuple[str, ...]:
    """Say first what a miss often is (common practice; nobody knows what this one was), then what it counts."""
    hard = hard_before(plan.sets, missed)
    since = plan.day - timedelta(days=TWICE_DAYS)
    earlier = [
        row.day for row in sets if row.outcome == "missed" and row.kind != "ramp" and since <= row.day < plan.day
    ]
    if hard >= TIRED_AFTER:
        first = f"It was the {ordinal(hard + 1)} hard set of the day: so late it is often a tired set."
    elif technique(missed.lift.name):
        first = "In a technique lift it is often the technique; it may be the strength, or a bad day."
    else:
        first = "A miss may be a slip, a bad day, or too much."
    if not earlier:
        return (first, "One miss says little of your max; today may still be a lower day.")
    day = max(earlier)
    return (first, f"The second day with a miss within four weeks ({day.day} {day:%b} before): two count in full.")


def hard_before(sets: Iterable[SetRow], missed: SetRow) -> int:
    """Count the hard sets of the lift before a missed one, on its day."""
    return sum(
        row.lift.id == missed.lift.id and row.position < missed.position and row.kind != "ramp"
        and row.moved_kg >= HARD_SHARE * missed.moved_kg
        for row in sets
    )  # fmt: skip


def _ways(
    scene: Scene, plan: DayPlan, missed: SetRow, line: PlannedLine | None, history: estimates.LiftHistory
) -> Iterable[Way]:
    lift, reps = missed.lift, line.reps if line else max(missed.reps + 1, 1)
    before = hard_before(plan.sets, missed) + 1
    planned = line.made if line is not None and line.made and line.made.load.kg <= missed.load.kg else None
    start = planned.load if planned else missed.load

    def chance(load: Mass) -> float | None:
        moved = history.moved_kg(load, plan.day)
        if history.model is None or moved <= 0:
            return None
        return history.model.chance(moved, reps, day=plan.day, sets_before=before)

    lower = next_lighter(
        start, lambda load: places.next_loads(load, lift, scene.member, scene.place)[0],
        moved_kg=lambda load: history.moved_kg(load, plan.day), chance=chance,
    )  # fmt: skip
    if lower is not None:
        made = places.make_load(lower, lift, scene.member, scene.place) or places.exactly(lower, lower, lift)
        yield Way("less", f"Less: {reps} × {load_words(made.load, lift)}", _reason(made, lift, chance(made.load)), made, chance(made.load))  # fmt: skip
    same = planned or places.make_load(start, lift, scene.member, scene.place)
    if line is not None or planned is None:
        again = "The same again" if start.kg == missed.load.kg else "As planned"
        load = same.load if same and same.load.kg == start.kg else start
        reason = ", ".join(part for part in (_likely(chance(load)), "after a good rest") if part)
        yield Way("same", f"{again}: {reps} × {load_words(load, lift)}", f"{first_up(reason)}.", same, chance(load))
    left = sum(each.open and each.lift.id == lift.id for each in plan.lines)
    asked = f" {left} {'set' if left == 1 else 'sets'} of it left: not asked any more." if left else ""
    yield Way("stop", f"Enough of {lift.name} today", f"A miss is a fair place to stop.{asked}")


def _likely(chance: float | None) -> str:
    """Say a chance for what it is: of all that is known, of which the miss is one set."""
    return f"By all your sets {chance_words(chance)}" if chance is not None else ""


def _reason(made: MadeLoad, lift: LiftRecord, chance: float | None) -> str:
    discs = made.words if lift.implement in ("barbell", "unasked") else ""
    said = ". ".join(first_up(part) for part in (_likely(chance), discs) if part)
    return f"{said}." if said else "The next step down here."


def heavier_words(load: Mass, most: Mass | None) -> str:
    """Say that a load which somebody typed is heavier than what was missed today; empty where it is not."""
    if most is None or load.kg <= most.kg:
        return ""
    return f"That is heavier than {most} after today's miss; nothing here would have offered it."


def stopped(plan: DayPlan) -> tuple[Stopped, ...]:
    """List the lifts of the day that the member has ended, each with a word."""
    lifts = {each.lift.id: each.lift for each in (*plan.sets, *plan.lines)}
    found: list[Stopped] = []
    for lift_id, each in ended_on(plan.choices, plan.day).items():
        if lift := lifts.get(lift_id):
            hurt = each.act_id in plan.sore.hurt
            left = sum(line.lift.id == lift_id and line.done is None for line in plan.lines)
            out = f" Left out: {counted(left, 'set')} of it." if left else ""
            words = PAIN.format(lift=lift.name) if hurt else f"{first_up(lift.name)} is ended for today.{out}"
            found.append(Stopped(lift, each.get("set"), hurt, words, each.get("step")))
    return tuple(found)


WORDS: dict[How, str] = {
    "less": "goes on lighter with {lift}", "same": "goes on with {lift}", "stop": "ended {lift} for the day",
    "hurt": "ended {lift} for the day", "go on": "goes on with {lift}",
}  # fmt: skip


@may("change")
def take(log: Log, member_id: str, set_id: str, how: How, load: Mass | None = None) -> None:
    """Take one way to go on after a set: in the log, so that every page and device says the same.

    That it hurt is said apart, where the member alone reads it: to everybody else the lift was ended for the day.

    Args:
        log: The log.
        member_id: Whose set.
        set_id: The set that was missed, or after which somebody stops.
        how: Which way; `less` with its load.
        load: Nothing heavier than that for the rest of the day.

    Raises:
        BadInputError: if the set is not the member's, or less comes without its load.
    """
    if how == "less" and load is None:
        raise BadInputError("Nothing says how much less.", where="load", mend="Choose a load.")
    with log.act("goes on after a miss", member_id, own=True) as act:
        row = log_sets.one_set(act.session, set_id)
        if row is None or row.removed_at or row.member_id != member_id:
            raise BadInputError("This set is not in the log any more.", where="set", mend="Reload the page.")
        act.words = WORDS[how].format(lift=row.lift.title)
        said = {
            "set": set_id,
            "lift": row.lift.id,
            "how": "stop" if how == "hurt" else how,
            "step": row.member_step_id or "",
        }
        if load is not None:
            said |= {"load": format(load.amount, "f"), "unit": load.unit}
        log_choices.choose(act, member_id, "after a miss", row.day, **said)
        if how == "hurt":
            by_hand.say(act, SORE, member_id, {"hurt": row.id})
        if row.member_step_id and how in ("stop", "hurt"):
            step_state.finish_if_done(act, member_id, row.member_step_id, also=frozenset({row.lift.id}))
        if row.member_step_id and how == "go on":
            step_state.reopen(act, member_id, row.member_step_id, row.lift.id)


@may("change")
def enough(log: Log, member_id: str, step_id: str, lift_id: str, day: date, *, ended: bool = True) -> None:
    """End a lift of a session for the day, after a set or before one, missed or not; or go on with it.

    Raises:
        BadInputError: if the lift is not in the log.
    """
    with log.act("ended a lift for the day", member_id, own=True) as act:
        lift = log_members.lift(act.session, lift_id)
        if lift is None:
            raise BadInputError("This lift is not in the log.", where="lift", mend="Reload the page.")
        how: How = "stop" if ended else "go on"
        act.words = WORDS[how].format(lift=lift.title)
        log_choices.choose(act, member_id, "after a miss", day, set="", lift=lift_id, how=how, step=step_id)
        if ended:
            step_state.finish_if_done(act, member_id, step_id, also=frozenset({lift_id}))
        else:
            step_state.reopen(act, member_id, step_id, lift_id)


@may("see")
def most_today(log: Log, member_id: str, lift_id: str, day: date) -> Mass | None:
    """Return what no set of a lift is offered heavier than for the rest of a day; None where nothing was missed."""
    with log.reading() as session:
        rows = log_sets.sets_of(session, member_id, lift_id=lift_id, since=day, until=day)
        chosen = log_choices.choices(session, member_id) if any(row.outcome == "missed" for row in rows) else ()
    return ceilings(rows, chosen).get(lift_id)
