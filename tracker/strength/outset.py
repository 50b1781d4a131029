"""From what a forecast sets out: today's belief, less sure of how fast somebody gains than the filter has to be.

A filter is put right by the next set, and does best with a gain that is held near the population's: one week's gain is
small beside the form of a day. Carried ahead for months, the same gain makes a band that is too narrow for people who gain
slower or faster than most. So a forecast puts a wider belief of the gain in place of the filter's: what the sets said of it,
which is what is left when the filter's own assumption is taken out again (both are normal, so that precisions subtract),
counts against how much people differ. Whoever has trained for long and shows a gain keeps it; who has not, has a wide band.

Of a loss only as much comes back as a lay-off is expected to take; what else changed while a lift rested may well stay.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache
from math import exp

import numpy as np

from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.estimator import LiftModel
from tracker.strength.filtering import Day, gap_after
from tracker.strength.motion import LEVEL, SIZE, Gap, move
from tracker.strength.parameters import Parameters

# A week, in logarithms: within what is published of gains (0.1 to 0.7 %, `parameters.py`); all tuned on invented athletes and
# members of whom little is known (seeds 801, 31, 140002 and 140003)
GAIN, GAIN_WEEKS = 0.002, 28.0  # of the long run, and the weeks in which another gain becomes that
GAIN_SD = 0.0014  # how much people differ in what the filter assumes of all
EARLY_SD, EARLY_WEEKS = 0.0022, 6.0  # more where a history has only begun, since nobody says how new it is to them
LONG_REST = 2.0  # weeks beyond the free ones after which a lift that rested has only begun again; design
# A beginner's comes down more slowly than for the filter: 44 % in a year, where 30 to 50 % are published (Steele et al. 2022)
FIRST_WEEKS = 24.0
HEARD = 0.6  # so much counts what the sets say of a gain, since reports that drift look like one
# A test or a miss that counts, so many days ago at most, is no report and can't drift: what was heard up to it counts in
# full, and people differ by so much less about it; tuned on seed 140010
PROVED_DAYS, PROVED = 90, 0.6
NOTHING = 1e-9  # of a variance or precision: as good as none; of the computation


@lru_cache(maxsize=64)
def onward(parameters: Parameters) -> Parameters:
    """Return what a forecast assumes of how a level moves: gains that last longer."""
    settled, *others = parameters.paces
    lasting = (each._replace(weeks=max(each.weeks, FIRST_WEEKS)) for each in others)
    return replace(parameters, gain=GAIN, paces=(settled._replace(weeks=GAIN_WEEKS), *lasting))


def outset(model: LiftModel, day: date) -> Belief:
    """Return the belief of a day from which a forecast goes on, with a gain that is known less well.

    Raises:
        BadInputError: if there is no set up to that day.
    """
    last, belief = model.known(day), model.belief(day)
    at = bisect_right(model.days, day, key=lambda each: each.day) - 1
    assumed = _assumed(model)[at].after(gap_after(last, day, model.elsewhere), model.parameters)
    proved = model.days[at].proved
    return _stayed(
        _opened(belief, assumed, proved=proved is not None and (day - proved).days <= PROVED_DAYS), assumed.loss
    )


@dataclass(frozen=True, slots=True)
class Assumed:
    """What would be believed without any set: the gain and its variance, (paces), and what a lay-off has taken.

    `weeks` is for how long the lift has been trained, since the beginning or a long rest.
    """

    gain: Floats
    var: Floats
    loss: float = 0.0
    weeks: float = 0.0

    @classmethod
    def first(cls, p: Parameters) -> Assumed:
        return cls(np.array([each.gain for each in p.paces]), np.array([each.spread**2 for each in p.paces]))

    def after(self, gap: Gap, p: Parameters) -> Assumed:
        """Return the same after a gap: see `motion.py`."""
        if not gap.days:
            return self
        step = move(gap, p)
        kept, noise = step.transition[:, 1, 1], step.noise[SIZE + 1]
        loss = step.transition[0, 2, 2] * self.loss + step.offset[2, 0]
        rested = gap.days / 7 - max(0.0, gap.silent / 7 - p.free_weeks) - p.free_weeks
        weeks = self.weeks + gap.days / 7 if rested < LONG_REST else 0.0
        return Assumed(kept * self.gain + step.offset[1], kept**2 * self.var + noise, float(loss), weeks)


def _assumed(model: LiftModel) -> Sequence[Assumed]:
    """Return it for each day with sets; kept, as a page asks often."""
    kept = model.__dict__.get("_assumed")
    if kept is None:  # no cached_property, as for the trend
        kept = model.__dict__["_assumed"] = _walked(model.days, model.parameters)
    return kept


def _walked(days: Sequence[Day], p: Parameters) -> list[Assumed]:
    found: list[Assumed] = []
    for day in days:
        begun = not found or day.fresh in ("anew", "again")
        found.append(Assumed.first(p) if begun else found[-1].after(day.gap, p))
    return found


def _opened(belief: Belief, assumed: Assumed, *, proved: bool = False) -> Belief:
    """Put people's own gain in place of the filter's for the settled; the level is as much less sure as it hangs on the gain."""
    pace = belief.active.pace_of
    mean, cov = belief.mean.copy(), belief.cov.reshape(SIZE, SIZE, -1).copy()
    was, var = mean[1], cov[1, 1].copy()
    gain, own = assumed.gain[pace], assumed.var[pace]
    open_to = (pace == 0) & (var > NOTHING) & (own > NOTHING)
    var, own = np.where(open_to, var, 1.0), np.where(open_to, own, 1.0)
    said = np.maximum(1 / var - 1 / own, 0.0)
    middle = np.where(said > 0, was / var - gain / own, 0.0)
    share, heard = (PROVED, 1.0) if proved else (1.0, HEARD)
    people = share**2 * (GAIN_SD**2 + (EARLY_SD * exp(-assumed.weeks / EARLY_WEEKS)) ** 2)
    wide = 1 / (heard * said + 1 / np.maximum(people, own))
    believed = wide * (heard * middle + gain / np.maximum(people, own))
    with_gain = cov[:, 1] / var
    mean[1] = np.where(open_to, believed, was)  # the level's mean stays: a forecast begins where the estimate is
    more = np.where(open_to, wide - var, 0.0)
    cov += with_gain[:, None] * with_gain[None] * more
    return replace(belief, mean=mean, cov=cov.reshape(SIZE * SIZE, -1))


def _stayed(belief: Belief, loss: float) -> Belief:
    """Let no more of a loss come back than a lay-off is expected to take; what is not known of it stays too."""
    mean, cov = belief.mean.copy(), belief.cov.reshape(SIZE, SIZE, -1)
    back = np.clip(mean[2], 0.0, max(loss, 0.0))
    mean[0] -= mean[2] - back
    mean[2] = back
    joined = np.eye(SIZE)
    joined[0], joined[2] = LEVEL, 0.0
    return replace(belief, mean=mean, cov=np.einsum("ij,jkp,lk->ilp", joined, cov, joined).reshape(SIZE * SIZE, -1))
