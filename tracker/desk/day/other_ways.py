"""The coach's other ways: which lift of a block a member's place can make, and what is left of a step."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from itertools import groupby

from tracker.desk.people import places
from tracker.desk.people.places import FIXED
from tracker.log.records import LiftRecord, MemberRecord, MemberStepRow, PlaceRecord, PlannedSetRow
from tracker.prescription.for_place import FOR_WHERE, written_for

Round = tuple[str | None, int | None]  # a planned set and which of its rounds


def sets_here(
    step: MemberStepRow, member: MemberRecord, place: PlaceRecord | None, done: Collection[Round]
) -> tuple[PlannedSetRow, ...]:
    """Choose for each block of a step the way that the place can make, the coach's first way before all others.

    One that is written for the place ("home") and can be made there goes before. A way that was begun stays. Where the place can make none, the way that is written for it stands, else the first; it says so itself.
    """
    begun = {planned_id for planned_id, _ in done}
    return tuple(row for ways in blocks(step) for row in _choose(ways, member, place, begun))


def is_complete(step: MemberStepRow, done: Collection[Round], ended: Collection[str] = ()) -> bool:
    """Whether every block of a step is done in one of its ways; sets of a lift that was `ended` (by id) are not asked for."""
    known = set(done)
    return all(
        any(_rounds([row for row in way if row.lift.id not in ended]) <= known for way in ways) for ways in blocks(step)
    )


def can_make(lift: LiftRecord, member: MemberRecord, place: PlaceRecord | None) -> bool:
    """Whether the implement of a lift stands at the place; where no place is known, everything does."""
    if place is None:
        return True
    if lift.implement in FIXED:
        return bool(places.fixed_masses(place, lift))
    return lift.implement not in ("barbell", "unasked") or places.bar_kit(member, place) is not None


def others_here(
    step: MemberStepRow, planned: PlannedSetRow, member: MemberRecord, place: PlaceRecord | None
) -> tuple[LiftRecord, ...]:
    """List the lifts of the coach's other ways for a set that stand at the place, each once; none where no place is known."""
    if place is None:
        return ()
    rows = (row for row in (*step.sets, *step.ways) if row.block == planned.block and row.lift.id != planned.lift.id)
    found = {row.lift.id: row.lift for row in rows if can_make(row.lift, member, place)}
    return tuple(found.values())


def blocks(step: MemberStepRow) -> Iterator[list[list[PlannedSetRow]]]:
    """Part the sets of a step by block, each with its ways, the first one first."""
    for block, rows in groupby(step.sets, key=lambda row: row.block):
        others = sorted((row for row in step.ways if row.block == block), key=lambda row: (row.way, row.position))
        yield [list(rows), *(list(way) for _, way in groupby(others, key=lambda row: row.way))]


def _choose(
    ways: list[list[PlannedSetRow]], member: MemberRecord, place: PlaceRecord | None, begun: set[str | None]
) -> list[PlannedSetRow]:
    taken = next((way for way in ways if any(row.id in begun for row in way)), None)
    makeable = [way for way in ways if can_make(way[0].lift, member, place)]
    meant = next((way for way in makeable if place is not None and _is_for(way, place)), None)
    written = next((way for way in ways if not makeable and place is not None and _is_for(way, place)), None)
    return taken or meant or written or next(iter(makeable), ways[0])


def _is_for(way: list[PlannedSetRow], place: PlaceRecord) -> bool:
    """Whether a coach wrote a way for this place: at home, in the hotel."""
    said = (note.removeprefix(FOR_WHERE) for note in way[0].lift_notes if note.startswith(FOR_WHERE))
    return way[0].way > 0 and any(written_for(each, place.name) for each in said)


def _rounds(way: list[PlannedSetRow]) -> set[Round]:
    return {(row.id, number) for row in way for number in range(1, row.sets + 1)}
