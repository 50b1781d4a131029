"""Today's session: what the wave asks, with loads that the place can make, and what is done already."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from decimal import Decimal

from tracker.desk.base.cached import cached_until_write
from tracker.desk.base.roles import may
from tracker.desk.day import last_time, sore
from tracker.desk.day.beaten import NewMax, beaten
from tracker.desk.day.ceilings import ended_on
from tracker.desk.day.in_turn import by_turns
from tracker.desk.day.last_time import Beat, LastTime
from tracker.desk.day.lines import (
    Grounds,
    PlannedLine,
    asks_diameter,
    chance_words,
    grounds_of_line,
    lines_on,
    made_of,
    ramp_of,
    read_grounds,
)
from tracker.desk.day.minutes import session_minutes
from tracker.desk.day.old_maxes import OldMax, old_maxes
from tracker.desk.day.on_clock import SetClock, clock_of
from tracker.desk.day.on_today import on_today
from tracker.desk.day.resting import Rest, RestWays, rest_after, ways_of
from tracker.desk.day.scene import Scene, read_scene, with_sore
from tracker.desk.day.sore import NOTHING_SORE, Offer, SoreState
from tracker.desk.day.step_state import finish_if_done
from tracker.desk.day.unfinished import unfinished
from tracker.desk.maxes.estimates import LiftHistory, Stored, read_lift, worked_out
from tracker.desk.people import places
from tracker.desk.people.people import body_mass_asked
from tracker.desk.sheet.sheets import changed_since_begun
from tracker.errors import BadInputError
from tracker.log import by_hand, day_marks
from tracker.log import members as log_members
from tracker.log import waves as log_waves
from tracker.log.choices import Choice
from tracker.log.day_marks import Mark
from tracker.log.pieces import PieceRow
from tracker.log.records import MemberRecord, MemberStepRow, PlaceRecord, SessionRow, SetRow
from tracker.log.scores import ScoreRow
from tracker.log.unit_of_work import REST, SORE, Log
from tracker.prescription.comeback import Comeback
from tracker.prescription.illness import AfterIllness
from tracker.prescription.ramp import RampSet
from tracker.prescription.rounding import LayOff, lay_off
from tracker.safety import Person
from tracker.units import Mass

NO_LAY_OFF = LayOff(False, False, False)
NAMED = 7  # missed sessions of which it is read how much of them is done, the newest


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
    missed: tuple[MemberStepRow, ...] = ()  # planned for days before the day, and not on; the oldest first
    pieces: tuple[PieceRow, ...] = ()  # of the step
    open_pieces: tuple[PieceRow, ...] = ()  # those without a score of the day or of this session
    scores: tuple[ScoreRow, ...] = ()  # all of the day
    done: tuple[SetRow, ...] = ()  # of the step, those of days before too: it may have been left half done
    closed: bool = False  # somebody ended the step with sets or a piece left: neither is asked for any more
    answered: bool = False  # somebody said how hard the session was, or that nobody will
    marks: tuple[Mark, ...] = ()  # what was said of the step
    choices: tuple[Choice, ...] = ()  # what the member chose around the sets, the newest first
    back: Comeback | AfterIllness | None = None  # loads start lower, after weeks without an entry
    break_began: date | None = None  # the last day of training before the newest such break
    ask_body: str = ""  # that the body mass is to be typed, where it is lifted next and the known one is old
    ask_full: tuple[Mass, ...] = ()  # discs of which one is the lightest of full diameter, for the ramp of a pull
    last: Mapping[str, LastTime] = field(
        default_factory=dict[str, LastTime]
    )  # for a lift's id, what was done of it before the day
    beats: Mapping[str, Beat] = field(default_factory=dict[str, Beat])  # for a line's key, what it takes to beat that
    rest: Rest | None = None  # after the newest set of the day
    rest_ways: RestWays = field(default_factory=RestWays)
    minutes: int | None = None  # of the day's session: as typed, else by the touches of its sets and scores
    sore: SoreState = NOTHING_SORE  # what hurts, by the member's own word
    sore_offers: tuple[Offer, ...] = ()  # lifts of the step that load a sore place or were marked as painful
    changed: str = ""  # what a coach changed of the step after it was begun
    easy: bool = False  # nothing is to be beaten: after a lay-off, eased off, or called an easy session by the coach
    asks_back: bool = False  # loads would start lower after a break, and nobody has said yet whether they do
    new_max: NewMax | None = None  # a set that beats the max in use: does it become the max?
    old_maxes: tuple[OldMax, ...] = ()  # from before the break, and used today: does it still hold?
    unfinished: Mapping[str, str] = field(
        default_factory=dict[str, str]
    )  # by a missed step's id: what is done and left

    @property
    def days_off(self) -> int | None:
        """Whole days without a session just before the day; None where there was never one."""
        return self.person.days_off

    def last_words(self, line: PlannedLine, today: date) -> tuple[str, ...]:
        """Say what was done of a line's lift last time, what was noted, and what beats it."""
        return last_time.said(self.last.get(line.lift.id), self.beats.get(line.key), today, self.member.unit)

    @property
    def clock(self) -> SetClock | None:
        """The coach's interval that the next set is done on."""
        line = self.next_line
        return clock_of(line, self.lines, self.choices, self.day) if line else None

    @property
    def next_line(self) -> PlannedLine | None:
        return None if self.closed else next((line for line in self.lines if line.open), None)

    @property
    def whole(self) -> bool:
        """Whether sets and pieces of the step are all done."""
        asks = bool(self.lines or self.pieces)
        return asks and not self.closed and self.next_line is None and not self.open_pieces


@may("see")
@cached_until_write
def day_plan(
    log: Log,
    member_id: str,
    day: date,
    *,
    prefer: Mapping[str, str] | None = None,
    member_step_id: str | None = None,
) -> DayPlan:
    """Read a member's day.

    Args:
        log: The log.
        member_id: Whose day.
        day: Which day.
        prefer: For a lift's id, which source its reference max is taken from (tested, declared, estimated) where the
            member chose another one than the first.
        member_step_id: The step that somebody chose, where it can be on; else see `on_today`.

    Raises:
        BadInputError: if there is no such member.
    """
    with log.reading() as session:
        member = log_members.member(session, member_id)
        if member is None:
            raise BadInputError("This member is not in the log.", where="member", mend="Choose one from the list.")
        on = on_today(session, member_id, day, member_step_id)
        scene = read_scene(session, log.name, member, places.read_place(session, member, day), day, prefer)
        entries = by_hand.said(session, member_id, [REST, SORE])
        scene = with_sore(scene, sore.state_of(entries))  # of this member's own day alone
        grounds = read_grounds(session, scene, on.step, on.done, on.sets) if on.step else None
        last = last_time.read_last(
            session, member_id, {each.lift.id for each in grounds.planned} if grounds else (), day
        )
        known = {each.lift.id for each in grounds.stored} if grounds else set[str]()
        beside = {row.lift.id: row.lift for row in on.sets if row.lift.id not in known}
        more = tuple(read_lift(session, log.name, member_id, lift) for lift in beside.values())
        changed = changed_since_begun(session, member_id, on.step) if on.step else ""
        lifted = grounds is not None and any(each.lift.body for each in grounds.planned)
        masses = log_members.body_masses(session, member_id) if lifted else ()
        begun = unfinished(session, member_id, on.missed[-NAMED:], day)
    lines = by_turns(lines_on(scene, grounds), grounds.step) if grounds else ()
    ways = ways_of(entries)
    break_of = lay_off(scene.person.days_off)
    easy = bool(
        break_of.words
        or scene.back
        or scene.sore.limited
        or (on.step and (on.step.ease or last_time.is_easy(on.step.title, on.step.text)))
    )
    return DayPlan(
        member,
        day,
        scene.place,
        on.step,
        lines,
        on.sets,
        on.session,
        on.ahead,
        scene.person,
        ramp_of(scene, lines),
        break_of,
        on.missed,
        on.pieces,
        on.open_pieces,
        on.scores,
        on.done,
        on.closed,
        on.answered,
        on.marks,
        scene.choices,
        scene.back,
        scene.break_began,
        body_mass_asked(masses, day) if any(line.open and line.lift.body for line in lines) else "",
        next((asks_diameter(scene, line) for line in lines if line.open and line.made), ()),
        last,
        {} if easy or grounds is None else _beats(scene, grounds, lines, last),
        rest_after(on.sets, lines, ways, hurting=_hurting(scene, on.sets), choices=scene.choices),
        ways,
        session_minutes(on.session, on.sets, on.scores) if on.session else None,
        scene.sore,
        sore.offers(grounds.asked, scene.sore, member, scene.place) if grounds else (),
        changed,
        easy,
        scene.asks_back,
        beaten(
            on.sets,
            lines,
            scene.choices,
            _histories_of(on.sets, (*(grounds.stored if grounds else ()), *more)),
            member.unit,
        ),
        old_maxes(scene, lines),
        begun,
    )


def _histories_of(sets: Iterable[SetRow], stored: Iterable[Stored]) -> dict[str, LiftHistory]:
    """Work out the lifts of which sets were done on the day."""
    done = {row.lift.id for row in sets}
    return {each.lift.id: worked_out(each) for each in stored if each.lift.id in done}


def _hurting(scene: Scene, sets: Iterable[SetRow]) -> frozenset[str]:
    """Return the lifts of a day's sets that hurt: ended for it, or marked as painful."""
    ended = {lift for lift, by in ended_on(scene.choices, scene.day).items() if by.act_id in scene.sore.hurt}
    return frozenset(ended | {row.lift.id for row in sets if scene.sore.is_painful(row.lift.name)})


def _beats(
    scene: Scene, grounds: Grounds, lines: tuple[PlannedLine, ...], last: Mapping[str, LastTime]
) -> dict[str, Beat]:
    """Work out for each open line with a load what it takes to beat last time."""
    histories = {each.lift.id: worked_out(each) for each in grounds.stored if each.lift.id in last}
    before: dict[str, int] = {}
    wanted: list[tuple[str, str, int, Mass, int]] = []
    for line in lines:
        beatable = line.open and line.most is None and line.held is None and not line.planned.test
        if beatable and line.made is not None:
            wanted.append((line.key, line.lift.id, line.reps, line.made.load, before.get(line.lift.id, 0)))
        before[line.lift.id] = before.get(line.lift.id, 0) + 1
    changed = {line.key for line in lines if line.change is not None and line.change.taken}
    return last_time.of_lines(last, histories, scene.day, wanted, changed=changed)


@may("see")
@cached_until_write
def made_by(
    log: Log,
    member_id: str,
    day: date,
    key: str,
    source: str,
    *,
    prefer: Mapping[str, str],
    member_step_id: str | None = None,
) -> places.MadeLoad | None:
    """Work out what one line of a day, named by its key, would be loaded with by the max of another source.

    Returns:
        None where the kit makes no such load, or the day has no such line.
    """
    plan = day_plan(log, member_id, day, prefer=prefer, member_step_id=member_step_id)
    line = next((each for each in plan.lines if each.key == key), None)
    if plan.step is None or line is None:
        return None
    with log.reading() as session:
        scene = read_scene(session, log.name, plan.member, plan.place, day, {**prefer, line.lift.id: source})
        grounds = grounds_of_line(session, scene, plan.step, line)
    return made_of(scene, grounds)


@may("see")
def scene_of(log: Log, member: MemberRecord, place: PlaceRecord | None, day: date, prefer: Mapping[str, str]) -> Scene:
    """Put together who trains where, and what the days of training so far mean for care."""
    with log.reading() as session:
        return read_scene(session, log.name, member, place, day, prefer)


@may("change")
def postpone(
    log: Log, member_id: str, step: MemberStepRow, days: int = 1, *, today: date, with_later: bool = False
) -> MemberStepRow:
    """Move a step `days` on from the reader's `today` or from its own day; with `with_later` the planned ones after it too.

    Returns:
        The step, with its new day.
    """
    due = max(step.due, today) + timedelta(days=days)
    with log.act(f"postponed {step.title} to {due.isoformat()}", member_id, own=True) as act:
        if with_later:
            log_waves.postpone(act, step.id, due)
        else:
            log_waves.set_due(act, step.id, due)
    return replace(step, due=due)


@may("change")
def begin_now(log: Log, member_id: str, step: MemberStepRow, day: date) -> None:
    """Bring a step to `day`, one that is ahead or one that was missed; all others stay where they are.

    One whose sets are done keeps its day: what is left of it is done now.
    """
    with log.act(f"moved {step.title} to {day.isoformat()}", member_id, own=True) as act:
        if step.state == "planned":
            log_waves.set_due(act, step.id, day)
        day_marks.put(act, member_id, day, step.id, "begun")


@may("change")
def skip(log: Log, member_id: str, step: MemberStepRow) -> None:
    """Leave a step out; of one whose sets are done, what is left of it."""
    with log.act(f"skipped {step.title}", member_id, own=True) as act:
        if step.state == "done":
            day_marks.put(act, member_id, step.due, step.id, "let go")
            return
        log_waves.set_state(act, step.id, "skipped")


@may("change")
def finish(log: Log, member_id: str, step: MemberStepRow, day: date) -> None:
    """Call a step done on a day, with whatever was done of it."""
    with log.act(f"finished {step.title}", member_id, own=True) as act:
        log_waves.set_state(act, step.id, "done")
        day_marks.put(act, member_id, day, step.id, "ended")


@may("change")
def go_on(log: Log, member_id: str, step: MemberStepRow, day: date) -> None:
    """Go on with a step that was called done with sets or a piece left."""
    with log.act(f"goes on with {step.title}", member_id, own=True) as act:
        log_waves.set_state(act, step.id, "planned")
        finish_if_done(act, member_id, step.id)  # where only a piece is left
        day_marks.put(act, member_id, day, step.id, "begun")


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


@may("see")
def step(log: Log, member_id: str, member_step_id: str) -> MemberStepRow | None:
    """Return one step of the member's waves that go on; None where there is none of that id."""
    with log.reading() as session:
        return next(iter(log_waves.member_steps(session, member_id, only=member_step_id)), None)


@may("see")
def planned_of_step(log: Log, member_id: str, member_step_id: str, planned_id: str) -> tuple[int, bool] | None:
    """Return of a planned set of the member's step how often it is asked for and whether it is a test; None if it is not there."""
    with log.reading() as session:
        return log_waves.planned_of_step(session, member_id, member_step_id, planned_id)


__all__ = ["DayPlan", "PlannedLine", "Scene", "chance_words", "day_plan", "scene_of"]
