"""Does a tested max still hold? The probability that today's is above, within or below 2.5 % of it, in words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tracker.strength.estimator import LiftModel

MARGIN = 0.025  # a difference that changes the next load by a small disc; the product's own choice
LIKELY, SURE = 0.6, 0.8  # from here "probably", from here without it; design choice


@dataclass(frozen=True, slots=True)
class Holds:
    """How today's nRM stands to the tested one."""

    above: float  # probability that today's is more than 2.5 % above
    within: float
    below: float
    words: str
    settle: str  # what would settle it soonest; empty where it is settled


def still_holds(model: LiftModel, reps: int, moved_kg: float, day: date) -> Holds:
    """Compare the estimate of the nRM on `day` with a tested `moved_kg` for `reps` repetitions."""
    under, over = (model.below(moved_kg * (1 + side * MARGIN), reps, day) for side in (-1, 1))
    above, within, below = 1 - over, max(0.0, over - under), under
    words = _words(above, within, below, reps)
    settled = max(above, within, below) >= SURE
    return Holds(above, within, below, words, "" if settled else _settle(reps))


def _words(above: float, within: float, below: float, reps: int) -> str:
    most, what = max((within, "still holds"), (below, "no longer holds"), (above, "is too low by now"))
    if most < LIKELY:
        return f"Whether the {reps}RM still holds can't be told yet: {percent(most)} likely that it {what}."
    return f"The {reps}RM {'' if most >= SURE else 'probably '}{what} ({percent(most)} likely)."


def percent(share: float) -> str:
    """Write a probability, never as a certainty."""
    return f"{min(max(round(share * 100), 1), 99)} %"


def _settle(reps: int) -> str:
    return f"A test of the {reps}RM, or two hard sets of {reps} to {reps + 3} with repetitions in reserve written down."
