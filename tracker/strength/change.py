"""How much an nRM changed between two days, and how sure that is."""

from __future__ import annotations

from math import hypot

from tracker.strength.records import Band


def change_between(then: Band, now: Band) -> Band:
    """Return the change from `then` to `now`, in their unit, with a band for it.

    The errors of both ends are taken as independent. They share the person's curve and habits, so mostly they go together
    and the band should rather be too wide than too narrow; own choice, not tried on invented athletes yet.
    """
    gain = now.estimate - then.estimate
    down = hypot(now.estimate - now.low80, then.high80 - then.estimate)
    up = hypot(now.high80 - now.estimate, then.estimate - then.low80)
    return Band(gain, gain - down, gain + up)
