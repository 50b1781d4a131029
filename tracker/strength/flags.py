"""What in the records a person should look at: likely slips of the pen, contradictions, nothing but bounds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import exp, log

import numpy as np

from tracker.strength.filtering import DOUBTED, Day
from tracker.strength.motion import LEVEL2
from tracker.strength.records import SetRecord
from tracker.strength.review import moments
from tracker.units import KG_PER_LB
from tracker.wording import counted

WIDE_SD = 0.06  # of the level, in logarithms: a band of some 15 % and more is wide; design
FAR_BELOW = 1.3  # logarithm: a work set at about a quarter of the level may miss a digit; design
SLIPS = (
    (10.0, "a digit too many"),
    (0.1, "a digit missing"),
    (1 / float(KG_PER_LB), "the other unit"),
    (float(KG_PER_LB), "the other unit"),
)


@dataclass(frozen=True, slots=True)
class Flag:
    """Something in the records that a person should look at."""

    day: date
    words: str
    record: SetRecord | None = None


def flags_of(days: Sequence[Day]) -> tuple[Flag, ...]:
    """List flags, the oldest first."""
    found = [flag for at, day in enumerate(days) for flag in _of_day(day, days[at + 1] if at + 1 < len(days) else None)]
    if days and not any(each.informs for day in days for each in day.said):
        words = 'Every set so far says only "at least this". A test, or repetitions in reserve on a hard set, would narrow it.'
        found.append(Flag(days[-1].day, words))
    return tuple(found)


def would_narrow(days: Sequence[Day]) -> str:
    """Say what would narrow the band after the last of some days, or nothing where it is not wide or a flag says it."""
    if not days or not any(each.informs for day in days for each in day.said):
        return ""
    last = days[-1]
    _, spread = moments(np.exp(last.belief.log_weight), last.belief.mean, last.belief.cov)
    if float(np.sqrt(LEVEL2 @ spread)) < WIDE_SD:
        return ""
    told = any(each.evidence.saying == "report" for day in days for each in day.said)
    what = "A test would narrow it." if told else "A test, or repetitions in reserve on a hard set, would narrow it."
    if last.proved is None:
        return f"The band is wide: no test and no missed set of this lift is known yet. {what}"
    weeks = (last.day - last.proved).days // 7
    since = f"The last test or missed set lies {counted(weeks, 'week')} before the last day. " if weeks else ""
    return f"The band is wide. {since}{what}"


def _of_day(day: Day, later: Day | None) -> list[Flag]:
    found: list[Flag] = []
    level = (later if later and later.fresh == "again" else day).belief.middle()
    for record, said, doubt in zip(day.records, day.said, day.doubts, strict=True):
        high = said.log_load - level
        begun_wrong = later is not None and later.fresh == "again" and abs(high) > 0.5
        if doubt > DOUBTED or begun_wrong or (record.kind != "ramp" and high < -FAR_BELOW):
            found.append(Flag(day.day, _words(record, high), record))
    if day.fresh == "anew":
        words = f"From {day.day} on the sets don't fit those before. The estimate starts again there."
        found.append(Flag(day.day, words))
    return found


def _words(record: SetRecord, high: float) -> str:
    what = f"{record.load_kg:g} kg x {record.reps} on {record.day}"
    if record.rir is not None:
        what += f" with {record.rir:g} in reserve"
    if abs(high) < 0.45 and record.outcome == "missed":
        return (
            f"{what}, missed, contradicts what was shown before. Once it may be fatigue, technique or a bad day, so it is "
            "counted little; a second such day counts in full. Was it a miss?"
        )
    if abs(high) < 0.45:
        return f"{what} contradicts the other sets; it is hardly counted. Check repetitions, outcome and reserve."
    where = "above" if high > 0 else "below"
    factor, why = min(SLIPS, key=lambda slip: abs(high - log(slip[0])))
    guess = f" Perhaps {record.load_kg / factor:.4g} kg ({why})?" if abs(high - log(factor)) < 0.6 else ""
    return f"{what} is far {where} all the rest (about {exp(abs(high)):.1f} times); it is hardly counted.{guess}"
