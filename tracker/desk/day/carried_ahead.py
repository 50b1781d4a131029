"""What the sets that follow will be done with, by the load of those before them: for whoever trains without reaching the log."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from tracker.desk.base.roles import may
from tracker.desk.day.ahead import read_ahead
from tracker.desk.day.carried import Change
from tracker.desk.day.lines import PlannedLine, gone_on, lines_as_planned
from tracker.desk.day.scene import Scene
from tracker.desk.day.today import DayPlan
from tracker.desk.maxes import estimates
from tracker.desk.people import places
from tracker.log.records import LiftRecord, MemberStepRow
from tracker.log.unit_of_work import Log
from tracker.units import Mass

LIGHTEST = Decimal("0.75")  # of what is asked: whoever goes lower still finds the nearest of these
MOST_LIGHTER, MOST_HEAVIER = 40, 3  # steps of the kit


@dataclass(frozen=True, slots=True)
class CarriedAhead:
    """What follows from each load that the sets of a session could be done with."""

    loads: Mapping[str, tuple[Mass, ...]]  # by lift, lightest first: all that the kit makes around what is asked
    planned: Mapping[str, PlannedLine]  # by line: as it stands where no load was changed
    after: Mapping[str, Mapping[tuple[Mass, Mass], PlannedLine]]  # by line, then by what was asked and what was done


@may("see")
def carried_ahead(log: Log, member_id: str, plan: DayPlan, step: MemberStepRow) -> CarriedAhead:
    """Work out beforehand what each set of a session is done with, for the loads of the sets before it.

    A lighter load goes on by itself, a heavier one where somebody says so: here it is as if they had. What stays as it is
    has no entry.
    """
    with log.reading() as session:
        scene, grounds = read_ahead(session, log.name, plan, step)
    histories = {each.lift.id: estimates.worked_out(each) for each in grounds.stored}
    lines = tuple(each for each in lines_as_planned(scene, grounds) if each.made is not None and not each.planned.test)
    loads, after = dict[str, tuple[Mass, ...]](), dict[str, dict[tuple[Mass, Mass], PlannedLine]]()
    for lift in {each.lift.id: each.lift for each in lines}.values():
        same = [each for each in lines if each.lift.id == lift.id]
        asked = tuple(dict.fromkeys(each.made.load for each in same if each.made))
        loads[lift.id] = _loads(scene, lift, asked)
        changes = [Change(lift, one, other, True) for one in asked for other in _near(one, loads[lift.id])]
        for line in (each for each in same if each.open):
            after[line.key] = _after(scene, line, changes, histories[lift.id])
    return CarriedAhead(loads, {each.key: each for each in lines}, after)


def _after(
    scene: Scene, line: PlannedLine, changes: Iterable[Change], history: estimates.LiftHistory
) -> dict[tuple[Mass, Mass], PlannedLine]:
    found: dict[tuple[Mass, Mass], PlannedLine] = {}
    for change in changes:
        then = gone_on(scene, line, change, history)
        if then.made is not line.made:
            found[change.asked, change.done] = replace(then, change=change)
    return found


def _near(asked: Mass, loads: tuple[Mass, ...]) -> list[Mass]:
    """List the loads that a set which asks for one of them could be done with instead."""
    lighter = [each for each in loads if asked.kg * LIGHTEST <= each.kg < asked.kg]
    return lighter + [each for each in loads if each.kg > asked.kg][:MOST_HEAVIER]


def _loads(scene: Scene, lift: LiftRecord, asked: tuple[Mass, ...]) -> tuple[Mass, ...]:
    """List what the kit makes from somewhat below the lightest that is asked to a little above the heaviest."""
    found = {each.kg: each for each in asked}
    least, most = (pick(asked, key=lambda load: load.kg) for pick in (min, max))
    for direction, steps in ((0, MOST_LIGHTER), (1, MOST_HEAVIER)):
        load: Mass | None = most
        for _ in range(steps):
            load = places.next_loads(load, lift, scene.member, scene.place)[direction] if load else None
            if load is None or load.kg < least.kg * LIGHTEST:
                break
            found.setdefault(load.kg, load)
    return tuple(found[each] for each in sorted(found))
