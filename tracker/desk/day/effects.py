"""What a mended, moved or removed fact does to the loads that are still to come."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.day.lines import PlannedLine, lines_on, read_grounds
from tracker.desk.day.scene import Scene, read_scene
from tracker.desk.people import places
from tracker.log import members as log_members
from tracker.log import waves as log_waves
from tracker.log.records import MemberStepRow
from tracker.log.unit_of_work import Log
from tracker.units import Mass

STEPS = 6  # planned steps that are looked at; a wave of three weeks with two sessions each


@dataclass(frozen=True, slots=True)
class Coming:
    """One prescribed load that is still to come."""

    step: str
    lift: str
    position: int


Loads = Mapping[Coming, Mass | None]


@may("see")
def coming_loads(log: Log, member_id: str, day: date) -> Loads:
    """Read the loads of the next planned steps, as they are now."""
    with log.reading() as session:
        member = log_members.member(session, member_id)
        steps = (
            [step for step in log_waves.member_steps(session, member_id) if step.state == "planned"] if member else []
        )
        if member is None or not steps:
            return {}
        scene = read_scene(session, log.name, member, places.read_place(session, member, day), day)
    return {
        Coming(step.title, line.lift.title, line.planned.position): line.made.load if line.made else None
        for step in steps[:STEPS]
        for line in _lines(log, scene, step)
        if line.number == 1 and line.planned.percent is not None
    }


def _lines(log: Log, scene: Scene, step: MemberStepRow) -> tuple[PlannedLine, ...]:
    with log.reading() as session:  # one for each: a lift that several have is worked out, and kept, with the first
        grounds = read_grounds(session, scene, step, ())
    return lines_on(scene, grounds)


def changed_words(before: Loads, after: Loads, *, most: int = 2) -> str:
    """Say which coming loads are other ones now: `Changes 3 coming loads: front squat, week 2: 72.5 kg, was 75 kg`."""
    changed = [
        (where, before[where], after[where]) for where in before if where in after and before[where] != after[where]
    ]
    if not changed:
        return "" if not before else "No coming load changes."
    told = "; ".join(f"{where.step}: {_load(now)}, was {_load(was)}" for where, was, now in changed[:most])
    more = f" and {len(changed) - most} more" if len(changed) > most else ""
    return f"Changes {'a coming load' if len(changed) == 1 else f'{len(changed)} coming loads'}: {told}{more}."


def _load(load: Mass | None) -> str:
    return "no load" if load is None else str(load)
