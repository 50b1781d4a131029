"""One lift of a plan as it is typed: `back squat, barbell: 5x5-3 @ 65-85 of 5RM`."""

from __future__ import annotations

import re
from decimal import Decimal

from tracker.errors import BadInputError
from tracker.prescription.plan.ask import PlanLift
from tracker.prescription.sheet.model import IMPLEMENTS, Implement

USUAL = "5x5 @ 65-85 of 1RM"  # where only the lift is named; common practice
_WHAT = re.compile(
    r"(?P<sets>\d{1,3})\s*[x×]\s*(?P<reps>\d{1,3})(?:\s*-\s*(?P<to>\d{1,3}))?\s*@\s*(?P<start>\d{1,3}(?:\.5)?)(?:\s*-\s*(?P<end>\d{1,3}(?:\.5)?))?\s*%?"
    r"(?:\s*of\s*(?P<of>\d{1,2})\s*RM)?",
    re.IGNORECASE | re.ASCII,
)


def lift_of(text: str, *, where: str = "lift") -> PlanLift:
    """Read a lift with its sets, its repetitions, its first and last percentage, and of which rep-max they are.

    Raises:
        BadInputError: if it can't be read, or can't be.
    """
    named, _, what = text.partition(":")
    name, _, said = (part.strip() for part in named.rpartition(",")) if "," in named else (named.strip(), "", "barbell")
    found = _WHAT.fullmatch(what.strip() or USUAL)
    implement: Implement | None = next((each for each in IMPLEMENTS if each == said.casefold()), None)
    if found is None:
        raise BadInputError(
            f"{what.strip()!r} is no plan of a lift.", where=where,
            mend=f'Write such as "back squat, barbell: {USUAL}"; "5x5-3" goes from five to three repetitions.',
        )  # fmt: skip
    if implement is None:
        raise BadInputError(f"{said!r} is no implement.", where=where, mend=f"Write one of: {', '.join(IMPLEMENTS)}.")
    start = Decimal(found["start"])
    return PlanLift(
        name, int(found["of"] or 1), start, Decimal(found["end"]) if found["end"] else start, int(found["sets"]),
        int(found["reps"]), int(found["to"]) if found["to"] else None, implement,
    )  # fmt: skip
