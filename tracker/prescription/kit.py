"""What can be loaded: a bar, its collars, and pairs of discs; ready kits with their rule book and status.

Kilograms and pounds may be mixed, and masses may be measured ones: a gym's discs are seldom calibrated.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from tracker.errors import BadInputError
from tracker.limits import MOST_OF_KIND
from tracker.units import MOST_KG, Mass, Unit, check_load, parse_decimal, parse_unit

Status = Literal["published", "read in a text that cites it", "common practice", "from memory"]
MOST_DECIMALS = 4  # a tenth of a gram: finer than any scale that discs are weighed on


@dataclass(frozen=True, slots=True)
class DiscPairs:
    """Pairs of equal discs at hand; `pairs` None is as many as needed. `mass` is of one disc."""

    mass: Mass
    pairs: int | None = None
    label: str = ""
    full: bool | None = None  # of full diameter, which a pull from the floor wants; None: nobody said

    def __post_init__(self) -> None:
        check_load(self.mass, where="discs")
        if -int(self.mass.amount.normalize().as_tuple().exponent) > MOST_DECIMALS:
            raise BadInputError(
                f"A disc of {self.mass} is written finer than it can be weighed.",
                where="discs",
                mend=f"Write at most {MOST_DECIMALS} decimals.",
            )
        if self.pairs is not None and not 0 <= self.pairs <= MOST_OF_KIND:
            raise BadInputError(
                f"{self.pairs} pairs can't be.",
                where="discs",
                mend="Write how many pairs there are, or nothing for as many as needed.",
            )


@dataclass(frozen=True, slots=True)
class BarKit:
    """A bar, the pairs of discs for it, and the mass of its pair of collars where they count in the load."""

    bar: Mass
    discs: tuple[DiscPairs, ...]
    collars: Mass | None = None

    def __post_init__(self) -> None:
        check_load(self.bar, where="bar")
        if self.collars is not None and not 0 <= self.collars.kg <= MOST_KG:
            raise BadInputError(f"Collars of {self.collars} can't be.", where="collars", mend="Write 0 or more.")

    @property
    def empty_kg(self) -> Decimal:
        """Bar and collars in kilograms, exact."""
        return self.bar.kg + (self.collars.kg if self.collars else 0)

    @property
    def unit(self) -> Unit:
        return self.bar.unit


@dataclass(frozen=True, slots=True)
class ReadyKit:
    """A kit to start from, with where its masses are written and what that rests on."""

    name: str
    kit: BarKit
    source: str
    status: Status


def _kit(bar: str, discs: str, unit: Unit, collars: str = "") -> BarKit:
    pairs = tuple(DiscPairs(Mass(Decimal(disc), unit)) for disc in discs.split())
    return BarKit(Mass(Decimal(bar), unit), pairs, Mass(Decimal(collars), unit) if collars else None)


STANDARD_KIT = _kit("20", "25 20 15 10 5 2.5 1.25", "kg")
POUND_KIT = _kit("45", "45 35 25 10 5 2.5", "lb")
_IWF_DISCS = "25 20 15 10 5 2.5 2 1.5 1 0.5"
_IWF = "International Weightlifting Federation, technical rules: discs, bar, and collars of 2.5 kg each"
_IPF = "International Powerlifting Federation, technical rules: discs, and bar with collars of 25 kg"
CITED: Status = "read in a text that cites it"
READY_KITS: tuple[ReadyKit, ...] = (
    ReadyKit("20 kg bar, common gym discs", STANDARD_KIT, "", "common practice"),
    ReadyKit("15 kg bar, common gym discs", _kit("15", "25 20 15 10 5 2.5 1.25", "kg"), "", "common practice"),
    ReadyKit("45 lb bar, common pound discs", POUND_KIT, "", "common practice"),
    ReadyKit("35 lb bar, common pound discs", _kit("35", "45 35 25 10 5 2.5", "lb"), "", "common practice"),
    ReadyKit("weightlifting, men's bar with collars", _kit("20", _IWF_DISCS, "kg", "5"), _IWF, CITED),
    ReadyKit("weightlifting, women's bar with collars", _kit("15", _IWF_DISCS, "kg", "5"), _IWF, CITED),
    ReadyKit(
        "powerlifting, bar with collars", _kit("20", "50 25 20 15 10 5 2.5 1.25", "kg", "5"), f"{_IPF}; split 20 + 5", CITED
    ),
)  # fmt: skip

_PAIRS = re.compile(r"(?P<mass>[^:a-z]+)(?P<unit>[a-z]*)(?::(?P<pairs>.*))?\Z", re.IGNORECASE)


def parse_pairs(text: str, unit: Unit, *, where: str = "pairs") -> tuple[DiscPairs, ...]:
    """Read pairs of discs at hand, such as `25:1 20:1 2.5:2 1.25`; a mass alone is as many as needed.

    Masses are in `unit` unless they name their own (`45lb:2`). An empty text is no discs at all.

    Raises:
        BadInputError: if a disc can't be read; it says which.
    """
    return tuple(_disc(word.rstrip(",;"), unit, f"{where}, {word!r}") for word in text.split() if word.strip(",;"))


def _disc(word: str, unit: Unit, where: str) -> DiscPairs:
    found = _PAIRS.match(word)
    if not found:
        raise BadInputError("That is no disc.", where=where, mend="Write mass:pairs, such as 20:1, or 20 alone.")
    mass = Mass(
        parse_decimal(found["mass"], where=where), parse_unit(found["unit"], where=where) if found["unit"] else unit
    )
    pairs = found["pairs"]
    if pairs is None:
        return DiscPairs(mass)
    if not re.fullmatch(r"\d{1,4}", pairs, re.ASCII):
        raise BadInputError(
            f"{pairs!r} is not a number of pairs.", where=where, mend="Write a whole number, such as 20:1."
        )
    return DiscPairs(mass, int(pairs))
