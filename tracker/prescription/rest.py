"""How long to rest after a set where nobody has said so.

From memory of the American College of Sports Medicine's position stand (2009, Med Sci Sports Exerc 41(3):687-708): two to
three minutes after heavy sets of lifts with several joints, one to two after lighter ones. Which repetitions are heavy, the
longer rest after an attempt at a max and the short one in a ramp are common practice. It is where a clock begins, no rule
for anybody: whoever wants longer rests longer.
"""

from __future__ import annotations

from dataclasses import dataclass

from tracker.strength.records import Kind

AFTER_ATTEMPT, HEAVY, MIDDLE, LIGHT, RAMP = 240, 180, 120, 90, 60  # seconds
HEAVY_REPS, MIDDLE_REPS = 5, 9  # up to so many repetitions a set is heavy, and in the middle
LEAST, MOST, STEP = 15, 900, 15
REP_S = 5  # some seconds a repetition, with what goes before the first one; common practice
STATUS = (
    "Usual rests are from memory of a position stand (ACSM 2009) and common practice: where a clock begins, no rule."
)


@dataclass(frozen=True, slots=True)
class UsualRest:
    """Seconds of rest, and after what kind of set."""

    seconds: int
    after: str


def usual_rest(kind: Kind, reps: int) -> UsualRest:
    """Return the usual rest after a set of that kind with so many repetitions asked or done.

    >>> usual_rest("work", 5).seconds, usual_rest("work", 8).seconds, usual_rest("ramp", 3).seconds
    (180, 120, 60)
    """
    if kind == "test":
        return UsualRest(AFTER_ATTEMPT, "an attempt at a max")
    if kind == "ramp":
        return UsualRest(RAMP, "a ramp set")
    if reps <= HEAVY_REPS:
        return UsualRest(HEAVY, f"a set of up to {HEAVY_REPS}")
    if reps <= MIDDLE_REPS:
        return UsualRest(MIDDLE, f"a set of {HEAVY_REPS + 1} to {MIDDLE_REPS}")
    return UsualRest(LIGHT, f"a set of {MIDDLE_REPS + 1} or more")


def left_of_interval(every_s: int, reps: int) -> int:
    """Return about how many seconds an interval leaves after a set of so many repetitions, where no clock tells.

    >>> left_of_interval(120, 2)
    110
    """
    return max(every_s - reps * REP_S, 0)
