"""Maxes that are older than a break and are used today: whoever comes back is asked whether they still hold."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.desk.day.lines import PlannedLine
from tracker.desk.day.scene import Scene
from tracker.desk.maxes.references import Reference
from tracker.log.records import LiftRecord

SAID = ("tested", "declared")


@dataclass(frozen=True, slots=True)
class OldMax:
    """A max from before a break, of which today's loads are a part."""

    lift: LiftRecord
    reference: Reference

    @property
    def words(self) -> str:
        return f"{self.reference.source} {self.reference.reps}RM of {self.lift.title}, {self.reference.load}"


def old_maxes(scene: Scene, lines: Iterable[PlannedLine]) -> tuple[OldMax, ...]:
    """List the maxes of a day's open sets that are from before the newest break, and of which nobody said that they hold."""
    if scene.break_began is None:
        return ()
    since = scene.break_began.isoformat()
    said = {(each.get("lift"), each.get("reps")) for each in scene.choices if each.what == "still holds" and each.get("since") == since}  # fmt: skip
    found: dict[tuple[str, str], OldMax] = {}
    for line in lines:
        lift, used = line.planned.of_lift or line.lift, line.reference
        if line.open and used is not None and used.source in SAID and used.day <= scene.break_began:
            found.setdefault((lift.id, str(used.reps)), OldMax(lift, used))
    return tuple(each for key, each in found.items() if key not in said)
