"""What stands at a place, changed one thing at a time; each change is one act that can be undone."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import get_args

from tracker.desk.base.roles import may
from tracker.desk.people import places
from tracker.desk.people.ready_places import TITLES, Ready, ready_place
from tracker.errors import BadInputError
from tracker.log import kit as log_kit
from tracker.log.records import KitItemRecord, KitKind, PlaceRecord
from tracker.log.unit_of_work import Log
from tracker.prescription.floor import with_diameter
from tracker.prescription.kit import POUND_KIT, READY_KITS, STANDARD_KIT, ReadyKit
from tracker.units import Mass, Unit, check_load, parse_mass, plain

KINDS: dict[KitKind, tuple[str, str]] = {  # one, many
    "bar": ("bar", "Bars"),
    "collars": ("pair of collars", "Collars"),
    "disc": ("pair of discs", "Discs"),
    "dumbbell": ("dumbbell", "Dumbbells"),
    "kettlebell": ("kettlebell", "Kettlebells"),
    "ball": ("ball", "Balls"),
    "band": ("band", "Bands"),
    "machine": ("machine", "Machines"),
}
LOADED: tuple[KitKind, ...] = ("bar", "collars", "disc")  # what a ready kit brings
MOST_LETTERS, MOST_NUMBER = 60, 1000
READY = READY_KITS


def read_item(kind: KitKind, mass: str, number: str, label: str, unit: Unit, *, item_id: str = "") -> KitItemRecord:
    """Read what a form says of one thing: a mass as measured or stamped, how many, and a name.

    Args:
        kind: What it is.
        mass: A load such as `19,8` or `45 lb`, of a machine the smallest step of its stack; blank only for bands, collars and
            machines.
        number: How many (pairs of discs, pieces of the others); blank is as many as needed.
        label: A name; blank for the mass.
        unit: The unit of a mass without one.
        item_id: Which thing it replaces; empty for a new one.

    Raises:
        BadInputError: with the field and the way to mend it.
    """
    assert kind in get_args(KitKind)
    read = parse_mass(mass, unit=unit, where="mass") if mass.strip() else None
    if read is None and kind not in ("band", "collars", "machine"):
        raise BadInputError("It has no mass.", where="mass", mend="Type what it weighs.")
    if read is not None and kind != "collars":
        check_load(read, where="mass")
    if read is not None and (read.amount < 0 or (read.kg > 100 and kind == "collars")):
        raise BadInputError(f"Collars of {read} can't be.", where="mass", mend="Write what the pair weighs.")
    if re.search(r"[.]\d{5,}", plain(read.amount) if read else ""):
        raise BadInputError("That is finer than a scale tells.", where="mass", mend="Use at most 4 decimals.")
    label = " ".join(label.split())
    if len(label) > MOST_LETTERS or not label.isprintable():
        raise BadInputError("This name can't be.", where="name", mend=f"Use at most {MOST_LETTERS} letters.")
    if kind == "band" and not label:
        raise BadInputError("The band has no name.", where="name", mend="Type a name, such as thin.")
    return KitItemRecord(item_id, kind, label or _name(kind, read), read, read_number(number))


def _name(kind: KitKind, mass: Mass | None) -> str:
    if kind == "machine":
        return places.ANY_MACHINE
    if kind == "collars":
        return "collars, the pair"
    return f"{mass} bar" if kind == "bar" else plain(mass.amount) if mass else ""


def read_number(text: str) -> int | None:
    """Read how many there are; blank is as many as needed.

    Raises:
        BadInputError: if it is no whole number up to 1,000.
    """
    if not text.strip():
        return None
    if not re.fullmatch(r"\s*\d{1,4}\s*", text, re.ASCII) or int(text) > MOST_NUMBER:
        raise BadInputError(
            f"{text.strip()!r} is no number of pieces.",
            where="how many",
            mend=f"Write a whole number up to {MOST_NUMBER:,}, or leave it blank for as many as needed.",
        )
    return int(text)


@may("common")
def begin_place(
    log: Log, name: str, unit: Unit, member_id: str | None, *, ready: Ready | None = None, empty: bool = False
) -> PlaceRecord:
    """Add a place, with a ready kit, with the common bar and discs of its unit, or with nothing.

    Raises:
        BadInputError: if the name is empty or taken.
    """
    name = places.free_name(log, name)
    start = ready_place(ready, unit) if ready else None
    items = start.items if start else () if empty else places.items_of(POUND_KIT if unit == "lb" else STANDARD_KIT)
    with log.act(f"added the place {name}", member_id) as act:
        return log_kit.add_place(act, name, unit, pins=start.pins if start else False, items=items)


@may("common")
def take_ready_place(log: Log, place: PlaceRecord, ready: Ready, member_id: str | None) -> PlaceRecord:
    """Put a ready kit into a place: it takes the place of what is there of its kinds, and all else stays."""
    new = ready_place(ready, place.unit).items
    kinds = {each.kind for each in new}
    if "bar" in kinds:
        kinds.add("collars")
    return _change(
        log,
        place.id,
        lambda items: _in_order((*new, *(each for each in items if each.kind not in kinds))),
        f"took the kit {TITLES[ready]} for",
        member_id,
    )


@may("common")
def put_item(log: Log, place_id: str, item: KitItemRecord, member_id: str | None) -> PlaceRecord:
    """Put one thing into a place, or change it where it has the id of one that is there.

    Raises:
        BadInputError: if the place is gone, or the same thing is there already.
    """

    def with_it(items: tuple[KitItemRecord, ...]) -> tuple[KitItemRecord, ...]:
        if item.id and all(each.id != item.id for each in items):
            raise BadInputError("This is not there any more.", where=_said(item), mend="Reload the page.")
        others = [each for each in items if each.id != item.id]
        if any(_alike(each, item) for each in others):
            raise BadInputError(
                f"{_said(item)} is there already.", where=KINDS[item.kind][0], mend="Change how many there are."
            )
        if item.id:
            return tuple(item if each.id == item.id else each for each in items)
        return _in_order((*items, item))

    words = f"changed {_said(item)}" if item.id else f"added {_said(item)}"
    return _change(log, place_id, with_it, f"{words} at", member_id)


@may("common")
def put_fixed(
    log: Log, place_id: str, kind: KitKind, masses: Iterable[Mass], number: int | None, member_id: str
) -> PlaceRecord:
    """Put several dumbbells, kettlebells, balls or discs into a place at once; those that are there stay as they are."""
    new = tuple(KitItemRecord("", kind, plain(mass.amount), mass, number) for mass in masses)
    if not new:
        raise BadInputError("No mass was typed.", where=KINDS[kind][1], mend="Type masses, such as 10 12.5 15.")
    places.check_items(new)
    return _change(
        log,
        place_id,
        lambda items: _in_order((*items, *(each for each in new if not any(_alike(each, old) for old in items)))),
        f"added {KINDS[kind][1].lower()} at",
        member_id,
    )


@may("common")
def say_full(log: Log, place_id: str, lightest: Mass | None, member_id: str | None) -> PlaceRecord:
    """Say which discs of a place have the full diameter: those from `lightest` on; None where none has it."""
    words = (
        f"said that discs from {lightest} on have the full diameter"
        if lightest
        else "said that no disc has the full diameter"
    )
    return _change(
        log,
        place_id,
        lambda items: tuple(
            replace(each, label=with_diameter(each.label, lightest is not None and each.mass.kg >= lightest.kg))
            if each.kind == "disc" and each.mass
            else each
            for each in items
        ),
        f"{words} at",
        member_id,
    )


@may("common")
def remove_item(log: Log, place_id: str, item: KitItemRecord, member_id: str | None) -> PlaceRecord:
    """Take one thing out of a place; undo brings it back."""
    return _change(
        log,
        place_id,
        lambda items: tuple(each for each in items if each.id != item.id),
        f"removed {_said(item)} at",
        member_id,
    )


@may("common")
def take_ready_kit(log: Log, place_id: str, ready: ReadyKit, member_id: str | None) -> PlaceRecord:
    """Put bar, collars and discs of a ready kit in place of those that are there; all else stays."""
    return _change(
        log,
        place_id,
        lambda items: (*places.items_of(ready.kit), *(each for each in items if each.kind not in LOADED)),
        f"took the kit {ready.name} for",
        member_id,
    )


def _change(
    log: Log,
    place_id: str,
    how: Callable[[tuple[KitItemRecord, ...]], tuple[KitItemRecord, ...]],
    words: str,
    member_id: str | None,
) -> PlaceRecord:
    with log.act(words, member_id) as act:
        place = log_kit.place(act.session, place_id)
        if place is None:
            raise BadInputError("This place is not in the log any more.", where="place", mend="Reload the page.")
        act.words = f"{words} {place.name}"
        items = how(place.items)
        places.check_items(items)
        return log_kit.change_place(act, place.id, name=place.name, unit=place.unit, pins=place.pins, items=items)


@may("common")
def change_facts(
    log: Log, place: PlaceRecord, member_id: str | None, *, name: str, unit: Unit, pins: bool
) -> PlaceRecord:
    """Rename a place, or say its unit and whether it has pins or safety arms."""
    return places.change_place(log, replace(place, name=name, unit=unit, pins=pins), member_id)


def _alike(one: KitItemRecord, other: KitItemRecord) -> bool:
    same_mass = (one.mass.kg if one.mass else None) == (other.mass.kg if other.mass else None)
    same_name = one.label.casefold() == other.label.casefold()
    if one.kind != other.kind:
        return False
    if one.kind == "machine":
        return same_name  # one of a name, whatever its step
    return same_mass and same_name if one.kind in ("bar", "disc") else same_mass and (one.kind != "band" or same_name)


def _in_order(items: Iterable[KitItemRecord]) -> tuple[KitItemRecord, ...]:
    """Keep kinds together; discs and bars heaviest first, fixed masses lightest first."""
    order = list(KINDS)

    def place(item: KitItemRecord) -> tuple[int, float]:
        mass = float(item.mass.kg) if item.mass else 0.0
        return order.index(item.kind), -mass if item.kind in LOADED else mass

    return tuple(sorted(items, key=place))


def _said(item: KitItemRecord) -> str:
    mass = str(item.mass) if item.mass and item.kind != "machine" else ""
    kind = KINDS[item.kind][0]
    return kind if item.label == kind else f"{kind} {mass or item.label}".strip()
