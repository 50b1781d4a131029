"""Why an estimate is what it is: which sets moved it and by how much, and which were only bounds.

A set's share is the difference that leaving it out makes: its own day is weighed again without it. An earlier day's
share is what leaving that day out makes, all later days kept.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from math import log

from tracker.errors import BadInputError
from tracker.strength.bands import estimates, shape_of
from tracker.strength.belief import Belief
from tracker.strength.estimator import LiftModel
from tracker.strength.filtering import DOUBTED, FALLS, Day, begin, expectation, more_sd, step, update
from tracker.strength.records import REP_MAXES, Band, SetRecord
from tracker.strength.session import read

EARLIER_DAYS = 6  # so many days before are left out one at a time; older ones have faded; design
SAYS = {
    "bound": "at least this, no more",
    "blank": "at least this, and a weak guess from how easy sets usually are",
    "report": "repetitions in reserve as reported",
    "missed": "exactly so many repetitions, or a slip",
    "test": "all there was, or nearly",
}


@dataclass(frozen=True, slots=True)
class SetShare:
    """What one set did: `moved_percent` is how much higher (or lower) the estimate is for it."""

    record: SetRecord
    says: str
    moved_percent: float
    only_bound: bool
    doubted: bool


@dataclass(frozen=True, slots=True)
class DayShare:
    """What one earlier day did to a later estimate, in per cent."""

    day: date
    moved_percent: float


@dataclass(frozen=True, slots=True)
class Reasons:
    """Why the nRM is what it is on a day: expected before the last day's sets, after them, and each share."""

    reps: int
    day: date  # the last day with sets
    expected: Band
    after: Band
    sets: tuple[SetShare, ...]
    earlier: tuple[DayShare, ...]


def why(model: LiftModel, day: date, reps: int) -> Reasons:
    """Explain the nRM as it was known on `day`.

    Raises:
        BadInputError: if there is no set up to that day, or no estimate for so many repetitions.
    """
    if reps not in REP_MAXES:
        raise BadInputError(f"There is no estimate of a {reps}RM.", mend=f"Ask for 1 to {REP_MAXES[-1]} repetitions.")
    last = model.known(day)
    at = model.days.index(last)
    expected, after = _expected(model, at), _band(model, last.belief, last, reps)
    whole = after
    if last.fresh not in ("anew", "again"):  # before unlikely points were dropped, as it is without a set
        whole = _band(model, update(expected, last.said, last.anchor)[0], last, reps)
    return Reasons(
        reps,
        last.day,
        _band(model, expected, last, reps),
        after,
        tuple(_share(model, expected, last, i, reps, whole) for i in range(len(last.records))),
        tuple(_earlier(model, at, out, reps, after) for out in range(max(0, at - EARLIER_DAYS), at)),
    )


def _band(model: LiftModel, belief: Belief, day: Day, reps: int) -> Band:
    return estimates([shape_of(belief)], [day.day], [day.sets_used], [day.told], model.grid)[0].rep_max[reps]


def _expected(model: LiftModel, at: int) -> Belief:
    """What was believed on a day before its sets; where the estimate began anew that day, what it began with."""
    day = model.days[at]
    if at == 0 or day.fresh in ("anew", "again"):
        expected = begin(model.grid, day.records)
        return expected.tired() if day.to_failure else expected
    expected = expectation(model.grid, model.days[:at], day.day, day.gap)[0]
    if day.to_failure and not model.days[at - 1].to_failure:
        expected = expected.tired()
    return expected.widened(more_sd(day.fresh, day.gap, model.parameters))


def _share(model: LiftModel, expected: Belief, day: Day, out: int, reps: int, whole: Band) -> SetShare:
    record, said = day.records[out], day.said[out]
    others = day.records[:out] + day.records[out + 1 :]
    belief = expected
    if others:
        belief = update(expected, read(others, model.parameters, day.usual, in_full=day.fresh in FALLS), day.anchor)[0]
    moved = 100 * log(whole.estimate / _band(model, belief, day, reps).estimate)
    return SetShare(record, SAYS[said.evidence.saying], moved, not said.informs, day.doubts[out] > DOUBTED)


def _earlier(model: LiftModel, at: int, out: int, reps: int, after: Band) -> DayShare:
    """Replay the days after the one left out; the first day can't be left out of what it began."""
    left = model.days[out]
    if out == 0:
        without = LiftModel.of(
            [r for d in model.days[1 : at + 1] for r in d.records], model.parameters, model.elsewhere
        ).days
    else:
        without = list(model.days[:out])
        for later in model.days[out + 1 : at + 1]:
            without.append(step(model.grid, without, later.day, later.records, model.elsewhere))
    band = _band(model, without[-1].belief, without[-1], reps)
    return DayShare(left.day, 100 * log(after.estimate / band.estimate))
