"""Which sums discs on one side of a bar can make, and the fewest discs for each; exact, in whole numbers.

Discs of one unit lie on a common grid (1.25 kg for most gyms, a gram for measured ones). The sums they reach are the set
bits of one integer, so that a shift adds a disc to all of them at once. Kilograms and pounds have no common grid worth
having: each unit has its own, and a sum of both is one of each.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property, lru_cache
from math import gcd

from tracker.prescription.kit import MOST_DECIMALS, BarKit
from tracker.units import MOST_KG, Mass, Unit

GRAIN_DECIMALS = MOST_DECIMALS + 8  # a pound has 8 decimals of a kilogram, so every disc is whole in this grain
GRAINS_PER_KG = 10**GRAIN_DECIMALS
GRAINS_PER_STEP: dict[Unit, int] = {"kg": 10**8, "lb": 45359237}  # of 0.0001 kg and of 0.0001 lb
MOST_A_SIDE = int(MOST_KG) * GRAINS_PER_KG // 2


@dataclass(frozen=True)
class UnitReach:
    """The sums of discs of one unit: `masses` in steps of `grid` grains, heaviest first, with how many of each there are."""

    grid: int
    masses: tuple[int, ...]
    counts: tuple[int, ...]
    discs: tuple[Mass, ...]

    @cached_property
    def _tails(self) -> tuple[int, ...]:
        """Sums of the discs from each place on, as set bits; the last, of no discs, is the sum 0 alone."""
        tails = [1]
        inside = (
            1 << (MOST_A_SIDE // self.grid + max(self.masses, default=0) + 1)
        ) - 1  # one disc past all that is lifted
        for mass, count in zip(reversed(self.masses), reversed(self.counts), strict=True):
            bits, left, chunk = tails[-1], count, 1
            while left:
                taken = min(chunk, left)
                bits |= bits << (mass * taken)
                left, chunk = left - taken, chunk * 2
            tails.append(bits & inside)
        return tuple(reversed(tails))

    @cached_property
    def _member(self) -> tuple[bytes, ...]:
        return tuple(bits.to_bytes((bits.bit_length() + 7) // 8, "little") for bits in self._tails)

    @cached_property
    def _known(self) -> dict[tuple[int, int], int]:
        """Fewest discs found so far, by place and what is left; filled as sums are asked for."""
        return {}

    @property
    def size(self) -> int:
        """How many different sums there are."""
        return self._tails[0].bit_count()

    @cached_property
    def sums(self) -> tuple[int, ...]:
        """All sums in grains, lightest first."""
        written = bin(self._tails[0])[:1:-1]
        return tuple(place * self.grid for place, bit in enumerate(written) if bit == "1")

    def below(self, grains: int) -> int | None:
        """Return the largest sum of at most `grains`."""
        if grains < 0:
            return None
        bits = self._tails[0] & ((1 << (grains // self.grid + 1)) - 1)
        return (bits.bit_length() - 1) * self.grid

    def above(self, grains: int) -> int | None:
        """Return the smallest sum of more than `grains`; None past the heaviest."""
        if grains < 0:
            return 0
        first = grains // self.grid + 1
        bits = self._tails[0] >> first
        return (first + (bits & -bits).bit_length() - 1) * self.grid if bits else None

    def ways(self, grains: int, most: int) -> tuple[tuple[Mass, ...], ...]:
        """Return up to `most` ways to make a sum with the fewest discs, those with heavier discs first."""
        left = grains // self.grid
        found = self._walk(0, left, self._count(0, left))
        return tuple(counts for counts, _ in zip(found, range(most), strict=False))

    def _can(self, place: int, left: int) -> bool:
        row = self._member[place]
        return left >> 3 < len(row) and row[left >> 3] >> (left & 7) & 1 == 1

    def _count(self, place: int, left: int) -> int:
        """Count the fewest discs from `place` on for a sum that they can make."""
        if left == 0:
            return 0
        if (place, left) in self._known:
            return self._known[place, left]
        mass, best = self.masses[place], left + 1
        for used in range(min(self.counts[place], left // mass), -1, -1):
            rest = left - used * mass
            lighter = self.masses[place + 1] if place + 1 < len(self.masses) else 1
            if used + -(-rest // lighter) >= best:
                break  # fewer of this disc need at least as many in all: each one less is replaced by one or more
            if self._can(place + 1, rest):
                best = min(best, used + self._count(place + 1, rest))
        self._known[place, left] = best
        return best

    def _walk(self, place: int, left: int, fewest: int) -> Iterator[tuple[Mass, ...]]:
        """Walk all ways of exactly `fewest` discs from `place` on, more of the heavier first."""
        if left == 0:
            if fewest == 0:
                yield ()
            return
        if place == len(self.masses):
            return
        mass = self.masses[place]
        for used in range(min(self.counts[place], left // mass, fewest), -1, -1):
            rest = left - used * mass
            lighter = self.masses[place + 1] if place + 1 < len(self.masses) else 0
            if rest > (fewest - used) * lighter:
                break
            if self._can(place + 1, rest) and self._count(place + 1, rest) == fewest - used:
                for way in self._walk(place + 1, rest, fewest - used):
                    yield (self.discs[place],) * used + way


@dataclass(frozen=True)
class Reach:
    """The sums that all discs of a kit make on one side, in grains."""

    few: UnitReach  # the unit with fewer sums: each of them is tried with the nearest of the other
    many: UnitReach

    def below(self, grains: int) -> int | None:
        """Return the largest sum of at most `grains`; None below zero."""
        if self.few.size == 1:
            return self.many.below(grains)
        found = (each + (self.many.below(grains - each) or 0) for each in self.few.sums if each <= grains)
        return max(found, default=None)

    def above(self, grains: int) -> int | None:
        """Return the smallest sum of more than `grains`; None past the heaviest."""
        if self.few.size == 1:
            return self.many.above(grains)
        rests = ((each, self.many.above(grains - each)) for each in self.few.sums)
        return min((each + rest for each, rest in rests if rest is not None), default=None)

    def ways(self, grains: int, most: int = 1) -> tuple[tuple[Mass, ...], ...]:
        """Return up to `most` ways to make a sum of this reach with the fewest discs, each heaviest first."""
        few = self._part(grains)
        ways = (one + two for one in self.few.ways(few, most) for two in self.many.ways(grains - few, most))
        return tuple(
            tuple(sorted(way, key=lambda disc: disc.kg, reverse=True))
            for way, _ in zip(ways, range(most), strict=False)
        )

    def _part(self, grains: int) -> int:
        """Find the part of a sum that the unit with fewer sums makes; there is only one, as the grids never meet again."""
        if self.few.size == 1:
            return 0
        return next(
            each for each in self.few.sums if each <= grains and self.many.below(grains - each) == grains - each
        )


def _unit_reach(kit: BarKit, unit: Unit, unlimited: bool) -> UnitReach:
    counts: dict[Decimal, int] = {}
    for disc in kit.discs:
        if disc.mass.unit == unit and disc.pairs != 0:
            grains = grains_of(disc.mass)
            enough = MOST_A_SIDE // grains + 1
            here = enough if unlimited or disc.pairs is None else min(disc.pairs, enough)
            counts[disc.mass.amount] = min(counts.get(disc.mass.amount, 0) + here, enough)
    amounts = sorted(counts, reverse=True)
    steps = [grains_of(Mass(amount, unit)) for amount in amounts]
    grid = gcd(*steps) if steps else GRAINS_PER_STEP[unit]
    return UnitReach(
        grid,
        tuple(step // grid for step in steps),
        tuple(counts[amount] for amount in amounts),
        tuple(Mass(amount, unit) for amount in amounts),
    )


def grains_of(mass: Mass) -> int:
    """Return the mass of a disc in grains, exact."""
    return int(mass.amount.scaleb(MOST_DECIMALS)) * GRAINS_PER_STEP[mass.unit]


@lru_cache(maxsize=64)
def reach_of(kit: BarKit, unlimited: bool = False) -> Reach:
    """Return what a kit's discs make on one side; `unlimited` as if there were as many of each as needed."""
    few, many = sorted((_unit_reach(kit, unit, unlimited) for unit in GRAINS_PER_STEP), key=lambda each: each.size)
    return Reach(few, many)
