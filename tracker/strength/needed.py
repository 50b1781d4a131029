"""What would be needed now: the load for so many repetitions at a wanted chance, and the repetitions with a load.

Both turn `LiftModel.chance` round, so they say what the chance beside a set says, and nothing else.
"""

from __future__ import annotations

from datetime import date
from math import exp

from tracker.errors import BadInputError
from tracker.strength.bands import shape_of
from tracker.strength.chance import chance_of
from tracker.strength.estimator import LiftModel
from tracker.strength.records import REP_MAXES

MOST_REPS = REP_MAXES[-1]  # beyond them no curve is trusted
LEAST_CHANCE, MOST_CHANCE = 0.05, 0.99  # design: outside of them the tails say more of the model than of the member
HALVINGS = 40  # of a bracket: to the last gram


def check_chance(chance: float) -> None:
    """Hold a wanted chance to what can be answered.

    Raises:
        BadInputError: if it is below 5 % or above 99 %.
    """
    if not LEAST_CHANCE <= chance <= MOST_CHANCE:
        raise BadInputError(
            f"No load has a chance of {100 * chance:g} % that could be told.", where="chance", mend="Ask for 5 to 99 %."
        )


def load_for(model: LiftModel, reps: int, chance: float, day: date) -> float:
    """Return the load (kg moved) with which `reps` repetitions are completed on `day` at just that chance, as a first set.

    Raises:
        BadInputError: if there is no set up to that day, or the repetitions or the chance can't be answered.
    """
    check_chance(chance)
    if not 1 <= reps <= MOST_REPS:
        raise BadInputError(f"{reps} repetitions can't be answered.", where="reps", mend=f"Ask for 1 to {MOST_REPS}.")
    belief, told = model.belief(day), model.known(day).told
    middle = exp(float(shape_of(belief).weight @ shape_of(belief).mean))
    low, high = middle / 8, middle * 8
    for _ in range(HALVINGS):
        load = (low * high) ** 0.5
        low, high = (load, high) if chance_of(belief, told, load, reps) > chance else (low, load)
    return (low * high) ** 0.5


def reps_with(model: LiftModel, load_kg: float, chance: float, day: date) -> int:
    """Return how many repetitions with `load_kg` (moved) have at least that chance on `day`; 0 for none, 12 for 12 or more.

    Raises:
        BadInputError: if there is no set up to that day, the load is not above zero, or the chance can't be answered.
    """
    check_chance(chance)
    if not load_kg > 0:
        raise BadInputError("That moves no load at all.", where="load", mend="Ask for a load above zero.")
    belief, told = model.belief(day), model.known(day).told
    found = 0
    while found < MOST_REPS and chance_of(belief, told, load_kg, found + 1) >= chance:
        found += 1
    return found
