"""After a miss: how far down the next load goes. Never up (common practice)."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from tracker.units import Mass

LEAST_DROP = Decimal("0.025")  # of what is moved: a smaller step down changes nothing; own choice
MOST_DROP = Decimal("0.10")  # further down is another day's work; own choice
LIKELY = 0.60  # down to where the set is more likely than this, if that is not too far; own choice


def next_lighter(
    load: Mass,
    below: Callable[[Mass], Mass | None],
    *,
    moved_kg: Callable[[Mass], float],
    chance: Callable[[Mass], float | None],
) -> Mass | None:
    """Return the next load down that makes a difference: 2.5 % or more below what was missed.

    Where that is still not likely, the first one that is, as far as it lies within 10 %; else the first of them.

    Args:
        load: What was missed.
        below: The next lower load that can be made; None where there is none.
        moved_kg: What is really moved with a load: with the body, where that is lifted.
        chance: How likely a set with it is; None where nothing is known.

    Returns:
        None where nothing lighter can be made.
    """
    missed = moved_kg(load)
    found: Mass | None = None
    lower = below(load)
    while lower is not None:
        share = 1 - moved_kg(lower) / missed if missed > 0 else 1.0
        if found is None and share >= float(LEAST_DROP) - 1e-9:
            found = lower
        if found is not None:
            if share > float(MOST_DROP) + 1e-9:
                return found
            likely = chance(lower)
            if likely is None or likely >= LIKELY:
                return lower if likely is not None else found
        lower = below(lower)
    return found
