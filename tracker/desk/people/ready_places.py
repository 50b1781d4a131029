"""Ready kits of a whole place: what most have at home or in a gym, to start from and to change.

Masses and numbers are common practice; nothing of it is a rule.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from tracker.desk.people import places
from tracker.log.records import KitItemRecord, KitKind
from tracker.prescription.kit import POUND_KIT, STANDARD_KIT
from tracker.units import Mass, Unit, plain
from tracker.wording import counted

Ready = Literal["dumbbells", "rack", "gym", "floor"]
BARS = {"kg": ("20", "15"), "lb": ("45", "35")}  # the two bars of common gyms; common practice
_PAIRS = {"kg": "20:1 15:1 10:1 5:2 2.5:1 1.25:1", "lb": "45:1 35:1 25:1 10:2 5:1 2.5:1"}
_HOME_BELLS = {"kg": "5 7.5 10 12.5 15 17.5 20", "lb": "10 15 20 25 30 35 40 45"}
_GYM_BELLS = {"kg": "5 7.5 10 12.5 15 17.5 20 22.5 25 27.5 30", "lb": "10 15 20 25 30 35 40 45 50 55 60"}
_KETTLEBELLS = {"kg": "8 12 16 20 24 32", "lb": "18 26 35 44 53 70"}
_BALLS = {"kg": "6 9", "lb": "14 20"}


@dataclass(frozen=True, slots=True)
class FirstPlace:
    """Where somebody trains at first, with what stands there."""

    name: str
    unit: Unit
    items: Sequence[KitItemRecord]
    alone: bool = False
    pins: bool = True


TITLES: dict[Ready, str] = {
    "dumbbells": "Home: dumbbells",
    "rack": "Home: rack and bar",
    "gym": "Gym",
    "floor": "No kit: body weight",
}


def ready_place(kind: Ready, unit: Unit) -> FirstPlace:
    """Return a ready place of a kind, with masses of the unit."""
    if kind == "gym":
        kit = POUND_KIT if unit == "lb" else STANDARD_KIT
        bars = tuple(_item("bar", mass, unit, 1, f"{mass} {unit} bar") for mass in BARS[unit])
        fixed = (
            *_row("dumbbell", _GYM_BELLS, unit, 2),
            *_row("kettlebell", _KETTLEBELLS, unit, 2),
            *_row("ball", _BALLS, unit, 1),
        )
        return FirstPlace("Gym", unit, (*bars, *places.items_of(kit)[1:], *fixed))
    if kind == "rack":
        pairs = (each.split(":") for each in _PAIRS[unit].split())
        discs = tuple(_item("disc", mass, unit, int(number)) for mass, number in pairs)
        bar = _item("bar", BARS[unit][0], unit, 1, f"{BARS[unit][0]} {unit} bar")
        return FirstPlace("Home", unit, (bar, *discs), alone=True)
    bells = _row("dumbbell", _HOME_BELLS, unit, 2) if kind == "dumbbells" else ()
    return FirstPlace("Home", unit, bells, alone=True, pins=False)


def inside(kind: Ready, unit: Unit) -> str:
    """Say in a line what stands in a ready place."""
    items = ready_place(kind, unit).items
    of = {
        each: [item for item in items if item.kind == each]
        for each in ("bar", "disc", "dumbbell", "kettlebell", "ball")
    }
    if kind == "floor":
        return "Push-ups, squats, pull-ups; kit can be added later."
    if kind == "dumbbells":
        return f"Pairs of {_span(of['dumbbell'], unit)}."
    if kind == "rack":
        side = sum((item.mass.amount * (item.number or 0) for item in of["disc"] if item.mass), Decimal(0))
        bar = of["bar"][0].mass
        most = (bar.amount if bar else Decimal(0)) + 2 * side
        return f"A bar of {bar}, discs for up to {plain(most)} {unit}, safety pins."
    bars = " and ".join(plain(item.mass.amount) for item in of["bar"] if item.mass)
    return (
        f"Bars of {bars} {unit}, all discs, dumbbells {_span(of['dumbbell'], unit)}, "
        f"{counted(len(of['kettlebell']), 'kettlebell')}, {counted(len(of['ball']), 'ball')}."
    )


def _span(items: Sequence[KitItemRecord], unit: Unit) -> str:
    masses = [item.mass.amount for item in items if item.mass]
    return f"{plain(min(masses))} to {plain(max(masses))} {unit}"


def _row(kind: KitKind, masses: dict[str, str], unit: Unit, number: int) -> tuple[KitItemRecord, ...]:
    return tuple(_item(kind, mass, unit, number) for mass in masses[unit].split())


def _item(kind: KitKind, mass: str, unit: Unit, number: int, label: str = "") -> KitItemRecord:
    return KitItemRecord("", kind, label or mass, Mass(Decimal(mass), unit), number)
