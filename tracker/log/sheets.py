"""Waves that come from a coach's sheet: found by their title, and their steps replaced without touching what was done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession

from tracker.log.columns import now
from tracker.log.models import LiftedSet, MemberStep, MemberWave, PieceScore, Wave, WaveStep
from tracker.log.row_access import WALLED, name_counts
from tracker.log.unit_of_work import Act
from tracker.log.waves import NewStep, new_step

# A coach's change reaches all who do the sheet, also those whose log the coach does not see: nothing of it is handed out.
OF_ALL = {WALLED: True}


@dataclass(frozen=True, slots=True)
class WaveText:
    """A wave with the text it was made of, and the ids of its steps as they are now, in their order."""

    id: str
    name: str
    text: str
    step_ids: tuple[str, ...]


def waves_of_title(session: OrmSession, title: str) -> tuple[WaveText, ...]:
    """List the waves that go by a title, or by it with a day behind it, the newest first; none that was put away."""
    found = session.scalars(
        select(Wave).where(name_counts(Wave), Wave.removed_at.is_(None)).order_by(Wave.created_at.desc(), Wave.id)
    )
    own = title.casefold()
    same = [wave for wave in found if wave.name.casefold() == own or wave.name.casefold().startswith(f"{own}, ")]
    return tuple(_text_of(session, wave) for wave in same)


def days_of(session: OrmSession, wave: WaveText) -> frozenset[date]:
    """Return the days on which sessions of a wave are, as they were first planned, for anybody who is doing it."""
    starts = select(MemberWave.started).where(MemberWave.wave_id == wave.id, MemberWave.ended.is_(None))
    offsets = session.scalars(select(WaveStep.day_offset).where(WaveStep.id.in_(wave.step_ids))).all()
    found = session.scalars(starts.distinct(), execution_options=OF_ALL)
    return frozenset(start + timedelta(days=offset) for start in found for offset in offsets)


def wave_text(session: OrmSession, wave_id: str) -> WaveText | None:
    found = session.get(Wave, wave_id)
    return _text_of(session, found) if found else None


def _text_of(session: OrmSession, wave: Wave) -> WaveText:
    ids = session.scalars(
        select(WaveStep.id)
        .where(WaveStep.wave_id == wave.id, WaveStep.replaced_at.is_(None))
        .order_by(WaveStep.day_offset, WaveStep.position)
    )
    return WaveText(wave.id, wave.name, wave.text, tuple(ids))


def offsets(session: OrmSession, wave_id: str) -> tuple[tuple[int, str], ...]:
    """List of each session of a wave how many days after the first it is, and its title."""
    asked = select(WaveStep.day_offset, WaveStep.title).where(
        WaveStep.wave_id == wave_id, WaveStep.replaced_at.is_(None)
    )
    return tuple((offset, title) for offset, title in session.execute(asked.order_by(WaveStep.position)))


def set_text(act: Act, wave_id: str, text: str) -> None:
    act.session.get_one(Wave, wave_id).text = text
    act.session.flush()


def members_on(session: OrmSession, wave_id: str) -> tuple[str, ...]:
    """List the members who are doing a wave."""
    query = select(MemberWave.member_id).where(MemberWave.wave_id == wave_id, MemberWave.ended.is_(None))
    return tuple(session.scalars(query))


def add_step(act: Act, wave_id: str, step: NewStep) -> str:
    """Add a step to a wave and to the calendar of each member who is doing it."""
    row = _add_row(act, wave_id, step)
    on = select(MemberWave).where(MemberWave.wave_id == wave_id, MemberWave.ended.is_(None))
    for mine in act.session.scalars(on, execution_options=OF_ALL):
        due = mine.started + timedelta(days=step.day_offset)
        act.session.add(MemberStep(member_wave_id=mine.id, step_id=row.id, due=due, planned_due=due))
    act.session.flush()
    return row.id


def replace_step(act: Act, step_id: str, step: NewStep) -> str:
    """Put another step in the place of one; who has begun, done or left out the old one keeps it."""
    old = act.session.get_one(WaveStep, step_id)
    row = _add_row(act, old.wave_id, step)
    for mine in _untouched(act.session, step_id):
        mine.step_id = row.id
    old.replaced_at = now()
    act.session.flush()
    return row.id


def drop_step(act: Act, step_id: str) -> int:
    """Take a step out of a wave; it is skipped for all who have not begun it, and how many those are comes back."""
    rows = _untouched(act.session, step_id)
    for mine in rows:
        mine.state = "skipped"
    act.session.get_one(WaveStep, step_id).replaced_at = now()
    act.session.flush()
    return len(rows)


def begun_by(session: OrmSession, step_id: str) -> int:
    """Count in how many calendars a step was begun, done or skipped."""
    rows = session.scalars(select(MemberStep).where(MemberStep.step_id == step_id)).all()
    return len(rows) - len(_untouched(session, step_id))


def begun_members(session: OrmSession, step_id: str) -> tuple[str, ...]:
    """List the members who have begun a step or done it, and so keep it whatever replaces it."""
    open_ones = {row.id for row in _untouched(session, step_id)}
    query = (
        select(MemberStep.id, MemberWave.member_id)
        .join(MemberWave, MemberStep.member_wave_id == MemberWave.id)
        .where(MemberStep.step_id == step_id, MemberStep.state != "skipped", MemberWave.ended.is_(None))
    )
    rows = session.execute(query, execution_options=OF_ALL)
    return tuple(dict.fromkeys(member for mine, member in rows if mine not in open_ones))


def is_replaced(session: OrmSession, step_id: str) -> bool:
    """Whether another step, or none, stands in the place of one by now."""
    found = session.get(WaveStep, step_id)
    return found is not None and found.replaced_at is not None


def _add_row(act: Act, wave_id: str, step: NewStep) -> WaveStep:
    taken = act.session.scalars(select(WaveStep.position).where(WaveStep.wave_id == wave_id)).all()
    row = new_step(step, max(taken, default=-1) + 1)
    row.wave_id = wave_id
    act.session.add(row)
    act.session.flush()
    return row


def _untouched(session: OrmSession, step_id: str) -> Sequence[MemberStep]:
    query = select(MemberStep).where(MemberStep.step_id == step_id, MemberStep.state == "planned")
    rows = session.scalars(query, execution_options=OF_ALL).all()
    ids = [row.id for row in rows]
    begun: set[str | None] = set()
    for made in (LiftedSet, PieceScore):
        by = select(made.member_step_id).where(made.member_step_id.in_(ids), made.removed_at.is_(None))
        begun |= set(session.scalars(by, execution_options=OF_ALL))
    return [row for row in rows if row.id not in begun]
