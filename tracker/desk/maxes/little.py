"""Where a max would rest on a few easy sets alone: then no kilograms are worked out of it, and no max is said.

The bound between hard and easy is the trend's own (one to three left, over three left); the number of days is our own choice.
"""

from __future__ import annotations

from datetime import date

from tracker.desk.maxes.estimates import LiftHistory

TOLD_RIR = 3  # stated to have been left at most: from there on a set says what its doer can do
DAYS = 4  # days of sets whose effort nobody said, from which on they say something together
WORDS = (
    "The few easy sets so far say too little for kilograms. Log a set at which you know what was left, or ask your coach; till "
    "then start by feel: a light load, stop with 3 or more left (common practice)."
)
NOTHING = (
    "Ask your coach, or start by feel: a light load, stop with 3 or more left (common practice), and log what was left."
)
TREND = "The few easy sets so far say too little of a max. A set at which you know what was left says more: nobody needs a test for it."


def rests_on_little(history: LiftHistory, day: date) -> bool:
    """Whether all that is known of a lift up to a day are a few easy sets, or sets whose effort nobody said.

    A test, a tested max, a miss, a set with three left or fewer, or four days of sets: each says enough.
    """
    if any(row.source == "tested" and row.day <= day for row in history.rep_maxes):
        return False
    known = [row for row in history.sets if row.day <= day and not row.left_out and row.kind != "ramp"]
    telling = any(
        row.kind == "test" or row.outcome != "done" or (row.rir is not None and row.rir <= TOLD_RIR) for row in known
    )
    return not telling and len({row.day for row in known}) < DAYS
