"""Pulls from the floor: the bar lies right only on discs of full diameter, or raised as high as they would have it.

The largest discs have a diameter of 450 mm (technical rules of weightlifting, from memory). That rubber discs have it
from 10 kg (25 lb) up, and that a lighter bar is raised on blocks or plates, is common practice.
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from tracker.prescription.kit import BarKit, DiscPairs
from tracker.units import Mass, Unit

FULL_FROM: dict[Unit, Decimal] = {"kg": Decimal(10), "lb": Decimal(25)}  # common practice
RAISE = "Raise the bar on blocks or plates, so that it lies as high as with discs of full diameter (common practice)."
_PULLS, _QUICK = ("deadlift",), ("clean", "snatch")
_ELSEWHERE = ("romanian", "stiff", "straight", "hang", "block", "rack")  # begun from the top, or above the floor
_NO_PULL = ("balance", "grip")  # named after the snatch, and no snatch


def is_from_floor(name: str) -> bool:
    """Whether a lift of this name is pulled from the floor."""
    lift = name.casefold()
    if any(word in lift for word in _ELSEWHERE):
        return False
    return any(word in lift for word in _PULLS) or (
        any(word in lift for word in _QUICK) and not any(word in lift for word in _NO_PULL)
    )


def is_full(disc: DiscPairs) -> bool:
    """Whether discs have the full diameter: as the kit says of them, else by their mass."""
    return disc.mass.amount >= FULL_FROM[disc.mass.unit] if disc.full is None else disc.full


SAID = {True: "full diameter", False: "small diameter"}  # behind the name of a disc, where somebody said it


def full_in(label: str) -> bool | None:
    """Read from a disc's name whether it has the full diameter; None where the name says nothing of it."""
    return next((full for full, words in SAID.items() if words in label.casefold()), None)


def with_diameter(label: str, full: bool) -> str:
    """Say in a disc's name whether it has the full diameter."""
    for words in SAID.values():
        label = label.replace(f", {words}", "").replace(words, "").strip()
    return f"{label}, {SAID[full]}" if label else SAID[full]


def has_full(kit: BarKit, per_side: Iterable[Mass]) -> bool:
    """Whether one of the discs on a bar has the full diameter, by what the kit says of discs of its mass."""
    full = {disc.mass for disc in kit.discs if is_full(disc)}
    return any(disc in full for disc in per_side)


def is_asked(kit: BarKit) -> bool:
    """Whether nobody has said yet which of a kit's discs have the full diameter."""
    return all(disc.full is None for disc in kit.discs)


def lightest_from_floor(kit: BarKit) -> Mass | None:
    """Return the bar with its lightest pair of full discs, in its unit; None where the kit has none."""
    full = [disc.mass for disc in kit.discs if disc.pairs != 0 and is_full(disc)]
    if not full:
        return None
    lightest = min(full, key=lambda disc: disc.kg)
    return Mass(Mass(kit.empty_kg + 2 * lightest.kg, "kg").to(kit.unit), kit.unit)
