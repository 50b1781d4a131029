"""What became of an nRM since a day: so many kilograms more or less, with its band, or about the same."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from tracker.desk.maxes.estimates import LiftHistory
from tracker.desk.maxes.words import full_day
from tracker.strength.change import change_between
from tracker.strength.records import Band
from tracker.units import Unit, plain

LEAST_DAYS = 14  # over fewer days nothing is said: a max changes too little for it; own choice
WIDE = 0.12  # of what is moved: a band that is wider tells too little to begin with; own choice
NAMED_DAYS = 45  # from here a month names the beginning well enough; before it the day does; own choice
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Gain:
    """The change of an nRM from `since` to today, in `unit`, with its 80 % band; `then` and `now` are its two ends."""

    since: date
    band: Band
    unit: Unit
    then: Band
    now: Band

    @property
    def amounts(self) -> tuple[Decimal, Decimal, Decimal]:
        """Gain, least and most, to the half kilogram or the pound, as they are said: the gain is that between the two ends as said."""
        then, now = _half(self.then.estimate, self.unit), _half(self.now.estimate, self.unit)
        return now - then, _half(self.band.low80, self.unit), _half(self.band.high80, self.unit)

    @property
    def told(self) -> bool:
        """Whether it can be told from no change at all."""
        gain, low, high = self.amounts
        return bool(gain) and (low > 0 or high < 0)

    @property
    def short(self) -> str:
        """Say it as short as it goes: `+6 kg`, `steady`."""
        return f"{signed(self.amounts[0])} {self.unit}" if self.told else "steady"

    def words(self, today: date, *, each: bool = False) -> str:
        """Say it as a headline: `+6 kg since March`, `About the same since 3 Oct`."""
        said = f"{self.short}{' each' if each else ''}" if self.told else "About the same"
        return f"{said} since {month_words(self.since, today)}"

    @property
    def sure(self) -> str:
        """Say its band: `80 % sure: +2.5 to +9.5 kg`."""
        _, low, high = self.amounts
        return f"80 % sure: {signed(low)} to {signed(high)} {self.unit}"

    def since_words(self, today: date) -> str:
        """Name the day from which it is counted: `9 Mar`, `9 Mar 2025`."""
        said = full_day(self.since)
        return said.rpartition(" ")[0] if self.since.year == today.year else said


def gain_since(history: LiftHistory, reps: int, unit: Unit, since: date, day: date) -> Gain | None:
    """Return the change of an nRM to `day` from `since`, or from the first later day on which enough was known of it.

    Each end is as it was known then. Where the estimate begins with little, its first days would make a gain of what is
    nothing but learning: so it is from the first day with a band that is no wide one, at least two weeks ago; where there
    is no such day, from the first. None where nothing is known of the lift, or it is known for less than two weeks.
    """
    model = history.model
    if model is None:
        return None
    end, first = max(day, model.last_day), max(since, model.days[0].day)
    days = [first, *(each.day for each in model.days if first < each.day <= end - timedelta(days=LEAST_DAYS))]
    if (end - first).days < LEAST_DAYS:
        return None
    begin = next((each for each in days if _is_narrow(model.estimate(each).rep_max[reps])), first)
    then, now = (history.bar(model.estimate(each).rep_max[reps], each, unit) for each in (begin, end))
    return Gain(begin, change_between(then, now), unit, then, now)


def _is_narrow(moved: Band) -> bool:
    return moved.high80 - moved.low80 <= WIDE * moved.estimate


def month_words(day: date, today: date) -> str:
    """Name a day by its month where that is near enough: `March`, `Nov 2025`; a day of these weeks as it is: `3 Nov`."""
    if (today - day).days < NAMED_DAYS:
        return full_day(day).rpartition(" ")[0]
    return MONTHS[day.month - 1] if day.year == today.year else f"{day:%b} {day.year}"


def signed(amount: Decimal) -> str:
    """Write a change with its sign: `+2.5`, `−4`, `0`."""
    return f"{'+' if amount > 0 else '−' if amount < 0 else ''}{plain(abs(amount))}"


def _half(amount: float, unit: Unit) -> Decimal:
    steps = 2 if unit == "kg" else 1
    return Decimal(round(amount * steps)) / steps
