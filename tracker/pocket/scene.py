"""Whose plan a phone takes along, and what is worked out once for all its sets."""

from __future__ import annotations

from datetime import date
from typing import Any

from tracker.desk.day import attempts, card, dismissed_cautions
from tracker.desk.day.lines import PlannedLine, chance_words
from tracker.desk.day.today import DayPlan
from tracker.desk.maxes import estimates
from tracker.desk.people import places
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.log.unit_of_work import Log
from tracker.units import Mass, plain

Record = dict[str, Any]
AROUND = 3  # loads either side of the one that is asked for


class Scene:
    """Whose plan it is, and what is worked out once for all its sets."""

    def __init__(self, log: Log, plan: DayPlan) -> None:
        self.log, self.plan = log, plan
        self.put_away = dict.fromkeys(dismissed_cautions.put_away_on(log, plan.member.id, plan.day), plan.day)
        self._near: dict[tuple[str, Mass], list[tuple[Mass, Record]]] = {}
        self._histories: dict[str, estimates.LiftHistory] = {}
        self._chances: dict[tuple[str, Mass, int, int, date], str] = {}

    @property
    def member(self) -> MemberRecord:
        return self.plan.member

    @property
    def place(self) -> PlaceRecord | None:
        return self.plan.place

    def near(self, lift: LiftRecord, load: Mass) -> list[tuple[Mass, Record]]:
        """List the loads around one that the kit makes, lightest first, with what they are made of."""
        key = lift.id, load
        if key not in self._near:
            lower, higher = [load], [load]
            for _ in range(AROUND):
                below = places.next_loads(lower[0], lift, self.member, self.place)[0] if lower[0] else None
                above = places.next_loads(higher[-1], lift, self.member, self.place)[1] if higher[-1] else None
                if below is not None and below.kg != lower[0].kg:
                    lower.insert(0, below)
                if above is not None and above.kg != higher[-1].kg:
                    higher.append(above)
            self._near[key] = [(each, self.load(lift, each)) for each in (*lower[:-1], *higher)]
        return self._near[key]

    def load(self, lift: LiftRecord, load: Mass) -> Record:
        return card.load_record(load, lift, self.member, self.place)

    def attempts(self, line: PlannedLine) -> Record:
        """Bring what is proposed after each attempt, by what was made and missed by then."""
        found = attempts.attempts_ahead(self.log, self.member, self.plan, line)
        return {
            "|".join(plain(each.amount) if each else "" for each in tried): card.attempt(
                at, line.lift, self.member, self.place
            )
            for tried, at in found.items()
        }

    def chance(self, line: PlannedLine, load: Mass, before: int, day: date) -> str:
        """Say how likely the repetitions of a line are with another load."""
        if line.planned.test or line.planned.rep_out:
            return ""
        key = line.lift.id, load, line.reps, before, day
        if key not in self._chances:
            history = self.history(line.lift)
            moved = history.moved_kg(load, day)
            model = history.model if moved > 0 else None
            chance = model.chance(moved, line.reps, day=day, sets_before=before) if model else None
            self._chances[key] = chance_words(chance, line.reps)
        return self._chances[key]

    def history(self, lift: LiftRecord) -> estimates.LiftHistory:
        """Return a lift's history, read once for all sets of it."""
        if lift.id not in self._histories:
            self._histories[lift.id] = estimates.history(self.log, self.member.id, lift)
        return self._histories[lift.id]
