"""Waves, and the place of each step in a member's own calendar."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from sqlalchemy import ColumnElement, and_, bindparam, func, select
from sqlalchemy.orm import Session as OrmSession
from sqlalchemy.orm import aliased

from tracker.log.members import lift_record
from tracker.log.models import Lift, MemberStep, MemberWave, PlannedSet, Wave, WaveStep
from tracker.log.records import MemberStepRow, PlannedSetRow, StepRow, StepState, WayRule
from tracker.log.row_access import name_counts
from tracker.log.unit_of_work import Act
from tracker.units import Mass

OWN = "Own session, "  # what the wave of a session is called that a member put together; always private to them


@dataclass(frozen=True, slots=True)
class NewPlannedSet:
    """So many sets of a lift in a step that is being written."""

    lift_id: str
    sets: int
    reps: int
    percent: Decimal | None = None
    of_reps: int | None = None
    rep_out: bool = False
    test: bool = False
    rest_s: int | None = None
    tempo: str = ""
    block: int = 0
    way: int = 0
    rule: WayRule = ""
    of_lift_id: str | None = None
    load: Mass | None = None
    reserve: Decimal | None = None
    high_reps: int | None = None
    words: str = ""


@dataclass(frozen=True, slots=True)
class NewStep:
    """One session of a wave that is being written."""

    title: str
    day_offset: int
    sets: Sequence[NewPlannedSet]
    text: str = ""


def titles(session: OrmSession) -> frozenset[str]:
    """Return the names that a new wave must not have, also of those that were put away."""
    return frozenset(session.scalars(select(Wave.name).where(name_counts(Wave))))


def wave_steps(session: OrmSession) -> tuple[StepRow, ...]:
    """List the sessions of all waves as they were written, wave by wave, in their order; no session that is one's own."""
    query = (
        select(WaveStep, Wave)
        .join(Wave, WaveStep.wave_id == Wave.id)
        .where(Wave.removed_at.is_(None), WaveStep.replaced_at.is_(None), ~_own())
        .order_by(Wave.name, WaveStep.day_offset, WaveStep.position)
    )
    rows = session.execute(query).all()
    planned, ways = _planned_and_ways(session, {step.id for step, _ in rows})
    return tuple(
        StepRow(
            step.id, wave.id, wave.name, step.position, step.title, step.text,
            planned.get(step.id, ()), ways.get(step.id, ()),
        )
        for step, wave in rows
    )  # fmt: skip


def _own() -> ColumnElement[bool]:
    """Say which waves members put together for a day; letter by letter, since SQLite's LIKE takes "own" for "Own"."""
    return and_(Wave.private_to.is_not(None), func.substr(Wave.name, 1, len(OWN)) == OWN)


# Built once, for building these takes longer than asking them; each set that is logged asks them.
_MEMBER_STEPS = (
    select(MemberStep, WaveStep, Wave, _own())
    .join(MemberWave, MemberStep.member_wave_id == MemberWave.id)
    .join(WaveStep, MemberStep.step_id == WaveStep.id)
    .join(Wave, WaveStep.wave_id == Wave.id)
    .where(MemberWave.member_id == bindparam("member"), MemberWave.ended.is_(None))
    .order_by(MemberStep.due, MemberWave.started, WaveStep.position, MemberStep.repeat)
)
_MEMBER_STEP = _MEMBER_STEPS.where(MemberStep.id == bindparam("only"))
_OF_LIFT = aliased(Lift)
_PLANNED = (
    select(PlannedSet, Lift, _OF_LIFT)
    .join(Lift, PlannedSet.lift_id == Lift.id)
    .join(_OF_LIFT, PlannedSet.of_lift_id == _OF_LIFT.id, isouter=True)
    .where(PlannedSet.step_id.in_(bindparam("steps", expanding=True)))
    .order_by(PlannedSet.position)
)
_PLANNED_OF_STEP = (
    select(PlannedSet.sets, PlannedSet.test)
    .join(MemberStep, MemberStep.step_id == PlannedSet.step_id)
    .join(MemberWave, MemberStep.member_wave_id == MemberWave.id)
    .where(MemberWave.member_id == bindparam("member"), MemberWave.ended.is_(None))
    .where(MemberStep.id == bindparam("only"), PlannedSet.id == bindparam("planned"))
)


def add_wave(act: Act, name: str, steps: Sequence[NewStep], *, text: str = "", private_to: str | None = None) -> str:
    """Write a wave with its steps and return its id: the gym's, a member's own where they do it, or as it is said."""
    wave = Wave(name=name, text=text, private_to=private_to)
    wave.steps = [new_step(step, position) for position, step in enumerate(steps)]
    act.session.add(wave)
    act.session.flush()
    return wave.id


def new_step(step: NewStep, position: int) -> WaveStep:
    """Make the row of one session, with the rows of its sets."""
    row = WaveStep(position=position, title=step.title, day_offset=step.day_offset, text=step.text)
    for place, each in enumerate(step.sets):
        row.sets.append(
            PlannedSet(
                lift_id=each.lift_id, position=place, sets=each.sets, reps=each.reps, percent=each.percent, of_reps=each.of_reps,
                rep_out=each.rep_out, test=each.test, rest_s=each.rest_s, tempo=each.tempo, block=each.block, way=each.way, rule=each.rule,
                of_lift_id=each.of_lift_id, load=each.load.amount if each.load else None,
                unit=each.load.unit if each.load else None, reserve=each.reserve, high_reps=each.high_reps, words=each.words,
            )
        )  # fmt: skip
    return row


def start_wave(act: Act, member_id: str, wave_id: str, started: date) -> str:
    """Put every step of a wave into a member's calendar, from `started` on."""
    wave = act.session.get_one(Wave, wave_id)
    mine = MemberWave(member_id=member_id, wave_id=wave_id, started=started)
    act.session.add(mine)
    act.session.flush()
    for step in wave.steps:
        if step.replaced_at is not None:
            continue
        due = started + timedelta(days=step.day_offset)
        act.session.add(
            MemberStep(member_wave_id=mine.id, step_id=step.id, due=due, planned_due=due, state="planned", repeat=0)
        )
    act.session.flush()
    return mine.id


def member_steps(session: OrmSession, member_id: str, *, only: str = "") -> tuple[MemberStepRow, ...]:
    """List a member's steps of waves that have not ended, by their day; one without a title bears its wave's.

    `only` names a single one, so that a touch between two sets does not read the whole calendar.
    """
    query = _MEMBER_STEP if only else _MEMBER_STEPS
    rows = session.execute(query, {"member": member_id, **({"only": only} if only else {})}).all()
    planned, ways = _planned_and_ways(session, {step.id for _, step, *_ in rows})
    return tuple(
        MemberStepRow(
            mine.id, wave.id, wave.name, step.id, step.position, step.title or wave.name, step.text, mine.due,
            mine.planned_due, mine.state, mine.repeat, mine.ease, planned.get(step.id, ()), ways.get(step.id, ()),
            own,
        )
        for mine, step, wave, own in rows
    )  # fmt: skip


def planned_of_step(
    session: OrmSession, member_id: str, member_step_id: str, planned_id: str
) -> tuple[int, bool] | None:
    """Return of a planned set how often it is asked for, and whether it is a test.

    None where the step is in none of the member's waves that go on, or the set is not in it.
    """
    asked = {"member": member_id, "only": member_step_id, "planned": planned_id}
    found = session.execute(_PLANNED_OF_STEP, asked).first()
    return (found.sets, found.test) if found else None


def wave_spans(session: OrmSession, member_id: str) -> tuple[tuple[str, date, date], ...]:
    """List name, first and last day of a member's waves, those that have ended too; of one left early until it was left."""
    query = (
        select(Wave.name, func.min(MemberStep.due), func.max(MemberStep.due), MemberWave.ended)
        .join(MemberWave, MemberStep.member_wave_id == MemberWave.id)
        .join(Wave, MemberWave.wave_id == Wave.id)
        .where(MemberWave.member_id == member_id, ~_own())
        .group_by(MemberWave.id, Wave.name, MemberWave.ended)
        .order_by(func.min(MemberStep.due))
    )
    found = [(name, first, min(last, ended or last)) for name, first, last, ended in session.execute(query)]
    return tuple(each for each in found if each[1] <= each[2])


def _planned(session: OrmSession, step_ids: set[str]) -> dict[str, tuple[PlannedSetRow, ...]]:
    return _planned_and_ways(session, step_ids)[0]


def _planned_and_ways(
    session: OrmSession, step_ids: set[str]
) -> tuple[dict[str, tuple[PlannedSetRow, ...]], dict[str, tuple[PlannedSetRow, ...]]]:
    """Read the sets of steps, and apart from them what the coach gave for other implements."""
    first: dict[str, list[PlannedSetRow]] = {}
    others: dict[str, list[PlannedSetRow]] = {}
    for row, lift, of in session.execute(_PLANNED, {"steps": list(step_ids)}):
        (others if row.way else first).setdefault(row.step_id, []).append(_planned_row(row, lift, of))
    return {key: tuple(value) for key, value in first.items()}, {key: tuple(value) for key, value in others.items()}


def _planned_row(row: PlannedSet, lift: Lift, of: Lift | None) -> PlannedSetRow:
    return PlannedSetRow(
        row.id, lift_record(lift), row.position, row.sets, row.reps, row.percent, row.of_reps, row.rep_out, row.test,
        row.rest_s, row.tempo, row.block, row.way, lift_record(of) if of else None,
        Mass(row.load, row.unit) if row.load is not None and row.unit else None, row.reserve, row.high_reps, row.words,
        row.rule,
    )  # fmt: skip


def planned_of_wave(session: OrmSession, wave_id: str) -> tuple[PlannedSetRow, ...]:
    """List the planned sets of all steps of a wave, in order."""
    ids = list(session.scalars(select(WaveStep.id).where(WaveStep.wave_id == wave_id).order_by(WaveStep.position)))
    planned = _planned(session, set(ids))
    return tuple(row for step_id in ids for row in planned.get(step_id, ()))


def set_state(act: Act, member_step_id: str, state: StepState) -> None:
    act.session.get_one(MemberStep, member_step_id).state = state
    act.session.flush()


def set_ease(act: Act, member_step_id: str, percent: Decimal | None) -> None:
    """Take `percent` off the loads of one step for this member; None takes that back."""
    act.session.get_one(MemberStep, member_step_id).ease = percent
    act.session.flush()


def postpone(act: Act, member_step_id: str, due: date) -> None:
    """Move a step to another day; the planned steps after it in the same wave move along by as much."""
    row = act.session.get_one(MemberStep, member_step_id)
    shift = due - row.due
    later = act.session.scalars(
        select(MemberStep).where(
            MemberStep.member_wave_id == row.member_wave_id,
            MemberStep.state == "planned",
            MemberStep.due > row.due,
            MemberStep.id != row.id,
        )
    ).all()
    row.due = due
    if shift > timedelta(0):
        for step in later:
            step.due += shift
    act.session.flush()


def set_due(act: Act, member_step_id: str, due: date) -> None:
    """Give a step another day; all others keep theirs."""
    act.session.get_one(MemberStep, member_step_id).due = due
    act.session.flush()


def repeat(act: Act, member_step_id: str, due: date) -> str:
    """Put the same step into the calendar once more on `due`, and return the id of the new place."""
    row = act.session.get_one(MemberStep, member_step_id)
    times = len(
        act.session.scalars(
            select(MemberStep).where(MemberStep.member_wave_id == row.member_wave_id, MemberStep.step_id == row.step_id)
        ).all()
    )
    again = MemberStep(
        member_wave_id=row.member_wave_id, step_id=row.step_id, due=due, planned_due=due, state="planned", repeat=times
    )
    act.session.add(again)
    act.session.flush()
    return again.id


def end_wave(act: Act, member_id: str, wave_id: str, day: date) -> None:
    """End a member's wave; what was done in it stays."""
    for row in act.session.scalars(
        select(MemberWave).where(
            MemberWave.member_id == member_id, MemberWave.wave_id == wave_id, MemberWave.ended.is_(None)
        )
    ):
        row.ended = day
    act.session.flush()
