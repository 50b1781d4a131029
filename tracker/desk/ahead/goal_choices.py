"""What is offered to somebody who sets a goal: loads a few steps above today, and days a few weeks off."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from decimal import Decimal
from math import floor

from tracker.desk.ahead.needed import asked_load
from tracker.errors import BadInputError
from tracker.log.records import LiftRecord
from tracker.units import Mass, Unit

STEPS: dict[Unit, tuple[Decimal, Decimal]] = {  # the usual smallest step of a bar, and a round one; common practice
    "kg": (Decimal("2.5"), Decimal(10)),
    "lb": (Decimal(5), Decimal(25)),
}
WEEKS = (4, 8, 12, 26)
USUAL_WEEKS = 12


def offered_loads(now: float | None, done: Sequence[Decimal], unit: Unit) -> tuple[Mass, ...]:
    """Return loads to touch, lightest first: three steps above today's estimate, the next round one, and a former best above it.

    >>> [str(each.amount) for each in offered_loads(103.2, [Decimal("112.5")], "kg")]
    ['105.0', '107.5', '110.0', '112.5', '120']
    """
    if now is None:
        return ()
    step, whole = STEPS[unit]
    first = (floor(Decimal(repr(now)) / step) + 1) * step
    some = {first, first + step, first + 2 * step, (floor((first + 2 * step) / whole) + 1) * whole}
    best = max(done, default=first)
    if best > first:
        some.add(best)
    return tuple(Mass(each, unit) for each in sorted(some))


def load_of(text: str, lift: LiftRecord, unit: Unit) -> Mass:
    """Read the load of a goal: `110`, `225 lb`; where the body is lifted `+20`, `body + 20 kg` too.

    Raises:
        BadInputError: if it is none.
    """
    said = text.strip()
    if lift.body and said.casefold().startswith("body"):
        said = said[4:].removeprefix("weight").removeprefix(" mass").replace(" ", "", 1).strip().replace("−", "-")
        said = said.replace("+ ", "+").replace("- ", "-") or "0"
    return asked_load(said, lift, unit)


def day_of(weeks: int | None, other: date | None, day: date) -> date | None:
    """Return the day by which: so many weeks off, another one, or none.

    Raises:
        BadInputError: if another day was chosen and not said.
    """
    if weeks is None:
        return None
    if weeks > 0:
        return day + timedelta(weeks=weeks)
    if other is None:
        raise BadInputError("No day was chosen.", where="day", mend="Choose one, or some day.")
    return other
