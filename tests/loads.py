"""Loads as tests write them."""

from decimal import Decimal

from tracker.units import Mass


def kg(amount: str | int) -> Mass:
    return Mass(Decimal(amount), "kg")
