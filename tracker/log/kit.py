"""Places and what stands there."""

from __future__ import annotations

from collections.abc import Iterable

from sqlalchemy import select
from sqlalchemy.orm import Session as OrmSession
from sqlalchemy.orm import selectinload

from tracker.log.columns import now
from tracker.log.models import KitItem, Place
from tracker.log.records import KitItemRecord, PlaceRecord
from tracker.log.row_access import name_counts
from tracker.log.unit_of_work import Act
from tracker.units import Mass, Unit


def item_record(item: KitItem) -> KitItemRecord:
    mass = None if item.mass is None else Mass(item.mass, item.unit)
    return KitItemRecord(item.id, item.kind, item.label, mass, item.number)


def place_record(place: Place) -> PlaceRecord:
    return PlaceRecord(place.id, place.name, place.unit, place.pins, tuple(item_record(item) for item in place.items))


def places(session: OrmSession) -> tuple[PlaceRecord, ...]:
    """List the places by name, each with its kit."""
    found = session.scalars(
        select(Place).where(Place.removed_at.is_(None)).order_by(Place.name).options(selectinload(Place.items))
    )
    return tuple(place_record(place) for place in found)


def of_gym(session: OrmSession) -> tuple[PlaceRecord, ...]:
    """List the places that are everybody's, by name: none that is private to a member, whoever asks."""
    found = session.scalars(
        select(Place).where(Place.removed_at.is_(None), Place.private_to.is_(None)).order_by(Place.name)
    )
    return tuple(place_record(place) for place in found.all())


def names(session: OrmSession) -> tuple[tuple[str, str], ...]:
    """List ids and names of the places that a new one must not be called like."""
    query = select(Place.id, Place.name).where(Place.removed_at.is_(None), name_counts(Place))
    return tuple((found, name) for found, name in session.execute(query))


def place(session: OrmSession, place_id: str) -> PlaceRecord | None:
    found = session.get(Place, place_id)
    return place_record(found) if found and found.removed_at is None else None


def add_place(
    act: Act, name: str, unit: Unit, *, pins: bool = True, items: Iterable[KitItemRecord] = ()
) -> PlaceRecord:
    """Add a place with its kit; the items' ids are made anew."""
    new = Place(name=name, unit=unit, pins=pins, items=_items(items))
    act.session.add(new)
    act.session.flush()
    return place_record(new)


def change_place(
    act: Act, place_id: str, *, name: str, unit: Unit, pins: bool, items: Iterable[KitItemRecord]
) -> PlaceRecord:
    """Change a place and its kit; items keep their id where it is known, others are new, missing ones go."""
    found = act.session.get_one(Place, place_id)
    found.name, found.unit, found.pins = name, unit, pins
    known = {item.id: item for item in found.items}
    wanted: list[KitItem] = []
    for position, item in enumerate(items):
        row = known.get(item.id) or KitItem()
        _fill(row, item, position)
        wanted.append(row)
    found.items = wanted
    act.session.flush()
    return place_record(found)


def remove_place(act: Act, place_id: str) -> None:
    """Take a place out of the lists; its name becomes free for another one, and undo gives it back."""
    found = act.session.get_one(Place, place_id)
    found.removed_at, found.name = now(), f"{found.name} (removed {found.id[:8]})"
    act.session.flush()


def _items(items: Iterable[KitItemRecord]) -> list[KitItem]:
    rows: list[KitItem] = []
    for position, item in enumerate(items):
        row = KitItem()
        _fill(row, item, position)
        rows.append(row)
    return rows


def _fill(row: KitItem, item: KitItemRecord, position: int) -> None:
    row.kind, row.label, row.number, row.position = item.kind, item.label, item.number, position
    row.mass, row.unit = (item.mass.amount, item.mass.unit) if item.mass else (None, "kg")
