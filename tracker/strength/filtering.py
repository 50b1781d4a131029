"""One step of the filter: a day's sets update every point of the grid at once.

The day's capability is the level plus the form of the day. Its likelihood, the product over the day's sets, is summed
over a lattice that spans all points' expectations; the first two moments of the product with a point's expectation then
update that point's level, gain and debt, and the sum itself its weight.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from itertools import pairwise
from math import inf, log, sqrt
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from tracker.strength.belief import Belief
from tracker.strength.grid import ODDITY, STEP, ActivePoints, Grid, places
from tracker.strength.hearing import listen
from tracker.strength.motion import EASE, LEVEL, SIZE, Gap
from tracker.strength.parameters import Parameters
from tracker.strength.records import SetRecord
from tracker.strength.review import due, reviewed
from tracker.strength.session import (
    Observation,
    first_guess,
    first_report,
    only_tests,
    read,
    shown,
    told_reps,
    went_to_failure,
)
from tracker.strength.weighing import lattice, weigh

NO_GAP = Gap(0, 0)
LEAP_DOUBT = 0.1  # a made test in so much doubt may show a leap; design
KEEP = 1e-3  # a point less likely than this, of the likeliest, is dropped until the next review; design
LOG_KEEP = log(KEEP)
DOUBTED = 0.5  # a set more likely than this to be a slip is doubted; design
FAR_OFF = 2.0  # standard deviations from which on a day's ease is not the habit's; design
SHORT_DAYS = 15  # a gap of less is none, since nothing is lost in `free_weeks` (parameters.py)
TWICE_WITHIN = 28  # days within which a second miss counts in full; design
EARLY_DAYS = 2  # so few days can themselves be the slip; design
START_DAYS = 8  # after so many days the shape of the first belief no longer matters; design
LITTLE_SKEW = 0.05  # nor does it where the level is skewed by less than this (`Belief.skew`); design
FAR_START = 0.05  # a start less likely than this, of the likeliest of its point, is not joined to it; design
PRUNE_BELOW = 0.75  # points are dropped only where no more than this part of them is left; design


# Begun anew on this day; or from the first day, with a better centre; or the level leapt; or a second miss counts in full:
# one late in the day, which is fatigue first, or ("far fall") one that came before as much was made.
Fresh = Literal["", "anew", "again", "leap", "fall", "far fall"]
FALLS: tuple[Fresh, ...] = ("fall", "far fall")


@dataclass(frozen=True, slots=True)
class Day:
    """One day with sets: what was read, and what is believed after it."""

    day: date
    records: tuple[SetRecord, ...]
    said: tuple[Observation, ...]
    belief: Belief
    anchor: float  # zero of the lattice: the logarithm of a load (kg)
    usual: float | None
    sets_used: int
    doubts: tuple[float, ...]  # for each set, how likely it was written down wrong
    against: bool = False  # all that the day says goes against what was expected
    fresh: Fresh = ""
    review: bool = False  # before this day all points were heard again
    gap: Gap = NO_GAP  # between the last day with sets and this one
    tests_only: bool = True  # nothing but tests was logged so far
    proved: date | None = None  # the last day, of all up to this one, with a test or a miss that counts
    to_failure: bool = False  # up to this day some day's hard sets ended with one to failure
    told: tuple[int, int] | None = None  # the fewest and the most repetitions that were tested or told so far
    missed: float | None = None  # what a miss that was taken for a slip would have shown, as log(load for the pivot)


def begin(grid: Grid, records: Sequence[SetRecord], keep: Belief | None = None) -> Belief:
    """Return a belief that is wide and centred on some first sets alone; `keep` lends what is known of its points.

    Where these sets say no more than "at least", all starts are as likely: what is usual is known to the habit of ease, and
    must not count twice.
    """
    p = grid.parameters
    active = keep.active if keep else grid.all_points
    pace = np.array(p.paces)[grid.pace_of[active.points]]
    mean, cov = np.zeros((SIZE, len(active.points))), np.zeros((SIZE * SIZE, len(active.points)))
    told = any(each.informs for each in read(records, p, None))
    scale = 1.0 if told else p.first_bounds
    start, width, log_weight = grid.start_of[active.points], p.first_width, grid.log_prior
    if keep:
        log_weight = keep.log_weight
    elif not told:
        log_weight = log_weight - grid.log_starts[start]
    mean[0] = first_guess(records, p)
    if active.many_starts:
        mean[0] += scale * p.first_step * np.array(p.first_steps)[start]
    elif keep:
        width = p.first_sd
    mean[1], mean[EASE] = pace[:, 0], p.ease
    spread = cov.reshape(SIZE, SIZE, -1)
    spread[0, 0], spread[1, 1] = (scale * width) ** 2, pace[:, 1] ** 2
    spread[EASE, EASE] = p.ease_sd**2
    return Belief(active, log_weight - log_weight.max(), mean, cov)


def step(
    grid: Grid, history: Sequence[Day], day: date, records: tuple[SetRecord, ...], elsewhere: Sequence[date] = ()
) -> Day:
    """Take in one day's sets, in their order.

    A day that goes against all that was known moves nothing: it may be a slip of the pen. But a second one in a row, or
    one after no more than two days in all, makes the filter begin anew, so that a slip on the first day is not for ever.
    A made test is more than that: see `_leapt`. A miss that can hardly be is taken for a slip, but not twice.
    `elsewhere` are days on which other lifts were trained, in order.
    """
    p = grid.parameters
    before = history[-1] if history else None
    gap = gap_after(before, day, elsewhere) if before else NO_GAP
    expected, review = expectation(grid, history, day, gap) if history else (begin(grid, records), False)
    anchor = before.anchor if before else log(records[0].load_kg)
    usual = first_report(records, before.usual if before else None)
    said = read(records, p, usual)
    to_failure = before is not None and before.to_failure
    if went_to_failure(said) and not to_failure:
        expected, to_failure = expected.tired(), True
    belief, doubts = update(expected, said, anchor)
    against, fresh = _goes_against(said, doubts), ""
    missed = _missed(said, doubts, p)
    if before and _test_in_doubt(said, doubts) and (leap := _leapt(expected, said, anchor, gap)):
        (belief, doubts), against, fresh = leap, False, "leap"
    elif against and before:
        again = _begun_anew(grid, history, day, records, usual, tired=to_failure)
        if again:
            belief, doubts, fresh = again
            against = False
    elif missed is not None and _missed_before(history, day, p):
        fresh = "fall" if all(each.evidence.slip == p.slip_late for each in _missing(said, doubts)) else "far fall"
        missed, said = None, read(records, p, usual, in_full=True)
        belief, doubts = update(expected.widened(more_sd(fresh, gap, p)), said, anchor)
    used = len(records) + (before.sets_used if before else 0)
    tests_only = (not before or before.tests_only) and only_tests(records, p)
    return Day(
        day, records, said, _slimmed(belief, len(history)), anchor, usual, used, doubts, against, fresh, review, gap,
        tests_only, _proved(day, said, doubts) or (before.proved if before else None), to_failure,
        told_reps(said, before.told if before else None), missed,
    )  # fmt: skip


def gap_after(last: Day, day: date, elsewhere: Sequence[date]) -> Gap:
    """Return the gap between a day with sets and a later day, with other lifts trained on the days `elsewhere`."""
    days = (day - last.day).days
    if days < SHORT_DAYS:  # whatever else was trained, nothing is lost
        return Gap(days, days)
    some = elsewhere[bisect_right(elsewhere, last.day) : bisect_left(elsewhere, day)]
    silent = max((later - earlier).days for earlier, later in pairwise([last.day, *some, day]))
    return Gap(days, silent, last.tests_only)


def _proved(day: date, said: tuple[Observation, ...], doubts: tuple[float, ...]) -> date | None:
    sure = any(
        e.evidence.saying in ("test", "missed") and doubt < DOUBTED for e, doubt in zip(said, doubts, strict=True)
    )
    return day if sure else None


def _missed(said: tuple[Observation, ...], doubts: tuple[float, ...], p: Parameters) -> float | None:
    """Return the least that a miss taken for a slip would have shown, had it been made; None where there is none."""
    return min(
        (shown(replace(each.record, reps=each.record.reps + 1), p) for each in _missing(said, doubts)), default=None
    )


def _missing(said: tuple[Observation, ...], doubts: tuple[float, ...]) -> list[Observation]:
    """Return the misses that are taken for slips."""
    return [e for e, doubt in zip(said, doubts, strict=True) if e.evidence.saying == "missed" and doubt > DOUBTED]


def _missed_before(history: Sequence[Day], day: date, p: Parameters) -> bool:
    """Tell whether another day not long ago had such a miss, and nothing as heavy has been made since."""
    made = -inf
    for each in reversed(history):
        if (day - each.day).days > TWICE_WITHIN:
            return False
        if each.missed is not None and made < each.missed:
            return True
        made = max([made, *(shown(record, p) for record in each.records if record.outcome == "done")])
    return False


def expectation(grid: Grid, history: Sequence[Day], day: date, gap: Gap) -> tuple[Belief, bool]:
    """Return what is expected of a day with sets after those of the history, and whether there was a review before it."""
    p, last = grid.parameters, history[-1]
    belief = last.belief.ahead(gap, p)
    if p.fade_weeks:
        known = (last.proved or history[0].day) + timedelta(weeks=p.fade_after)
        belief = belief.faded((day - max(known, last.day)).days, p.fade_weeks)
    if p.review_odds and len(grid.started.points) > 1 and due(history[0].day, last.day, day, p.review_weeks):
        return reviewed(belief), True
    return belief, False


def _goes_against(said: tuple[Observation, ...], doubts: tuple[float, ...]) -> bool:
    speaking = [
        doubt
        for each, doubt in zip(said, doubts, strict=True)
        if each.evidence.saying != "missed" and (each.informs or doubt > DOUBTED)
    ]
    return bool(speaking) and min(speaking) > DOUBTED


def _test_in_doubt(said: tuple[Observation, ...], doubts: tuple[float, ...]) -> bool:
    made = (each.record.kind == "test" and each.record.outcome == "done" for each in said)
    return any(test and doubt > LEAP_DOUBT for test, doubt in zip(made, doubts, strict=True))


def leap_sd(gap: Gap, p: Parameters) -> float:
    """Return how far a level may have leapt since the last day: further over a gap of many months."""
    return p.leap_sd * sqrt(max(1.0, gap.days / 7 / p.leap_weeks))


def more_sd(fresh: Fresh, gap: Gap, p: Parameters) -> float:
    """Return by how much less certain the level was taken to be on such a day than its gap alone makes it."""
    if fresh == "leap":
        return leap_sd(gap, p)
    return {"fall": p.fall_sd, "far fall": p.far_fall_sd}.get(fresh, 0.0)


def _leapt(
    expected: Belief, said: tuple[Observation, ...], anchor: float, gap: Gap
) -> tuple[Belief, tuple[float, ...]] | None:
    """Believe a made test that is well above all that was expected, or None where a slip of the pen is likelier.

    A lift that was made can't be argued away, and people who learn a lift leap; but a load in the other unit or with a
    digit too many is further off than anybody leaps between two days.
    """
    belief, doubts = update(expected.widened(more_sd("leap", gap, expected.active.grid.parameters)), said, anchor)
    up = belief.middle() > expected.middle()
    return (belief, doubts) if up and not _goes_against(said, doubts) else None


def _begun_anew(
    grid: Grid,
    history: Sequence[Day],
    day: date,
    records: tuple[SetRecord, ...],
    usual: float | None,
    *,
    tired: bool,
) -> tuple[Belief, tuple[float, ...], Fresh] | None:
    """Replay the days in question from a belief centred on all of them, or None where it is too early for that."""
    if len(history) <= EARLY_DAYS:
        again, keep, how = list(history), None, "again"
    elif history[-1].against:
        again, keep, how = [each for each in history[-1:] if each.against], history[-1].belief, "anew"
    else:
        return None
    days = [(each.day, each.records) for each in again] + [(day, records)]
    belief = begin(grid, [record for _, sets in days for record in sets], keep)
    if tired and not keep:
        belief = belief.tired()
    doubts, last = (), days[0][0]
    for at, sets in days:
        ahead = belief.ahead(Gap((at - last).days, (at - last).days), grid.parameters)
        belief, doubts = update(ahead, read(sets, grid.parameters, usual), history[-1].anchor)
        last = at
    return belief, doubts, how


def update(expected: Belief, said: tuple[Observation, ...], anchor: float) -> tuple[Belief, tuple[float, ...]]:
    """Weigh a day's evidence against what was expected."""
    blank = next((each for each in said if each.evidence.saying == "blank"), None)
    return _weighed(_eased(expected, blank) if blank else expected, said, anchor)


def _eased(expected: Belief, blank: Observation) -> Belief:
    """Learn from the best set of unknown effort: the level lies above what it shows by the habit of ease, and a noise.

    A day that is far easier or harder than usual says less: its noise grows with its distance.
    """
    p = expected.active.grid.parameters
    seen = LEVEL.copy()
    seen[EASE] = -1.0
    off = shown(blank.record, p) - seen @ expected.mean
    cross = (seen @ expected.cov.reshape(SIZE, -1)).reshape(SIZE, -1)
    own = seen @ cross
    weight = np.exp(expected.log_weight)
    far = float(weight @ off**2 / (weight @ (own + p.ease_day_sd**2))) / FAR_OFF**2
    total = own + p.ease_day_sd**2 * max(1.0, far)
    mean = expected.mean + cross * (off / total)
    cov = expected.cov - (cross[:, None] * (cross / total)[None]).reshape(SIZE * SIZE, -1)
    log_weight = expected.log_weight - 0.5 * (off**2 / total + np.log(total))
    return Belief(expected.active, log_weight - log_weight.max(), mean, cov)


def _weighed(expected: Belief, said: tuple[Observation, ...], anchor: float) -> tuple[Belief, tuple[float, ...]]:
    p = expected.active.grid.parameters
    level, var = expected.level()
    nodes = lattice(level, var + p.form_sd**2, anchor)
    heard = listen(expected.active, said, nodes)
    if heard is None:
        return expected, (0.0,) * len(said)
    belief, reached = weigh(expected, nodes, heard.together(), p.form_sd, heard.columns.into)
    at: NDArray[np.intp] = np.rint((reached - nodes[0]) / STEP).astype(np.intp)
    np.minimum(np.maximum(at, 0, out=at), len(nodes) - 1, out=at)
    weight = np.exp(belief.log_weight)
    weight /= weight.sum()
    wrong = np.exp(-heard.at(at)) @ weight
    doubts = [0.0] * len(said)
    for i, share, value in zip(heard.which, heard.shares, wrong.tolist(), strict=True):
        if share:
            evidence = said[i].evidence
            doubts[i] = min(1.0, (p.odd * ODDITY[evidence.saying] + evidence.slip) * value)
    return belief, tuple(doubts)


def _without_far_starts(belief: Belief) -> Belief:
    """Drop the starts that are hardly likely beside others of the same point: they would pull the mean of what is joined.

    What keeps them is that the first test may be written down wrong, which is said in a flag and not by a mean.
    """
    into = places(belief.active.grid.without_start(belief.active.points))[1]
    best = np.full(into.max() + 1, -np.inf)
    np.maximum.at(best, into, belief.log_weight)
    keep = belief.log_weight > best[into] + log(FAR_START)
    active = ActivePoints(belief.active.grid, belief.active.points[keep])
    return Belief(active, belief.log_weight[keep], belief.mean[:, keep], belief.cov[:, keep])


def _slimmed(belief: Belief, days: int) -> Belief:
    """Drop points that are no longer likely, and join starts that no longer matter."""
    keep = belief.log_weight > LOG_KEEP
    if np.count_nonzero(keep) <= PRUNE_BELOW * len(keep):
        active = ActivePoints(belief.active.grid, belief.active.points[keep])
        belief = Belief(active, belief.log_weight[keep], belief.mean[:, keep], belief.cov[:, keep])
    if belief.active.many_starts and (days >= START_DAYS or belief.skew() < LITTLE_SKEW):
        return _without_far_starts(belief).merged()
    return belief
