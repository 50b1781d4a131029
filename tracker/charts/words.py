"""How numbers and days are written on a chart: with their unit, and with no digit that is not known."""

from __future__ import annotations

from datetime import date
from html import escape

from tracker.units import Unit


def estimated(amount: float, unit: Unit) -> str:
    """Write an estimated load to the half kilogram or the whole pound."""
    rounded = round(amount * 2) / 2 if unit == "kg" else float(round(amount))
    return f"{rounded:g} {unit}"


def typed(amount: float, unit: Unit) -> str:
    """Write a load that was on the bar: to the gram at most."""
    return f"{round(amount, 3):g} {unit}"


def typed_text(text: str) -> str:
    """Write a name so that plotly, which reads some HTML, shows it as it was typed."""
    return escape(text, quote=False)


def day_words(day: date) -> str:
    """Write a day so that no reader takes it for another one: `3 Mar 2026`."""
    return f"{day.day} {day:%b %Y}"
