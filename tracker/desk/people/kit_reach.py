"""What a place's kit can make, by what is held: from the lightest to the heaviest, and in which steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from itertools import pairwise

from tracker.desk.people import places
from tracker.log.records import KitItemRecord, KitKind, PlaceRecord
from tracker.prescription.kit import BarKit
from tracker.prescription.plates import loadings_near
from tracker.units import Mass, Unit, plain

FIXED: dict[KitKind, str] = {"dumbbell": "Dumbbells", "kettlebell": "Kettlebells"}
UNITS: tuple[Unit, ...] = ("kg", "lb")
NEAR = 60  # loads above the empty bar that are tried for the smallest step; design choice


LONG_SLEEVE_CM, SHORT_SLEEVE_CM, FASTENER_CM = (
    41.5,
    32.0,
    3.0,
)  # of a 20 kg and a 15 kg bar, and a collar: common practice
SHORT_UP_TO_KG = 16  # a bar up to 15 kg or 35 lb has the short sleeve
# What a rubber disc of a gym takes of a sleeve, by the mass from which on it does: from memory, and thicker ones are sold.
ROOM_CM = ((17.5, 8.0), (12.5, 7.0), (7.5, 6.0), (3.5, 3.0), (2.0, 2.0), (0.0, 1.5))


@dataclass(frozen=True, slots=True)
class KitReach:
    """What one bar with the discs here makes, or a row of fixed weights; `most` None: as much as goes on the bar."""

    what: str
    least: Mass
    most: Mass | None
    step: Mass | None  # the smallest between two loads; None where there is but one load
    widest: Mass | None = None  # the widest, where it is another one
    even: bool = True  # whether all steps were looked at and are alike
    sleeve: bool = False  # whether `most` is what a sleeve takes, and not all that lies there

    @property
    def span(self) -> str:
        """Say from where to where: `20 to 137.5 kg`, `from 20 kg`."""
        if self.most is None:
            return f"from {self.least}"
        if self.most == self.least:
            return str(self.least)
        return f"{plain(self.least.amount)} to {'about ' if self.sleeve else ''}{self.most}"

    @property
    def steps(self) -> str:
        """Say by how much, the smallest step first: `by 2.5 kg`, `by 2.5 to 5 kg`, `by 2.5 kg or more`."""
        if self.step is None:
            return "one load"
        if not self.even:
            return f"by {self.step} or more"
        if self.widest is None:
            return f"by {self.step}"
        return f"by {plain(self.step.amount)} to {self.widest}"


def reach(place: PlaceRecord) -> tuple[KitReach, ...]:
    """List what the kit of a place makes: each bar, then dumbbells, kettlebells and machines with a known step."""
    found = [_bar(place, bar) for bar in place.of_kind("bar") if bar.mass]
    for kind, what in FIXED.items():
        for unit in UNITS:
            masses = sorted(
                {
                    each.mass.amount
                    for each in place.of_kind(kind)
                    if each.mass and each.mass.unit == unit and each.number != 0
                }
            )
            if masses:
                found.append(_row(what, masses, unit))
    for each in place.of_kind("machine"):
        if each.mass:
            name = each.label[:1].upper() + each.label[1:]
            found.append(KitReach(name, each.mass, None, each.mass))
    return tuple(found)


@lru_cache(64)  # of frozen records: a page is drawn again at each touch
def _bar(place: PlaceRecord, bar: KitItemRecord) -> KitReach:
    kit = places.kit_with(place, bar)
    assert kit is not None
    empty = Mass(kit.bar.amount + (Mass(kit.collars.to(kit.unit), kit.unit).amount if kit.collars else 0), kit.unit)
    loads = [empty.amount]
    while len(loads) < NEAR and (above := loadings_near(Mass(loads[-1], kit.unit), kit)[1]) is not None:
        loads.append(above.amount)
    gaps = [after - before for before, after in pairwise(loads)]
    step = Mass(min(gaps), kit.unit) if gaps else None
    most, sleeve = None, False
    if all(disc.pairs is not None for disc in kit.discs):
        fitting, left = _on_a_sleeve(kit)
        sleeve = bool(left)
        most = Mass(empty.amount + 2 * fitting, kit.unit)
        if sleeve:
            ten = Mass(most.amount // 10 * 10, kit.unit)
            most = ten if ten.amount > empty.amount else most
    name = bar.label[:1].upper() + bar.label[1:]
    ended = most is None or len(loads) < NEAR  # without an end it goes on as it began
    return KitReach(name, empty, most, step, even=ended and len(set(gaps)) <= 1, sleeve=sleeve)


def _on_a_sleeve(kit: BarKit) -> tuple[Decimal, bool]:
    """How much goes on one sleeve, the heaviest first, in the kit's unit; and whether discs are left that don't."""
    room = (SHORT_SLEEVE_CM if kit.bar.kg <= SHORT_UP_TO_KG else LONG_SLEEVE_CM) - FASTENER_CM
    total, left = Decimal(0), False
    for disc in sorted(kit.discs, key=lambda each: each.mass.kg, reverse=True):
        wide = next(wide for mass, wide in ROOM_CM if disc.mass.kg >= mass)
        number = min(disc.pairs or 0, int(room // wide))
        left |= number < (disc.pairs or 0)
        room -= number * wide
        total += disc.mass.to(kit.unit) * number
    return total, left


def _row(what: str, masses: Sequence[Decimal], unit: Unit) -> KitReach:
    gaps = [after - before for before, after in pairwise(masses)]
    step, widest = (Mass(min(gaps), unit), Mass(max(gaps), unit)) if gaps else (None, None)
    return KitReach(what, Mass(masses[0], unit), Mass(masses[-1], unit), step, widest if step != widest else None)
