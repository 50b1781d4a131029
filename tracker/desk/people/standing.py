"""What stands at a place and makes no load: a rower, a box, a pull-up bar; kept among its machines, by name alone."""

from __future__ import annotations

from tracker.log.records import KitItemRecord, PlaceRecord

STANDING: tuple[str, ...] = (
    "rower", "bike", "ski machine", "treadmill", "pull-up bar", "rings", "box", "bench", "rack", "jump rope",
)  # fmt: skip


def is_standing(item: KitItemRecord) -> bool:
    """Whether a thing is one of these, and so no machine with a stack that a lift could be done with."""
    return item.kind == "machine" and item.mass is None and item.label.casefold() in STANDING


def standing_at(place: PlaceRecord) -> dict[str, KitItemRecord]:
    """Return these things of a place by their names, in the order in which they are offered."""
    known = {item.label.casefold(): item for item in place.of_kind("machine") if is_standing(item)}
    return {name: known[name] for name in STANDING if name in known}


def stacks_at(place: PlaceRecord) -> tuple[KitItemRecord, ...]:
    """Return the machines of a place that loads are made with."""
    return tuple(item for item in place.of_kind("machine") if not is_standing(item))
