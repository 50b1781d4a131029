"""A way to a first max for someone who has none: a few rising sets of five that stop with three in reserve. No guess.

The steps up are the smaller and the larger ends of those that texts quote from the NSCA's protocol of a 1RM test (5 to
10 % for the upper body, 10 to 20 % for the lower); to stop three short of failure is this log's own choice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from tracker.prescription.floor import RAISE, has_full, lightest_from_floor
from tracker.prescription.kit import BarKit
from tracker.prescription.plates import Loading, load_bar, loadings_near
from tracker.units import Mass

REPS = 5
STOP_RIR = 3.0
EASY_RIR = 6.0  # six means six or more
MOST_SETS = 8  # more would tire rather than tell; design choice
# NSCA 1RM protocol, increments read in texts that cite it; where to stop is this log's own choice.
SHARES = {False: (Decimal("0.05"), Decimal("0.10")), True: (Decimal("0.10"), Decimal("0.20"))}


@dataclass(frozen=True, slots=True)
class RisingSet:
    """One rising set as it was done, with the repetitions that were left in reserve."""

    load: Mass
    reps: int
    rir: float
    missed: bool = False


@dataclass(frozen=True, slots=True)
class RisingAdvice:
    """The next rising set, or the word that it is time to stop."""

    loading: Loading | None
    reps: int
    words: str

    @property
    def stop(self) -> bool:
        return self.loading is None


def next_rising_set(
    done: Sequence[RisingSet], kit: BarKit, *, lower_body: bool, from_floor: bool = False
) -> RisingAdvice:
    """Say what the next rising set is, from those done so far; the first is the empty bar.

    A pull `from_floor` begins with the lightest discs of full diameter, or with a raised bar where there are none. With six or more in reserve the larger step up, with less the smaller one; with three or fewer, a miss, or eight
    sets it ends, and the last sets are what the estimate is made of.
    """
    if not done:
        return _first(kit, from_floor=from_floor)
    last = done[-1]
    if last.missed or last.rir <= STOP_RIR:
        return RisingAdvice(None, 0, "That is enough: three or fewer were left. The estimate starts from here.")
    if len(done) >= MOST_SETS:
        return RisingAdvice(None, 0, f"{MOST_SETS} sets are enough for today. Go on from this load another day.")
    small, large = SHARES[lower_body]
    share = large if last.rir >= EASY_RIR else small
    made = load_bar(Mass(last.load.amount * (1 + share), last.load.unit), kit, "down")
    if made.load.kg <= last.load.kg:
        higher = loadings_near(last.load, kit)[1]
        if higher is None:
            return RisingAdvice(None, 0, "The kit here makes no heavier load. The estimate starts from here.")
        made = load_bar(higher, kit)
    if from_floor and not has_full(kit, made.per_side):
        made = replace(made, note=RAISE)
    return RisingAdvice(made, REPS, f"{REPS} at {made.load}; stop when three are left.")


def _first(kit: BarKit, *, from_floor: bool) -> RisingAdvice:
    asked = "then say how many more there were."
    lightest = lightest_from_floor(kit) if from_floor else None
    if lightest is not None:
        made = load_bar(lightest, kit)
        return RisingAdvice(made, REPS, f"{REPS} at {made.load}, with the lightest discs of full diameter; {asked}")
    bar = load_bar(Mass(Decimal(0), kit.unit), kit)
    raised = RAISE if from_floor else None
    return RisingAdvice(Loading(bar.load, bar.kg, (), raised), REPS, f"{REPS} with the empty bar; {asked}")
