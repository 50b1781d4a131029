"""Effort as it is rated by the repetitions that were left: RPE 10 leaves none, RPE 8 two.

Zourdos et al. 2016, J Strength Cond Res 30(1):267-275, doi 10.1519/JSC.0000000000001049: RPE 10 is 0 in reserve, 9 is 1, and
so on. Half points stand half way (from memory: 8.5 is one, perhaps two left; 9.5 none, but a little more load). Below 5 the
scale says "easy" and no number of repetitions, so it stands for six or more.
"""

from __future__ import annotations

from decimal import Decimal

MOST_RPE = Decimal(10)
# Repetitions left as a field keeps them, and the rating that says so; the hardest first.
RATINGS: dict[str, str] = {
    "0": "10", "0.5": "9.5", "1": "9", "1.5": "8.5", "2": "8", "2.5": "7.5", "3": "7", "4": "6", "5": "5", "6+": "under 5",
}  # fmt: skip


def left_at(rpe: Decimal) -> Decimal:
    """Return the repetitions that a rating leaves.

    >>> left_at(Decimal("8.5"))
    Decimal('1.5')
    """
    return MOST_RPE - rpe
