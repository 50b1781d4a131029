"""What the fields of a set without a planned load say at first."""

from __future__ import annotations

from datetime import date

from tracker.components.frame.frame import here
from tracker.desk.day import usual
from tracker.log.records import LiftRecord, MemberRecord, PlaceRecord
from tracker.log.sets import NewSet


def usual_set(lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None, day: date) -> tuple[NewSet, bool]:
    """Return a free set to start from, and whether its load is of an earlier set; see `desk.day.usual`."""
    return usual.usual_set(here().log, member, lift, place, day)
