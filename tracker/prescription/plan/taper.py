"""The last weeks before a test: fewer sets at the same percentages, and the days just before it free.

Sources, each read as an abstract: Bosquet et al. 2007, Med Sci Sports Exerc 39(8):1358-1365, 27 studies of competitors, of
which few are of strength: best with 41 to 60 % less volume over two weeks, intensity and frequency as before. Pritchard et
al. 2016, J Strength Cond Res 30(7):1796-1804, 11 lifters of national level: volume down by 58.9 +-8.4 %, intensity kept or a little lower, the
last session 3.7 +-1.6 days before. Travis et al. 2021, J Strength Cond Res 35(12S):S26-S35, a survey of 364 lifters: mostly
a step of 7 to 10 days with 41 to 50 % less volume. What each of two weeks takes of it is our own choice within these.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

MOST_TAPER = 2  # weeks; longer ones are of other sports, or none of ours to plan
SETS_LEFT: dict[int, tuple[Decimal, ...]] = {  # the part of the sets in each week of it, the last one last
    0: (),
    1: (Decimal("0.5"),),
    2: (Decimal("0.6"), Decimal("0.4")),
}
FREE_DAYS = 2  # before a test: the last session is three days before it; Pritchard et al. say 3.7 +-1.6
WORDS = (
    "Before the test fewer sets at the same percentages: about half, as published tapers have it (27 studies of competitors, "
    "few of them of strength; a survey of 364 lifters). What suits you your coach knows better."
)


def sets_in_taper(sets: int, weeks: int, week: int) -> int:
    """Return how many of `sets` are left in one week (from 0) of a taper of `weeks`: never none.

    >>> [sets_in_taper(5, 2, week) for week in (0, 1)], sets_in_taper(5, 1, 0), sets_in_taper(1, 1, 0)
    ([3, 2], 3, 1)
    """
    return max(1, int((sets * SETS_LEFT[weeks][week]).quantize(Decimal(1), ROUND_HALF_UP)))
