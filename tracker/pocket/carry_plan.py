"""What a phone is told of a load that is changed: how the sets that follow stand after it, and what is asked then."""

from __future__ import annotations

import json
from datetime import date
from decimal import Decimal
from typing import Any

from tracker.desk.day import card, carried
from tracker.desk.day.carried import Change
from tracker.desk.day.carried_ahead import CarriedAhead
from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.today import DayPlan
from tracker.desk.day.withheld import beside, withheld
from tracker.log.records import MemberStepRow
from tracker.pocket import asks
from tracker.pocket.scene import Scene
from tracker.units import plain

Record = dict[str, Any]


def carries(plan: DayPlan, step: MemberStepRow) -> list[Record]:
    """List what the member said of loads that were changed, the newest first."""
    loads = {plain(Decimal(row.load.kg)): row.load for row in plan.sets}
    said = (each for each in plan.choices if each.what == carried.WHAT and each.day == plan.day)
    return [
        {"lift": each.get("lift"), "load": plain(load.amount), "unit": load.unit, "carry": each.get("how")}
        for each in said
        if each.get("step") == step.id and (load := loads.get(each.get("load")))
    ]


class Known:
    """Records that many lines share, each brought once."""

    def __init__(self) -> None:
        self.records: list[Record] = []
        self._found: dict[str, int] = {}

    def number(self, record: Record) -> int:
        """Return which one it is, counted from 0."""
        text = json.dumps(record)
        if text not in self._found:
            self._found[text] = len(self.records)
            self.records.append(record)
        return self._found[text]


def carried_after(scene: Scene, line: PlannedLine, ahead: CarriedAhead, after: Known, day: date) -> Record:
    """Bring how a line stands where no load was changed, and what it is done with after another load, by what was asked then.

    What stays as it is has no entry.
    """
    planned = ahead.planned.get(line.key)
    if planned is None or planned.made is None or line.made is None or withheld(scene.plan, line):
        return {}
    found: dict[str, dict[str, int]] = {}
    for (asked_for, done), then in ahead.after.get(line.key, {}).items():
        record = {**card.loaded(then, scene.member, scene.place, day), "why": then.why[-1]}
        found.setdefault(plain(asked_for.amount), {})[plain(done.amount)] = after.number(record)
    base = {
        **card.loaded(planned, scene.member, scene.place, day),
        "notes": [*planned.notes, *beside(scene.plan, planned)],
    }
    changed = line.made.load != planned.made.load
    return {"base": base if changed else {"load": plain(planned.made.load.amount)}, "after": found}


def heavier(step: MemberStepRow, ahead: CarriedAhead) -> Record:
    """Bring the questions after a load that was heavier than asked, by lift, what was asked and what was done."""
    found: Record = {}
    for then in (each for of_line in ahead.after.values() for each in of_line.values()):
        if isinstance(then.change, Change) and not then.change.down:
            change = then.change
            key = f"{then.lift.id} {plain(change.asked.amount)} {plain(change.done.amount)}"
            found[key] = asks.heavier(step.id, then.lift, change.asked, change.done)
    return found
