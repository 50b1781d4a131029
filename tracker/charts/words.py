"""How numbers and days are written on a chart: with their unit, and with no digit that is not known."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from html import escape

from tracker.units import Mass, Unit, added


def estimated(amount: float, unit: Unit, *, body: bool = False) -> str:
    """Write an estimated load to the half kilogram or the whole pound; where the body is lifted as what is added to it."""
    return _said(round(amount * 2) / 2 if unit == "kg" else float(round(amount)), unit, body=body)


def typed(amount: float, unit: Unit, *, body: bool = False) -> str:
    """Write a load that was on the bar, or added to the body: to the gram at most."""
    return _said(round(amount, 3), unit, body=body)


def _said(amount: float, unit: Unit, *, body: bool) -> str:
    return added(Mass(Decimal(f"{amount:g}"), unit)) if body else f"{amount:g} {unit}"


def between(low: float, high: float, said: Callable[[float], str], joint: str = "to") -> str:
    """Write a band, with its unit once: `95 to 105.5 kg`."""
    first, last = said(low), said(high)
    return f"{first.removesuffix(last[last.rfind(' ') :])} {joint} {last}"


def axis_unit(unit: Unit, *, body: bool) -> str:
    """Write the unit for an axis, with what the load is added to."""
    return f"{unit} added to the body" if body else unit


def typed_text(text: str) -> str:
    """Write a name so that plotly, which reads some HTML, shows it as it was typed."""
    return escape(text, quote=False)


def day_words(day: date) -> str:
    """Write a day so that no reader takes it for another one: `3 Mar 2026`."""
    return f"{day.day} {day:%b %Y}"
