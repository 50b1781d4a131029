"""When a load is rounded down, when a change by rounding is worth a word, and what a lay-off does to a plan.

All of it is common practice or this log's own choice, none a published rule; each says so. A lay-off of two weeks or
more counts as a break (read in texts that cite Caterisano et al. 2019, Strength Cond J 41(3):1-23).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from tracker.prescription.plates import Rounding, as_asked, said
from tracker.units import Mass, plain

OLD_WEEKS = 12  # a tested max older than this is rounded down from; common practice says 8 to 12
WORTH_A_WORD = Decimal("0.03")  # a share of the target; this log's own choice
LAY_OFF_DAYS = 14  # a lower start and no test from here; own choice, after the 2019 consensus
STALE_DAYS = 28  # stored maxes say little from here; own choice


def rounded(load: Mass) -> Mass:
    """Round a load that is a share of a max to the half kilogram or the pound: finer than that no max is known."""
    step = Decimal("0.5") if load.unit == "kg" else Decimal(1)
    return Mass((load.amount / step).quantize(Decimal(1)) * step, load.unit)


@dataclass(frozen=True, slots=True)
class RoundingChoice:
    """Which way to round, and every reason for it; no reason means nearest."""

    rounding: Rounding
    reasons: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """Say that the load was rounded down, and why where there is more to it than the member's wish."""
        return f"Rounded down ({', '.join(self.reasons)})" if self.reasons else "Rounded down"


NEAREST = RoundingChoice("nearest")


def choose_rounding(*, source: str, age_days: int, days_off: int | None = None, alone: bool = False) -> RoundingChoice:
    """Choose down where care is due, else nearest (common practice).

    Args:
        source: Where the reference max comes from; only "tested" and "given" are as good as a test.
        age_days: How old the reference max is.
        days_off: Days without training before today, None where nothing is known.
        alone: Whether the member trains alone.
    """
    reasons = tuple(
        reason
        for due, reason in (
            (source not in ("tested", "given"), f"the max is {source}, not tested"),
            (age_days > OLD_WEEKS * 7, f"the max is {age_days // 7} weeks old"),
            ((days_off or 0) >= LAY_OFF_DAYS, f"{days_off} days without training"),
            (alone, "training alone"),
        )
        if due
    )
    return RoundingChoice("down" if reasons else "nearest", reasons)


def change_note(target: Mass, load: Mass, choice: RoundingChoice = NEAREST) -> str | None:
    """Say a change by rounding of more than 3 % of the target, and that it was chosen; None where it is less."""
    if target.kg <= 0 or not _worth_a_word(target, load):
        return None
    share = round((load.kg / target.kg - 1) * 100, 1)
    change = f"{plain(abs(share))} % {'more' if share > 0 else 'less'} than the {as_asked(target)} asked."
    if choice.rounding == "down" and share < 0:
        return f"{choice.words}: {said(load)} is {change}"
    return f"Rounding makes it {change}"


def fixed_note(target: Mass, load: Mass, nearest: Mass, choice: RoundingChoice) -> str | None:
    """Say it where no fixed mass is within 3 % of the target: which was taken, and whether another is nearer."""
    if not _worth_a_word(target, load):
        return None
    if load == nearest:
        return f"The closest here to {as_asked(target)} is {load}."
    return f"{choice.words}: {load} here, where {nearest} is nearer to the {as_asked(target)} asked."


def _worth_a_word(target: Mass, load: Mass) -> bool:
    return abs(load.kg - target.kg) > WORTH_A_WORD * target.kg


@dataclass(frozen=True, slots=True)
class LayOff:
    """What days without training do to a plan: a lower start, no test, maxes that are stale; and the word for it."""

    lower_start: bool
    no_test: bool
    stale: bool
    words: str = ""


def lay_off(days_off: int | None) -> LayOff:
    """Tell what a break does: from 14 days a lower start and no test, from 28 days stored maxes are stale as well."""
    if days_off is None or days_off < LAY_OFF_DAYS:
        return LayOff(False, False, False)
    start = f"{days_off} days without training: start lower than before, and leave tests for later. Ask your coach."
    if days_off < STALE_DAYS:
        return LayOff(True, True, False, start)
    return LayOff(True, True, True, f"{start} Maxes from before the break say little now.")
