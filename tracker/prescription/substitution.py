"""Another implement for a prescribed lift: by the member's own estimate for it, or by the sheet's rule; never converted.

A barbell max says little about dumbbells: no ratio was found but for the bench press and the standing press, and these
are hints for a first start. Doubling the repetitions is common practice, and ends near 20, where a set stops being
strength work (own choice).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from itertools import pairwise
from typing import Literal

from tracker.errors import BadInputError
from tracker.prescription.rounding import rounded
from tracker.units import Mass

How = Literal["own estimate", "sheet's rule", "coach's alternative"]
MOST_REPS = 20
CLOSE = Decimal("0.03")  # within it the fixed load is as good as the one asked; own choice
FEEL_RIR = 3  # where nothing is known of a member with an implement: choose by feel, and leave so many


@dataclass(frozen=True, slots=True)
class Substitute:
    """What to do instead: the load of each implement (None: by feel), repetitions, how it was found, and a word on it."""

    load: Mass | None
    reps: int | None
    how: How
    words: str


def doubled(reps: int) -> int:
    """Double the repetitions, up to 20, or as many as were asked if that is more already (common practice)."""
    return max(min(2 * reps, MOST_REPS), reps)


def repetitions_to_failure(load_kg: float, rep_max: Mapping[int, float]) -> float:
    """Read from a member's own rep-maxes (kg, for this implement) how many repetitions a load would allow.

    Between two rep-maxes, and roughly past the last one, along the curve load = 1RM / (1 + k (n - 1)). Below 1 means that it can't be lifted once.

    Raises:
        BadInputError: if there are fewer than two rep-maxes, or the first is not the 1RM.
    """
    known = sorted(rep_max.items())
    if len(known) < 2 or known[0][0] != 1:
        raise BadInputError("It takes the 1RM and one more rep-max.", where="rep-maxes", mend="Log more sets of it.")
    if load_kg >= known[0][1]:
        return known[0][1] / load_kg
    for (n, heavier), (m, lighter) in pairwise(known):
        if lighter <= load_kg:
            return (
                n + (m - n) * (1 / load_kg - 1 / heavier) / (1 / lighter - 1 / heavier)
                if heavier > lighter
                else float(n)
            )
    last, lightest = known[-1]
    slope = max((known[0][1] / lightest - 1) / (last - 1), 1e-9)
    return 1 + (known[0][1] / load_kg - 1) / slope


def substitute(
    reps: int,
    masses: Sequence[Mass],
    *,
    target: Mass | None = None,
    rep_max: Mapping[int, float] | None = None,
    double: bool = True,
    alternative: str = "",
) -> Substitute:
    """Find load and repetitions for an implement of fixed masses.

    Args:
        reps: Repetitions that the sheet asks of the lift.
        masses: What is at hand, of each implement.
        target: The wanted load of each implement, from the member's own rep-max for it; None where there is none.
        rep_max: The member's own rep-maxes for this implement in kg, from which the reserve is read.
        double: Whether the sheet lets repetitions be doubled, for a member without an estimate.
        alternative: The coach's other way, in words.
    """
    if not masses:
        other = f"Your coach's other way: {alternative}." if alternative else "Ask your coach for another way."
        return Substitute(None, None, "coach's alternative", f"There is nothing here for it. {other}")
    if target is None or rep_max is None:
        many = doubled(reps) if double else reps
        rule = f"{many} instead of {reps} (common practice)" if double else f"{many}, as the sheet says"
        return Substitute(
            None, many, "sheet's rule", f"{rule}: take a load that leaves about {FEEL_RIR}, and log it for an estimate."
        )
    nearest = min(masses, key=lambda mass: (abs(mass.kg - target.kg), mass.kg))
    if abs(nearest.kg - target.kg) <= CLOSE * target.kg:
        return Substitute(nearest, reps, "own estimate", f"{nearest}, close to the {rounded(target)} asked.")
    return _solved(reps, masses, target, rep_max, alternative)


def _solved(
    reps: int, masses: Sequence[Mass], target: Mass, rep_max: Mapping[int, float], alternative: str
) -> Substitute:
    """Keep the reserve that the sheet asks, and change the repetitions to fit what is at hand."""
    reserve = repetitions_to_failure(float(target.kg), rep_max) - reps
    options = [
        (int(repetitions_to_failure(float(mass.kg), rep_max) - max(reserve, 0.0) + 1e-9), mass) for mass in masses
    ]
    able = [(many, mass) for many, mass in options if many >= 1]
    if not able:
        other = f" Your coach's other way: {alternative}." if alternative else " Ask your coach for another way."
        return Substitute(None, None, "coach's alternative", f"All that is here is too heavy for a set of it.{other}")
    many, mass = min(able, key=lambda option: (abs(option[0] - reps), option[1].kg))
    if many > MOST_REPS:
        return Substitute(
            mass,
            MOST_REPS,
            "own estimate",
            f"{mass} is light for it: stop at {MOST_REPS}, or ask your coach for another way.",
        )
    return Substitute(
        mass,
        many,
        "own estimate",
        f"{many} with {mass} in place of {reps} with {rounded(target)}: about as much in reserve.",
    )
