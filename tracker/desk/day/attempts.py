"""A test of a max: attempts one after the other, each in the log as what it was, until the member ends it.

The heaviest attempt that was made is the test; those made before it said "at least this" and no more, so they are sets.
A missed one says exactly how far it went, so it stays a test. Attempts are numbered behind the planned set (whose one
round is the end of the test), so that a test is over when somebody says so and not before.

Before the first one the member is asked about safety arms or a spotter, where the lift wants them. That is a question and
clears nobody; without either no load is proposed.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Literal

from tracker.desk.base.roles import may
from tracker.desk.day.lines import PlannedLine, chance_words
from tracker.desk.day.step_state import finish_if_done
from tracker.desk.day.today import DayPlan
from tracker.desk.day.usual import usual_set
from tracker.desk.maxes import estimates
from tracker.desk.maxes.words import load_words
from tracker.desk.people import places
from tracker.desk.people.people import body_mass_on
from tracker.desk.people.places import MadeLoad
from tracker.errors import BadInputError
from tracker.log import choices as log_choices
from tracker.log import sets as log_sets
from tracker.log.records import MemberRecord, PlaceRecord, SetRow
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.prescription.attempts import MISSES, Ladder, after_made, after_missed, first_attempt
from tracker.prescription.rounding import RoundingChoice
from tracker.safety import spotting_of
from tracker.strength.records import REP_MAXES
from tracker.units import Mass

Safety = Literal["arms", "spotter", "neither"]
Step = Callable[[Mass], Mass | None]
Tried = tuple[Mass | None, Mass | None]
MOST_ATTEMPTS, MOST_AHEAD = 6, 30  # how far attempts are proposed beforehand; a choice of ours
SAFETY: dict[Safety, str] = {"arms": "Safety arms", "spotter": "A spotter", "neither": "Neither"}
ASK_SAFETY = "Safety arms or a spotter? Asked before each test of a lift under a bar; the answer clears nobody."
SAFETY_SAID: dict[Safety, str] = {
    "arms": "Safety arms: just below the lowest point of the bar; let somebody check them (common practice).",
    "spotter": "A spotter: agree on the count and on the sign to take the bar (common practice).",
    "neither": "Without either no attempt is proposed. Set the arms, ask somebody, or leave the test for another day; your coach decides.",
}
REST_S = 180  # between attempts where the coach gave none: three minutes or more; common practice
_WITHIN = re.compile(r"\bwithin (\d{1,3}):(\d\d)\b")


@dataclass(frozen=True, slots=True)
class NextAttempt:
    """The next attempt of a test, as a page shows it.

    `new` is what a touch on Made logs; `made` its load with discs, None where none is proposed. `clock_s` is the coach's
    time for the test, `started` when it was begun.
    """

    number: int
    new: NewSet
    made: MadeLoad | None
    chance: float | None
    words: tuple[str, ...]
    ask_safety: bool
    safety: Safety | None
    misses: int
    rest_s: int
    clock_s: int | None = None
    started: datetime | None = None
    guessed: bool = False  # the load of `new` is only what a lift of its kind begins with

    @property
    def end_is_due(self) -> bool:
        """Whether it is time to offer the end of the test; the member decides."""
        return self.misses >= MISSES


@may("see")
def next_attempt(log: Log, member: MemberRecord, plan: DayPlan, line: PlannedLine) -> NextAttempt:
    """Propose the next attempt of a test, from the estimate; without one from what was lifted last."""
    start = usual_set(log, plan.member, line.lift, plan.place, plan.day)
    return _next(estimates.history(log, member.id, line.lift), plan, line, start)


def _next(history: estimates.LiftHistory, plan: DayPlan, line: PlannedLine, usual: tuple[NewSet, bool]) -> NextAttempt:
    answer = safety_of(plan, line)
    may_be_proposed = line.held is None and answer != "neither"
    ladder, about = _ladder(history, plan, line), _about(history, plan, line)
    start, known = usual
    new = as_attempt(line, plan.member, plan.place, start.load, about, ladder)
    may_be_proposed &= known or about is not None or bool(line.attempts)  # what its kind begins with is no proposal
    made = places.make_load(new.load, line.lift, plan.member, plan.place, RoundingChoice("down"))
    if made is not None and (line.attempts and misses(line)) and made.load.kg > min(row.load.kg for row in line.attempts if row.outcome == "missed"):  # fmt: skip
        made = None
    if made is not None and may_be_proposed:
        new = replace(new, load=made.load)
    chance = ladder.chance(new.load) if may_be_proposed else None
    started = next((each.at for each in _said(plan, line, "clock of a test")), None)
    return NextAttempt(
        len(line.attempts) + 1, new, made if may_be_proposed else None, chance, _words(line, answer, chance),
        asks_safety(plan, line), answer, misses(line),
        line.planned.rest_s or REST_S, within_s(line), started,
        not (known or about is not None or bool(line.attempts)),
    )  # fmt: skip


@may("see")
def attempts_ahead(log: Log, member: MemberRecord, plan: DayPlan, line: PlannedLine) -> dict[Tried, NextAttempt]:
    """Propose the next attempts beforehand, for whoever tries without reaching the log.

    Returns:
        The next attempt by what was tried by then: the heaviest load that was made and the lightest that was missed (or the
        last one, where it was lighter still). Whoever loads otherwise than proposed finds nothing.
    """
    found: dict[Tried, NextAttempt] = {}
    history = estimates.history(log, member.id, line.lift)
    usual = usual_set(log, plan.member, line.lift, plan.place, plan.day)
    waiting = [line]
    while waiting and len(found) < MOST_AHEAD:
        tried = waiting.pop(0)
        if _tried_so_far(tried) in found or len(tried.attempts) >= MOST_ATTEMPTS:
            continue
        then = history.supposing(_settled(tried)) if tried is not line else history
        at = found[_tried_so_far(tried)] = _next(then, plan, tried, usual)
        waiting += [_tried(tried, plan, history, at.new, made=made) for made in (True, False)]
    return found


def _tried_so_far(line: PlannedLine) -> Tried:
    """Return what the next attempt follows from: the heaviest load that was made, and the lightest after a miss."""
    made = max((row.load for row in line.attempts if row.outcome == "done"), key=lambda load: load.kg, default=None)
    missed = [row.load for row in line.attempts if row.outcome == "missed"]
    return made, min(*missed, line.attempts[-1].load, key=lambda load: load.kg) if missed else None


def _settled(line: PlannedLine) -> list[SetRow]:
    """Say of the attempts of a test which of them is it, as the log will: see `log.sets.settle_attempts`."""
    made = [row for row in line.attempts if row.outcome == "done"]
    best = max(made, key=lambda row: (row.moved_kg, -row.position), default=None)
    return [replace(row, kind="test" if row is best or row.outcome == "missed" else "work") for row in line.attempts]


def _tried(line: PlannedLine, plan: DayPlan, history: estimates.LiftHistory, new: NewSet, *, made: bool) -> PlannedLine:
    """Return a test as it will stand once an attempt was made or missed."""
    at, after = datetime.now(UTC), len(line.attempts)
    body = body_mass_on(history.body_masses, plan.day) if line.lift.body else None
    row = SetRow(
        f"ahead {after}", plan.member.id, "", plan.day, line.lift, after, "test", new.load, new.reps if made else 0, None,
        "done" if made else "missed", body, None, "", line.planned.id, new.planned_round, line.step_id, at, None,
    )  # fmt: skip
    return replace(line, attempts=(*line.attempts, row))


def as_attempt(
    line: PlannedLine,
    member: MemberRecord,
    place: PlaceRecord | None,
    usual: Mass,
    about: Mass | None = None,
    ladder: Ladder | None = None,
) -> NewSet:
    """Make the next attempt of a test, with the load that is proposed; `about` is what is believed of the max."""
    ladder = ladder or Ladder(
        _lower(line, member, place), _higher(line, member, place), lambda load: float(load.kg), lambda _: None
    )
    made = [row.load for row in line.attempts if row.outcome == "done"]
    missed = [row.load for row in line.attempts if row.outcome == "missed"]
    best = max(made, key=lambda load: load.kg, default=None)
    if missed:
        load = after_missed(min(*missed, line.attempts[-1].load, key=lambda each: each.kg), best, ladder)
    elif best is not None:
        load = after_made(best, ladder)
    else:
        load = first_attempt(about, ladder) if about else usual
    if line.most is not None and load.kg > line.most.kg:
        load = line.most
    return NewSet(
        line.lift.id, load, line.planned.reps, kind="test", planned_set_id=line.planned.id,
        planned_round=line.planned.sets + len(line.attempts) + 1, member_step_id=line.step_id,
    )  # fmt: skip


def _lower(line: PlannedLine, member: MemberRecord, place: PlaceRecord | None) -> Step:
    return lambda load: places.next_loads(load, line.lift, member, place)[0]


def _higher(line: PlannedLine, member: MemberRecord, place: PlaceRecord | None) -> Step:
    return lambda load: places.next_loads(load, line.lift, member, place)[1]


def _ladder(history: estimates.LiftHistory, plan: DayPlan, line: PlannedLine) -> Ladder:
    def chance(load: Mass) -> float | None:
        moved = history.moved_kg(load, plan.day)
        if history.model is None or moved <= 0:
            return None
        return history.model.chance(moved, line.planned.reps, day=plan.day)

    lower, higher = _lower(line, plan.member, plan.place), _higher(line, plan.member, plan.place)
    return Ladder(lower, higher, lambda load: history.moved_kg(load, plan.day), chance)


def _about(history: estimates.LiftHistory, plan: DayPlan, line: PlannedLine) -> Mass | None:
    """Return what is believed of the max that is tested, as a load that can be made; None where nothing is."""
    if history.model is None or line.planned.reps not in REP_MAXES:
        return None
    unit = plan.member.unit
    band = history.bar(history.model.estimate(plan.day).rep_max[line.planned.reps], plan.day, unit)
    target = Mass(Decimal(repr(round(band.estimate, 3))), unit)
    if target.amount <= 0 and not line.lift.body:
        return None
    made = places.make_load(target, line.lift, plan.member, plan.place, RoundingChoice("down"))
    return made.load if made else None


def _words(line: PlannedLine, answer: Safety | None, chance: float | None) -> tuple[str, ...]:
    said = [SAFETY_SAID[answer]] if answer else []
    if words := miss_words(line):
        said.append(words)
    if chance is not None:
        said.append(f"By all your sets {chance_words(chance).partition(':')[0]}.")
    return tuple(said)


def _said(plan: DayPlan, line: PlannedLine, what: log_choices.What) -> list[log_choices.Choice]:
    wanted = (what, plan.day, line.planned.id, line.step_id)
    return [each for each in plan.choices if (each.what, each.day, each.get("planned"), each.get("step")) == wanted]


def asks_safety(plan: DayPlan, line: PlannedLine) -> bool:
    """Whether safety arms or a spotter are to be asked about now: before the first attempt of a lift that wants them."""
    spotted = spotting_of(line.lift.name, line.lift.implement) == "spot"
    return spotted and safety_of(plan, line) is None and not line.attempts and line.held is None


def safety_of(plan: DayPlan, line: PlannedLine) -> Safety | None:
    """Return what was answered before a test about safety arms and a spotter; None where nothing was."""
    answer = next((each.get("answer") for each in _said(plan, line, "safety of a test")), "")
    return next((each for each in SAFETY if each == answer), None)


def within_s(line: PlannedLine) -> int | None:
    """Return the coach's time for a test in seconds, read from the words that the sheet keeps of it: `within 20:00`."""
    found = _WITHIN.search(line.planned.own_words)
    return int(found[1]) * 60 + int(found[2]) if found else None


def misses(line: PlannedLine) -> int:
    """Count the attempts of a test that were missed."""
    return sum(row.outcome == "missed" for row in line.attempts)


def miss_words(line: PlannedLine) -> str:
    """Say what missed attempts of a test mean for the next one; empty where none was missed."""
    if end_is_due(line):
        return "Two attempts missed: a good place to end (common practice)."
    return "After a miss nothing heavier is proposed." if misses(line) else ""


def end_is_due(line: PlannedLine) -> bool:
    """Whether it is time to offer the end of a test; the member decides."""
    return misses(line) >= MISSES


def result_words(line: PlannedLine) -> str:
    """Say what came of a test: `Tested 1RM: 105 kg. Missed: 110 kg, 107.5 kg.`; empty where nothing was tried."""
    tried: tuple[SetRow, ...] = line.attempts
    if not tried:
        return ""
    made = [row for row in tried if row.outcome != "cut" and row.reps >= line.planned.reps]
    best = max(made, key=lambda row: row.moved_kg, default=None)
    first = (
        f"Tested {line.planned.reps}RM: {load_words(best.load, best.lift)}."
        if best
        else f"No {line.planned.reps}RM was made."
    )
    missed = [load_words(row.load, row.lift) for row in tried if row.outcome == "missed"]
    return f"{first} Missed: {', '.join(missed)}." if missed else first


@may("change")
def say_safety(log: Log, member_id: str, member_step_id: str, planned_set_id: str, answer: Safety, day: date) -> None:
    """Keep what the member answered about safety arms and a spotter before a test; the newest answer counts."""
    if answer not in SAFETY:
        raise BadInputError(f"{answer!r} is no answer.", where="safety", mend=f"Choose of: {', '.join(SAFETY)}.")
    with log.act(f"answered before a test: {SAFETY[answer].lower()}", member_id, own=True) as act:
        log_choices.choose(
            act, member_id, "safety of a test", day, planned=planned_set_id, step=member_step_id, answer=answer
        )


@may("change")
def start_clock(log: Log, member_id: str, member_step_id: str, planned_set_id: str, day: date) -> None:
    """Start the coach's time for a test; it runs beside the attempts and ends nothing by itself."""
    with log.act("started the clock of a test", member_id, own=True) as act:
        log_choices.choose(act, member_id, "clock of a test", day, planned=planned_set_id, step=member_step_id)


@may("change")
def end_test(log: Log, member_id: str, member_step_id: str, planned_set_id: str, day: date) -> None:
    """End a test with the attempts that were made; the session goes on behind it.

    Raises:
        BadInputError: if nothing was tried yet.
    """
    with log.act("ended a test", member_id, own=True) as act:
        rows = log_sets.sets_of(act.session, member_id, since=day, until=day)
        tried = [row for row in rows if (row.member_step_id, row.planned_set_id) == (member_step_id, planned_set_id)]
        if not tried:
            mend = "Log an attempt, or leave the session out."
            raise BadInputError("Nothing was tried yet.", where="test", mend=mend)
        act.words = f"ended the test of {tried[-1].lift.title}"
        log_sets.put_round(act, tried[-1].id, 1)
        finish_if_done(act, member_id, member_step_id)
