"""The next attempt at a max, proposed from how likely it is. The rules are this log's own, after common practice.

The first is one to be sure of; after a made one the next is as heavy as is still as likely as not, by no more than a tenth;
after a miss nothing is heavier than what was missed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tracker.units import Mass

SURE, EVEN = 0.90, 0.50  # how likely the first attempt is at least, and each later one; own choice
LEAST_STEP, MOST_STEP = 0.02, 0.10  # from one made attempt to the next, of what is moved; common practice
MISSES = 2  # after so many it is time to end; common practice
MOST_LOOKED_AT = 200  # loads; finer kits than that do not matter


@dataclass(frozen=True, slots=True)
class Ladder:
    """The loads that can be made, how heavy each really is, and how likely an attempt at it; `chance` None: not known."""

    lower: Callable[[Mass], Mass | None]
    higher: Callable[[Mass], Mass | None]
    moved_kg: Callable[[Mass], float]
    chance: Callable[[Mass], float | None]


def first_attempt(about: Mass, ladder: Ladder) -> Mass:
    """Return the heaviest load up to `about` (what is believed of the max) that is sure enough to begin with."""
    load = about
    for _ in range(MOST_LOOKED_AT):
        likely, lower = ladder.chance(load), ladder.lower(load)
        if likely is None or likely >= SURE or lower is None:
            return load
        load = lower
    return load


def after_made(last: Mass, ladder: Ladder) -> Mass:
    """Return the next attempt after one that was made: clearly heavier, as heavy as is still as likely as not."""
    found, load = None, ladder.higher(last)
    for _ in range(MOST_LOOKED_AT):
        if load is None:
            break
        step = ladder.moved_kg(load) / ladder.moved_kg(last) - 1 if ladder.moved_kg(last) > 0 else LEAST_STEP
        likely = ladder.chance(load)
        if found is not None and (step > MOST_STEP or likely is None or likely < EVEN):
            break
        if step >= LEAST_STEP - 1e-9:
            found = load
        load = ladder.higher(load)
    return found or last


def after_missed(missed: Mass, best: Mass | None, ladder: Ladder) -> Mass:
    """Return the next attempt after a miss: the heaviest that is as likely as not, above what was made, never above `missed`.

    Where there is none between the two, the same load stands; whether to try at all is the member's to say.
    """
    load: Mass | None = missed
    for _ in range(MOST_LOOKED_AT):
        if load is None or (best is not None and load.kg <= best.kg):
            break
        likely = ladder.chance(load)
        if likely is not None and likely >= EVEN:
            return load
        if likely is None:
            break
        load = ladder.lower(load)
    if best is None:  # nothing was made yet: all the way down to what is likely
        return load or missed
    return missed
