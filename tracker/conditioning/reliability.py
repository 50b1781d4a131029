"""Statistics of a repeated test: the least change that shows beyond its typical error (TE), and published variation.

Hopkins 2000, Sports Med 30(1):1-15 (abstract): typical error, often best as a coefficient of variation (CV); learning has
to be removed; good estimates need about 50 people and three trials. Weir 2005, JSCR 19(1):231-240 (abstract): least
difference for a real individual change; the formula was read in texts that cite it. Engel et al. 2019, Front Physiol
10:460 (abstract): a 12-minute piece for as many repetitions as possible, 19 trained people, CV 3.9 to 7.3 %.
For pieces for time, for ladders, and for other kit or swapped movements no published figure was found.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist, mean

from tracker.errors import BadInputError

ENGEL_2019_CV = (0.039, 0.073)  # 12-minute piece, as many repetitions as possible, smallest and largest; as fractions
LEAST_OWN = 5  # like tests before a member's own variation is spoken of, roughly


@dataclass(frozen=True, slots=True)
class Limits:
    """Relative change, as fractions, that a retest reaches by chance alone at one level of confidence: up and down."""

    up: float
    down: float


def z_of(confidence: float) -> float:
    """Standard normal quantile of a two-sided confidence level, such as 1.96 for 0.95."""
    if not 0 < confidence < 1:
        raise BadInputError(f"A confidence of {confidence} can't be.", mend="Write a fraction such as 0.95.")
    return NormalDist().inv_cdf((1 + confidence) / 2)


def least_detectable(error: float, confidence: float = 0.95, earlier: int = 1) -> float:
    """Least change that shows beyond the variation of tests: z x TE x sqrt(1 + 1/n) against the mean of n earlier ones.

    In the unit of `error`. For n = 1 that is z x sqrt(2) x TE.
    """
    return z_of(confidence) * error * math.sqrt(1 + 1 / earlier)


def detectable_limits(cv: float, confidence: float = 0.95, earlier: int = 1) -> Limits:
    """Least detectable relative change of a test with this CV, in the log form, up and down (down is below zero)."""
    width = least_detectable(math.log1p(cv), confidence, earlier)
    return Limits(math.expm1(width), math.expm1(-width))


def own_cv(days: Sequence[float], values: Sequence[float]) -> float | None:
    """A member's own variation, a fraction, from at least five like tests: residuals of log value about a straight line.

    Rough: so few tests give so much. None with fewer, or where all are on one day.
    """
    if len(values) < LEAST_OWN or len(set(days)) < 3 or min(values) <= 0:
        return None
    logs, centre = [math.log(value) for value in values], mean(days)
    about = mean(logs)
    spread = sum((day - centre) ** 2 for day in days)
    slope = sum((day - centre) * (log - about) for day, log in zip(days, logs, strict=True)) / spread
    left = [log - about - slope * (day - centre) for day, log in zip(days, logs, strict=True)]
    return math.expm1(math.sqrt(sum(each * each for each in left) / (len(left) - 2)))
