"""Now and then, what was taken as settled of a person is looked at again: habits, curves and paces change over the years.

After some months of sets the filter has dropped nearly all points of its grid, and could no longer follow somebody who
learns to judge effort, or whose curve changes with another way of training: on such histories its error doubled and
stayed so. So every quarter of a year all points are heard again with a small weight; those that are wrong are gone after
a few sessions. Between two reviews nothing changes, and a grid of one point has nothing to review.
"""

from __future__ import annotations

from datetime import date

import numpy as np

from tracker.strength.belief import Belief
from tracker.strength.curve import Floats
from tracker.strength.grid import ActivePoints


def due(first: date, last: date, day: date, weeks: float) -> bool:
    """Tell whether a review falls between two days with sets; its dates are counted from the first day of all."""
    every = round(7 * weeks)
    return (day - first).days // every > (last - first).days // every


def reviewed(belief: Belief) -> Belief:
    """Return the belief in which every point has a small weight again; a point that was gone starts from the whole's level."""
    belief = belief.merged()
    active, grid, p = belief.active, belief.active.grid, belief.active.grid.parameters
    points = grid.started.points
    prior = np.exp(grid.started.log_prior)
    weight = np.exp(belief.log_weight)
    whole_mean, whole_cov = moments(weight, belief.mean, belief.cov)
    whole_cov[0] += p.review_sd**2
    mean, cov = (np.repeat(each[:, None], len(points), axis=1) for each in (whole_mean, whole_cov))
    odds, kept = p.review_odds * prior / prior.sum(), np.searchsorted(points, active.points)
    mean[:, kept], cov[:, kept] = belief.mean, belief.cov
    odds[kept] += (1 - p.review_odds) * weight / weight.sum()
    return Belief(grid.started, np.log(odds / odds.max()), mean, cov)


def moments(weight: Floats, mean: Floats, cov: Floats) -> tuple[Floats, Floats]:
    """Return mean (SIZE) and covariance (SIZE x SIZE) of a mixture of states."""
    share = weight / weight.sum()
    whole = mean @ share
    apart = mean - whole[:, None]
    return whole, (cov + (apart[:, None] * apart[None]).reshape(len(mean) ** 2, -1)) @ share


def before_review(then: Belief, expected: Belief, later: ActivePoints, hindsight: Floats) -> tuple[Floats, Floats]:
    """Carry hindsight over a review: how likely each point was before it, and how sure it is that the point stayed.

    Args:
        then: What was believed before the review.
        expected: What the review made of it.
        later: The points that hindsight still knows after the review.
        hindsight: Their weights.

    Returns:
        For each point of `then` its weight in hindsight, and the part of it that comes from its own later self.
    """
    p = then.active.grid.parameters
    all_points = expected.active.points
    told, prior = np.zeros(len(all_points)), np.exp(then.active.grid.log_prior[all_points])
    at = np.searchsorted(all_points, later.points)
    odds = np.exp(expected.log_weight)
    told[at] = hindsight / hindsight.sum() / (odds[at] / odds.sum())
    stayed = (1 - p.review_odds) * told[np.searchsorted(all_points, then.active.points)]
    changed = p.review_odds * float(prior @ told) / prior.sum()
    weight = np.exp(then.log_weight) * (stayed + changed)
    return weight / weight.max(), stayed / (stayed + changed)
