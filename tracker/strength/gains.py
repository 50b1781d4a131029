"""What a goal would take each week, beside how fast people got stronger in published work.

The weekly rates are worked out from the published figures named; they are means of groups, and no bound for one person.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log

# Per cent a week. Each figure was seen in the abstract or text of its paper; the division by weeks is ours.
STRONG = (0.06, 0.11)  # +6.5 to 11.5 % in two years, professional rugby players (Appleby et al. 2012)
COMPETITORS = (0.2, 0.3)  # 0.12 and 0.15 kg a day of a total of 289 and 513 kg, 1,897 competitors (Latella et al. 2020)
FIRST_YEAR = (0.5, 0.8)  # +30 to 50 % in the first year, 14,690 people once a week (Steele et al. 2022)
PUBLISHED = (
    "Published means of groups, a week: 0.06 to 0.11 % over two years of professional rugby players (Appleby et al. 2012), 0.2 to 0.3 % "
    "of competitors' totals (Latella et al. 2020), 0.5 to 0.8 % in the first year of training once a week (Steele et al. 2022)."
)


@dataclass(frozen=True, slots=True)
class Needed:
    """What it takes each week from today's estimate: kilograms moved, per cent, and in words beside published gains."""

    kg: float
    percent: float
    words: str


def needed_each_week(now_kg: float, load_kg: float, weeks: float) -> Needed:
    """Return what the level would have to gain each week, by equal parts of a hundred.

    >>> round(needed_each_week(100, 105, 12).percent, 2)
    0.41
    """
    if load_kg <= now_kg:
        return Needed(0.0, 0.0, "The estimate is there already: it takes a set that shows it.")
    weeks = max(weeks, 1.0)
    percent = 100 * log(load_kg / now_kg) / weeks
    return Needed((load_kg - now_kg) / weeks, percent, beside_published(percent))


def beside_published(percent: float) -> str:
    """Say how a weekly gain compares with published ones.

    >>> beside_published(0.25)
    'About what competitors gained (0.2 to 0.3 %).'
    """
    bounds = (
        (STRONG[0], "Less than even very strong people gained"),
        (STRONG[1], "About what very strong people gained over two years"),
        (COMPETITORS[0], "Less than competitors gained"),
        (COMPETITORS[1], "About what competitors gained"),
        (FIRST_YEAR[0], "More than competitors gained, less than people in their first year"),
        (FIRST_YEAR[1], "About what people gained in their first year"),
    )
    figures = (STRONG, STRONG, COMPETITORS, COMPETITORS, COMPETITORS, FIRST_YEAR)
    for (most, words), (low, high) in zip(bounds, figures, strict=True):
        if percent <= most:
            return f"{words} ({low:g} to {high:g} %)."
    return f"More than people gained on average in their first year ({FIRST_YEAR[0]:g} to {FIRST_YEAR[1]:g} %)."
