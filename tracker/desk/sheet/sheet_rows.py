"""A sheet's sessions as the rows that the log would hold of them, before anything is written: what looks ahead reads these."""

from __future__ import annotations

from datetime import date, timedelta

from tracker.desk.people.people import facts_of
from tracker.desk.sheet.sheet_steps import LiftName, new_step
from tracker.log import members as log_members
from tracker.log.records import LiftRecord, MemberStepRow, PlannedSetRow
from tracker.log.unit_of_work import Reader
from tracker.log.waves import NewPlannedSet
from tracker.prescription.sheet.model import Sheet

NEW = "new: "  # begins the id of a lift that the log does not know yet


class KnownLifts:
    """The lifts of a log by name and implement; one that is missing stands for itself, and nothing is added."""

    def __init__(self, session: Reader, member_id: str) -> None:
        known = (*log_members.lifts_of_new(session), *log_members.lifts(session, member_id))
        self._known = {(lift.name.casefold(), lift.implement): lift for lift in known}
        self.by_id = {lift.id: lift for lift in known}

    def get(self, wanted: LiftName) -> LiftRecord:
        key = (wanted.name.casefold(), wanted.implement)
        if key not in self._known:
            facts = facts_of(wanted.name, wanted.implement)
            lift = LiftRecord(f"{NEW}{wanted.words}", wanted.name, wanted.implement, per_side=wanted.each_side, **facts)
            self._known[key] = self.by_id[lift.id] = lift
        return self._known[key]


def steps_of(session: Reader, sheet: Sheet, member_id: str, start: date) -> tuple[MemberStepRow, ...]:
    """Lay a sheet into a calendar, in a reading of whoever asks; nothing is written."""
    lifts = KnownLifts(session, member_id)
    found: list[MemberStepRow] = []
    for place, (each, offset) in enumerate(zip(sheet.sessions, sheet.offsets, strict=True)):
        step, day = new_step(sheet, each, offset, lifts), start + timedelta(days=offset)
        rows = [_row(new, number, lifts) for number, new in enumerate(step.sets)]
        found.append(
            MemberStepRow(
                f"{place}", "", sheet.title, f"{place}", place, step.title, step.text, day, day, "planned", 0, None,
                tuple(row for row in rows if not row.way), tuple(row for row in rows if row.way),
            )
        )  # fmt: skip
    return tuple(found)


def _row(new: NewPlannedSet, number: int, lifts: KnownLifts) -> PlannedSetRow:
    return PlannedSetRow(
        f"{number}", lifts.by_id[new.lift_id], number, new.sets, new.reps, new.percent, new.of_reps, new.rep_out, new.test,
        new.rest_s, new.tempo, new.block, new.way, lifts.by_id[new.of_lift_id] if new.of_lift_id else None, new.load,
        new.reserve, new.high_reps, new.words, new.rule,
    )  # fmt: skip
