"""Kilograms or pounds for one lift, or for all of one day: as the discs and dumbbells of a visited gym are stamped.

It holds for that day alone, and changes nothing that was logged before. What stands at the member's own place is in that unit
or not there: where it is not, loads are made of common discs of the unit.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from tracker.desk.base.roles import may
from tracker.desk.day.scene import Scene
from tracker.errors import BadInputError
from tracker.log import choices as log_choices
from tracker.log import members as log_members
from tracker.log.choices import Choice, What
from tracker.log.records import MemberRecord, PlaceRecord
from tracker.log.unit_of_work import Log
from tracker.units import UNITS, Unit

WHAT: What = "unit today"
NAMES: dict[Unit, str] = {"kg": "kilograms", "lb": "pounds"}


def chosen(choices: Iterable[Choice], lift_id: str, day: date) -> Unit | None:
    """Return the unit that was said for a lift or for all lifts of a day, the newest word first; None where nobody said one."""
    said = (each for each in choices if each.what == WHAT and each.day == day and each.get("lift") in (lift_id, ""))
    unit = next((each.get("unit") for each in said), "")
    return "kg" if unit == "kg" else "lb" if unit == "lb" else None


def seen(
    member: MemberRecord, place: PlaceRecord | None, choices: Iterable[Choice], lift_id: str, day: date
) -> tuple[MemberRecord, PlaceRecord | None]:
    """Return member and place as a lift's loads are made for them on a day: in the unit that was said, with what has it."""
    unit = chosen(choices, lift_id, day)
    if unit is None:
        return member, place
    has_it = place is not None and any(item.mass is not None and item.mass.unit == unit for item in place.items)
    return replace(member, unit=unit), place if has_it else None


def in_unit(scene: Scene, lift_id: str) -> Scene:
    """Return the scene as the loads of a lift are made in it."""
    member, place = seen(scene.member, scene.place, scene.choices, lift_id, scene.day)
    return scene if member is scene.member else replace(scene, member=member, place=place, in_unit=member.unit)


@may("change")
def say(log: Log, member_id: str, unit: Unit, day: date, *, lift_id: str = "") -> None:
    """Take a unit for a lift, or without one for all lifts of a day; undo takes it back.

    Raises:
        BadInputError: if there is no such unit.
    """
    if unit not in UNITS:
        raise BadInputError(f"{unit!r} is not a unit of load.", where="unit", mend="Choose kg or lb.")
    with log.act("chose a unit for the day", member_id, own=True) as act:
        lift = log_members.lift(act.session, lift_id) if lift_id else None
        act.words = f"{lift.title if lift else 'all lifts'}: in {NAMES[unit]} on {day.isoformat()}"
        log_choices.choose(act, member_id, WHAT, day, lift=lift_id, unit=unit)
