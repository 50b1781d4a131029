"""Lifts whose curve of repetitions is known to differ from the rest, as the prior of a person's own curve.

What was looked at, and with which status:

- Leg press: 13.1 repetitions (95 % CI 9.8 to 17.5) at 80 % of the 1RM beside 8.8 of the bench press (Nuzzo et al. 2024,
  Sports Med 54:303; that the leg press has more is published in its abstract, the numbers are cited). 11.8 in weightlifters
  and 19.8 in runners (Richens & Cleather 2014, published).
- Squat: 16 at 70 % (Zourdos et al. 2021, published, 25 men), which is within 4 % of the steepness that all lifts have.
- Squat, bench press and deadlift of 17 women: 10.3, 9.0 and 9.6 at 85 %, no difference between lifts (Wolfe et al. 2024,
  Int J Strength Cond 4(1), doi 10.47206/ijsc.v4i1.266, published); all more than men's charts have. But sex has little
  influence over 269 studies (Nuzzo et al. 2024, published), so that there is no curve by sex.
- Other machines: values from memory alone (Hoeger et al. 1990), so that none is used.

The spread between people stays the same about such a middle, so that sets soon tell a person's own.

What a person's other lifts tell of this one's curve is not used. It was tried (backtest/pooled.py, 150 invented people, seed
88201): another lift trained over threes to tens for half a year gave the prior. Where curves of one person correlate 0.5,
and that is known, it takes 10 +-3.5 % off the mean square error of the 10RM of who trains fives (2.9 to 2.8 %), and puts
4 +-3 % on that of the 5RM. Where they don't, it puts 5 +-4 and 7 +-4 % on. How far they do in real people was found
nowhere, so that the gain is no clear one.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from tracker.strength.parameters import DEFAULT, Parameters

# From the 13.1 repetitions that are cited above. As in parameters.py a set of n to failure stands at n and a half on the
# curve, which makes it (1 / 0.8 - 1) / (13.1 + 0.5 - 1)
LEG_PRESS_PER_REP = 0.0198


@lru_cache(maxsize=1)
def _leg_press() -> Parameters:
    return replace(DEFAULT, curve_per_rep=LEG_PRESS_PER_REP)


def parameters_of(lift: str) -> Parameters:
    """Return what is assumed of a lift, by its name with or without its implement."""
    return _leg_press() if "leg press" in lift.casefold() else DEFAULT
