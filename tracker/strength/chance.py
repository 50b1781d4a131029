"""How likely a set is: the probability of completing its repetitions on a day, from what is believed of that day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tracker.strength.bands import misfit
from tracker.strength.belief import Belief
from tracker.strength.normal import ndtr
from tracker.strength.parameters import PIVOT
from tracker.strength.records import REP_MAXES


@dataclass(frozen=True, slots=True)
class AskedSet:
    """A set of which it is asked how likely it is; `sets_before` are hard ones of the same lift on the day."""

    load_kg: float
    reps: int
    sets_before: int = 0


def chance_of(
    belief: Belief, told: tuple[int, int] | None, load_kg: float, reps: int, *, sets_before: int = 0
) -> float:
    """Return the probability of completing `reps` repetitions with `load_kg`.

    The form of the day, `sets_before` hard sets, the noise of repetitions, and a slip are in it. `told` are the fewest and
    the most repetitions that were tested or told.
    """
    return chances_of(belief, told, (AskedSet(load_kg, reps, sets_before),))[0]


def chances_of(belief: Belief, told: tuple[int, int] | None, asked: Sequence[AskedSet]) -> tuple[float, ...]:
    """Return the same of many sets at once: one reading of the belief, however many there are."""
    if not asked:
        return ()
    grid = belief.active.grid
    p = grid.parameters
    level, var = belief.level()
    weight = np.exp(belief.log_weight - belief.log_weight.max())
    points = belief.active.points
    curve_of = grid.curve_of[points]  # many points, and a few curves
    reps, before, load = (
        np.array([row]).T for row in zip(*((a.reps, a.sets_before, a.load_kg) for a in asked), strict=True)
    )
    some = sorted({each.reps + more for each in asked for more in (0, 1)})  # many sets, and a few repetitions
    drops = np.stack([grid.drop(each) for each in some])[:, curve_of]
    at = np.searchsorted(some, reps[:, 0])
    drop, next_drop = drops[at], drops[at + 1]  # the one after so many repetitions is of one more
    at_pivot = grid.drop(PIVOT)[curve_of]
    tired = np.array(p.fatigue)[grid.fatigue_of[points]] * before
    noise = (next_drop - drop) * (p.rep_sd + p.rep_sd_growth * reps)
    beyond = misfit(told, p)[np.minimum(reps, REP_MAXES[-1]) - 1]
    spread = np.sqrt(var + p.form_sd**2 + noise**2 + beyond)
    reach = level - tired - (np.log(load) - at_pivot + drop)
    slip = np.where(before[:, 0] > 0, p.slip_late, p.slip_first)
    return tuple(((1 - slip) * (weight * ndtr(reach / spread)).sum(axis=1) / weight.sum()).tolist())
