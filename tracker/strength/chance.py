"""How likely a set is: the probability of completing its repetitions on a day, from what is believed of that day."""

from __future__ import annotations

import numpy as np

from tracker.strength.bands import misfit
from tracker.strength.belief import Belief
from tracker.strength.normal import ndtr
from tracker.strength.parameters import PIVOT
from tracker.strength.records import REP_MAXES


def chance_of(
    belief: Belief, told: tuple[int, int] | None, load_kg: float, reps: int, *, sets_before: int = 0
) -> float:
    """Return the probability of completing `reps` repetitions with `load_kg`.

    The form of the day, `sets_before` hard sets, the noise of repetitions, and a slip are in it. `told` are the fewest and
    the most repetitions that were tested or told.
    """
    grid = belief.active.grid
    p = grid.parameters
    level, var = belief.level()
    weight = np.exp(belief.log_weight - belief.log_weight.max())
    points = belief.active.points
    curve_of = grid.curve_of[points]  # many points, and a few curves
    drop, next_drop, at_pivot = (grid.drop(n)[curve_of] for n in (reps, reps + 1, PIVOT))
    tired = np.array(p.fatigue)[grid.fatigue_of[points]] * sets_before
    noise = (next_drop - drop) * (p.rep_sd + p.rep_sd_growth * reps)
    beyond = misfit(told, p)[min(reps, REP_MAXES[-1]) - 1]
    spread = np.sqrt(var + p.form_sd**2 + noise**2 + beyond)
    reach = level - tired - (np.log(load_kg) - at_pivot + drop)
    slip = p.slip_late if sets_before else p.slip_first
    return float((1 - slip) * (weight * ndtr(reach / spread)).sum() / weight.sum())
