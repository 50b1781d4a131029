"""Kilograms and pounds, exactly.

One pound is 0.45359237 kg exactly (international yard and pound agreement of 1959; NIST SP 811, appendix B).
A mass is kept as it was typed, a decimal with its unit; kilograms are derived, never stored.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Literal

from tracker.errors import BadInputError

Unit = Literal["kg", "lb"]
UNITS: tuple[Unit, ...] = ("kg", "lb")
KG_PER_LB = Decimal("0.45359237")  # exact by definition, NIST SP 811
TYPED_DECIMALS = 3  # more are not typed and not weighed on a bar: they come of adding up both units
LEAST_KG = Decimal("0.05")  # lighter than the smallest disc, which has some 0.1 kg (common practice); less is a slip
MOST_KG = Decimal(1000)  # no one lifts more; a larger load is a slip of the finger

_NUMBER = r"[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)"
_MASS = re.compile(rf"\s*({_NUMBER})\s*(kg|kgs|lb|lbs)\s*\Z", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass as typed: a decimal amount and its unit."""

    amount: Decimal
    unit: Unit

    @property
    def kg(self) -> Decimal:
        """The same mass in kilograms, exact."""
        return self.amount if self.unit == "kg" else self.amount * KG_PER_LB

    def to(self, unit: Unit) -> Decimal:
        """Return the amount in `unit`; exact in its own unit and from pounds to kilograms."""
        if unit == self.unit:
            return self.amount
        return self.kg if unit == "kg" else self.amount / KG_PER_LB

    def __str__(self) -> str:
        return f"{plain(self.amount)} {self.unit}"


def plain(amount: Decimal) -> str:
    """Write a decimal without exponent or trailing zeros: 92.50 becomes 92.5, 1E+2 becomes 100."""
    text = format(amount.normalize(), "f")
    return "0" if text == "-0" else text


def short(mass: Mass) -> str:
    """Write a mass for a person: as typed, but one that was added up of kilograms and pounds to a tenth.

    >>> short(Mass(Decimal("64.8951607"), "kg"))
    '64.9 kg'
    """
    digits = -int(mass.amount.normalize().as_tuple().exponent)
    return str(mass) if digits <= TYPED_DECIMALS else str(Mass(round(mass.amount, 1), mass.unit))


def from_kg(kg: float, unit: Unit) -> float:
    """Turn kilograms that were reckoned, not typed, into a unit."""
    return kg if unit == "kg" else kg / float(KG_PER_LB)


def added(mass: Mass) -> str:
    """Say a load that is added to the body, or, below zero, helps it.

    >>> added(Mass(Decimal(20), "kg")), added(Mass(Decimal(-5), "kg")), added(Mass(Decimal(0), "kg"))
    ('body + 20 kg', 'body − 5 kg', 'body mass')
    """
    if mass.amount == 0:
        return "body mass"
    return f"body {'+' if mass.amount > 0 else '−'} {plain(abs(mass.amount))} {mass.unit}"


def parse_decimal(text: str, *, where: str = "") -> Decimal:
    """Read a finite decimal, with a point or a comma.

    Raises:
        BadInputError: if it is not a plain finite number (`nan`, `inf` and exponents are refused).
    """
    if not re.fullmatch(_NUMBER, text.strip(), re.ASCII):
        raise BadInputError(
            f"{text.strip()!r} is not a number.",
            where=where,
            mend="Write digits with a point or a comma, such as 92.5.",
        )
    try:
        return Decimal(text.strip().replace(",", "."))
    except InvalidOperation as err:  # more digits than a decimal holds
        raise BadInputError(f"{text.strip()!r} is not a number.", where=where) from err


def parse_unit(text: str, *, where: str = "") -> Unit:
    """Read `kg` or `lb`, in any case, with or without a plural s."""
    word = text.strip().lower().removesuffix("s")
    if word not in UNITS:
        raise BadInputError(f"{text.strip()[:40]!r} is not a unit of load.", where=where, mend="Write kg or lb.")
    return word


def parse_mass(text: str, *, unit: Unit | None = None, where: str = "") -> Mass:
    """Read a mass such as `92.5kg`, `45 lb` or, where `unit` is given, `92.5`.

    Raises:
        BadInputError: if it is not a number with a unit.
    """
    found = _MASS.match(text)
    if found:
        return Mass(parse_decimal(found[1], where=where), parse_unit(found[2], where=where))
    if unit is None:
        raise BadInputError(
            f"{text.strip()!r} is not a load with its unit.",
            where=where,
            mend="Write a number and kg or lb, such as 92.5kg.",
        )
    return Mass(parse_decimal(text, where=where), unit)


def check_load(mass: Mass, *, where: str = "", assistance: bool = False, least: Decimal = LEAST_KG) -> Mass:
    """Return `mass` if it can be a load: of 0.05 kg to 1,000 kg; where the body is lifted, of either sign, or nothing.

    `least` is another limit for what was kept before there was one.
    """
    if not mass.amount.is_finite():
        raise BadInputError(f"{mass.amount} is not a number.", where=where, mend="Write digits, such as 92.5.")
    if abs(mass.kg) > MOST_KG:
        raise BadInputError(
            f"{mass} is more than anyone lifts.",
            where=where,
            mend="Loads go up to 1,000 kg; check the number and its unit.",
        )
    if not assistance and mass.amount <= 0:
        raise BadInputError(f"A load of {mass} can't be.", where=where, mend="Write a load above zero.")
    if mass.amount and abs(mass.kg) < least:
        mend = f"The least that is lifted is {plain(LEAST_KG)} kg; check the number and its unit."
        raise BadInputError(f"A load of {str(mass)[:20]} can't be.", where=where, mend=mend)
    return mass
