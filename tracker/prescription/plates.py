"""From a target load to discs on the bar: the closest load that a kit makes, with the fewest discs, exactly.

Half-way between two loads goes down (common practice). All sums are whole numbers or fractions, never floats.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import Literal, get_args

from tracker.errors import BadInputError
from tracker.prescription.kit import BarKit
from tracker.prescription.reach import GRAINS_PER_KG, Reach, grains_of, reach_of
from tracker.units import KG_PER_LB, MOST_KG, Mass, Unit, plain

Rounding = Literal["nearest", "down"]
FINEST = Decimal("0.000001")  # of a pound, where kilogram discs on a pound bar have no end of decimals


@dataclass(frozen=True, slots=True)
class Loading:
    """A loaded bar.

    `load` is the whole bar in the bar's unit: exact, but for kilogram discs on a pound bar, where it ends at a millionth
    of a pound; `kg` is always exact. `per_side` is heaviest first, with the fewest discs. `note` says why the load is
    not what was asked, where the kit is to blame.
    """

    load: Mass
    kg: Fraction
    per_side: tuple[Mass, ...]
    note: str | None = None


@lru_cache(maxsize=4096)
def load_bar(target: Mass, kit: BarKit, rounding: Rounding = "nearest") -> Loading:
    """Make the load closest to `target` that the kit can make; with `down` the closest that is not heavier.

    Below the empty bar it is the empty bar, `down` too, and where discs are too few the closest they make; both with a
    note.

    Raises:
        BadInputError: if the target is over 1,000 kg or no number, or the rounding is unknown.
    """
    return loadings_for(target, kit, rounding, 1)[0]


@lru_cache(maxsize=4096)
def loadings_for(target: Mass, kit: BarKit, rounding: Rounding, most: int) -> tuple[Loading, ...]:
    """Return up to `most` equal choices of discs for the load that `load_bar` makes, those with heavier discs first."""
    grains, note = chosen_sum(target, kit, rounding)
    kg = _kg(kit, grains)
    load = Mass(_in_unit(kg, kit.unit), kit.unit)
    return tuple(Loading(load, kg, way, note) for way in reach_of(kit).ways(grains, most))


def chosen_sum(target: Mass, kit: BarKit, rounding: Rounding) -> tuple[int, str | None]:
    """Choose the sum of discs on one side, in grains, for a target; and the note, where the kit can't do better."""
    check_rounding(rounding)
    room = _room(target, kit)
    if room < 0:
        asked, bar = as_asked(target), said(_bar_mass(kit, 0))
        return 0, f"{asked if asked != bar else said(target)} is below the empty bar of {bar}."
    best = _nearest(reach_of(kit), room, rounding)
    if best == room:
        return best, None
    if not any(disc.pairs != 0 for disc in kit.discs):
        return best, f"No discs for {as_asked(target)}: the bar alone is {said(_bar_mass(kit, 0))}."
    return best, _few_discs_note(target, kit, room, best, rounding)


def _few_discs_note(target: Mass, kit: BarKit, room: Fraction, best: int, rounding: Rounding) -> str | None:
    """Say that there are too few discs: the target is past all of them, or in a gap that more of the same would fill."""
    reach = reach_of(kit)
    if reach.above(best) is not None:
        most = _nearest(reach_of(kit, unlimited=True), room, rounding)
        smallest = min(grains_of(disc.mass) for disc in kit.discs if disc.pairs != 0)
        if abs(most - room) >= abs(best - room) or abs(best - room) <= smallest:
            return None
    made = _bar_mass(kit, best)
    also = "" if made.unit == target.unit else f", which is {said(Mass(made.to(target.unit), target.unit))}"
    closest = "the closest" if best == _nearest(reach, room, "nearest") else "the closest below it"
    return f"Too few discs for {as_asked(target)}: {closest} is {said(made)}{also}."


def loadings_near(load: Mass, kit: BarKit) -> tuple[Mass | None, Mass | None]:
    """Return the next lower and the next higher load that the kit makes; None where there is none."""
    reach, room = reach_of(kit), _room(load, kit)
    here = _in_unit(Fraction(load.kg), kit.unit)
    floor = room.numerator // room.denominator
    higher = reach.above(floor)
    while higher is not None and _bar_mass(kit, higher).amount <= here:  # the same load, but for a millionth of a pound
        higher = reach.above(higher)
    lower = reach.below(floor)
    while lower is not None and _bar_mass(kit, lower).amount >= here:
        lower = reach.below(lower - 1)
    return (
        None if lower is None else _bar_mass(kit, lower),
        None if higher is None or _kg(kit, higher) > MOST_KG else _bar_mass(kit, higher),
    )


def check_rounding(rounding: str) -> None:
    """Refuse a way of rounding that there is not."""
    if rounding not in get_args(Rounding):
        raise BadInputError(f"{rounding!r} is no way to round.", where="rounding", mend="Use nearest or down.")


def said(mass: Mass) -> str:
    """Say a mass to the gram, or a hundredth of a pound."""
    return f"{plain(round(mass.amount, 3 if mass.unit == 'kg' else 2))} {mass.unit}"


def as_asked(mass: Mass) -> str:
    """Say a target to a tenth, which is more than any disc tells apart; but quarters as they are, for people type them.

    >>> as_asked(Mass(Decimal("36.905"), "kg")), as_asked(Mass(Decimal("61.25"), "kg"))
    ('36.9 kg', '61.25 kg')
    """
    typed = mass.amount * 4 % 1 == 0
    return str(mass if typed else Mass(round(mass.amount, 1), mass.unit))


def _room(target: Mass, kit: BarKit) -> Fraction:
    """Grains that belong on each side for a target; below zero where the bar alone is heavier."""
    if not target.amount.is_finite() or target.kg > MOST_KG:
        raise BadInputError(f"{target} can't be loaded.", where="target", mend="Loads go up to 1,000 kg.")
    return (Fraction(target.kg) - Fraction(kit.empty_kg)) / 2 * GRAINS_PER_KG


def _nearest(reach: Reach, room: Fraction, rounding: Rounding) -> int:
    floor = room.numerator // room.denominator
    lower = reach.below(floor) or 0
    if rounding == "down" or lower == room:
        return lower
    higher = reach.above(floor)
    return higher if higher is not None and lower + higher < 2 * room else lower


def _kg(kit: BarKit, grains: int) -> Fraction:
    return Fraction(kit.empty_kg) + Fraction(2 * grains, GRAINS_PER_KG)


def _bar_mass(kit: BarKit, grains: int) -> Mass:
    return Mass(_in_unit(_kg(kit, grains), kit.unit), kit.unit)


def _in_unit(kg: Fraction, unit: Unit) -> Decimal:
    """Write kilograms as a decimal of `unit`: exact where it has an end, else to a millionth."""
    amount = kg if unit == "kg" else kg / Fraction(KG_PER_LB)
    power, left = 0, amount.denominator
    for prime in (2, 5):
        times = 0
        while left % prime == 0:
            left, times = left // prime, times + 1
        power = max(power, times)
    if left == 1:
        return Decimal(plain(Decimal(amount.numerator * 10**power // amount.denominator).scaleb(-power)))
    return (Decimal(amount.numerator) / amount.denominator).quantize(FINEST)
