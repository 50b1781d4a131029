"""One step of the filter: a day's sets update every point of the grid at once.

The day's capability is the level plus the form of the day. Its likelihood, the product over the day's sets, is summed
over a lattice that spans all points' expectations; the first two moments of the product with a point's expectation then
update that point's level, gain and debt, and the sum itself its weight.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from math import log

import numpy as np

from tracker.strength.curve import Floats
from tracker.strength.grid import LOWEST, STEP, Grid, Lens
from tracker.strength.motion import LEVEL, move
from tracker.strength.parameters import Parameters
from tracker.strength.records import SetRecord
from tracker.strength.session import Said, first_guess, first_report, read

SPAN = 4.5  # standard deviations of an expectation that the lattice covers on each side
KEEP = 1e-6  # a point less likely than this, of the likeliest, is dropped
SILENT = 1e-4  # a bound that differs by less over all that is expected says nothing
PRUNE_BELOW = 0.75  # and only when so many can go at once


@dataclass(frozen=True, slots=True)
class Belief:
    """Means (3, points) and covariances (9, points) of the state, and the points' log weights."""

    lens: Lens
    log_weight: Floats
    mean: Floats
    cov: Floats

    def level(self) -> tuple[Floats, Floats]:
        """Return mean and variance of each point's level."""
        return LEVEL @ self.mean, np.kron(LEVEL, LEVEL) @ self.cov

    def ahead(self, days: int, parameters: Parameters) -> Belief:
        """Return the belief `days` days later, without a set in between."""
        if days == 0:
            return self
        how = move(days, parameters)
        return Belief(self.lens, self.log_weight, how.turn @ self.mean + how.push, how.turn2 @ self.cov + how.noise)


@dataclass(frozen=True, slots=True)
class Day:
    """One day with sets: what was expected, what was read, and what is believed after it."""

    day: date
    records: tuple[SetRecord, ...]
    said: tuple[Said, ...]
    expected: Belief
    belief: Belief
    anchor: float  # zero of the lattice: the logarithm of a load (kg)
    usual: float | None
    sets_used: int
    doubts: tuple[float, ...]  # for each set, how likely it was written down wrong


def begin(grid: Grid, records: Sequence[SetRecord]) -> Belief:
    """Return the belief before the first day: wide, and centred on that day's loads alone."""
    p = grid.parameters
    points = np.arange(len(grid.log_prior))
    mean = np.zeros((3, len(points)))
    mean[0], mean[1] = first_guess(records, p), p.gain_first
    cov = np.zeros((9, len(points)))
    cov[0], cov[4] = p.first_sd**2, p.gain_first_sd**2
    return Belief(Lens(grid, points), grid.log_prior.copy(), mean, cov)


def step(grid: Grid, before: Day | None, day: date, records: tuple[SetRecord, ...]) -> Day:
    """Take in one day's sets, in their order."""
    p = grid.parameters
    if before is None:
        expected, anchor, sets_used, usual = begin(grid, records), log(records[0].load_kg), 0, None
    else:
        expected = before.belief.ahead((day - before.day).days, p)
        anchor, sets_used, usual = before.anchor, before.sets_used, before.usual
    said = read(records, p, usual)
    belief, doubts = update(expected, said, anchor)
    usual = first_report(records, usual)
    return Day(day, records, said, expected, _pruned(belief), anchor, usual, sets_used + len(records), doubts)


def update(expected: Belief, said: tuple[Said, ...], anchor: float) -> tuple[Belief, tuple[float, ...]]:
    """Weigh a day's words against what was expected."""
    p = expected.lens.grid.parameters
    level, var = expected.level()
    nodes = lattice(level, var + p.form_sd**2, anchor)
    parts = [log_likelihood(expected.lens, each, nodes) for each in said]
    known = [part for part in parts if part is not None]
    if not known:
        return expected, (0.0,) * len(said)
    total = known[0] if len(known) == 1 else np.sum(known, axis=0)
    return weigh(expected, nodes, total, p.form_sd), (0.0,) * len(said)


def lattice(centre: Floats, var: Floats, anchor: float) -> Floats:
    """Return the nodes, whole steps from the anchor, that cover all expectations."""
    reach = SPAN * np.sqrt(var)
    low = np.floor(((centre - reach).min() - anchor) / STEP)
    high = np.ceil(((centre + reach).max() - anchor) / STEP)
    return anchor + STEP * np.arange(low, high + 1)


def log_likelihood(lens: Lens, said: Said, nodes: Floats) -> Floats | None:
    """Return a set's log likelihood at (nodes, points), or None where it says nothing to any of them."""
    out = np.empty((len(nodes), len(lens.points)))
    told = said.word.saying != "bound"
    for number, (where, _, fatigue) in enumerate(lens.blocks):
        at = (nodes[0] - fatigue * said.before - said.log_load - LOWEST) / STEP
        row = int(np.floor(at))
        rows = lens.table(said.word, number).take(np.arange(row, row + len(nodes) + 1), axis=0, mode="clip")
        told = told or bool((rows[-1] - rows[0]).max() > SILENT)
        low = rows[:-1]
        np.multiply(rows[1:] - low, at - row, out=out[:, where])
        out[:, where] += low
    return out if told else None


def weigh(expected: Belief, nodes: Floats, log_like: Floats, form_sd: float) -> Belief:
    """Update means, covariances and weights with a likelihood of the day's capability on the nodes."""
    level, var = expected.level()
    total_var = var + form_sd**2
    middle = nodes[len(nodes) // 2]
    away = nodes - middle
    logs = log_like - (away[:, None] - (level - middle)) ** 2 * (0.5 / total_var)
    top = logs.max(axis=0)
    odds = np.exp(logs - top)
    mass, first, second = np.stack([np.ones_like(away), away, away**2]) @ odds
    mean = first / mass
    spread = np.maximum(second / mass - mean**2, 1e-10)
    cov = expected.cov.reshape(3, 3, -1)
    with_level = cov[:, 0] - cov[:, 2]
    gain = with_level / total_var
    new_mean = expected.mean + gain * (mean + middle - level)
    shrink = (total_var - spread) / total_var**2
    new_cov = expected.cov - (with_level[:, None] * with_level[None] * shrink).reshape(9, -1)
    log_weight = expected.log_weight + top + np.log(mass / np.sqrt(total_var))
    return Belief(expected.lens, log_weight - log_weight.max(), new_mean, new_cov)


def _pruned(belief: Belief) -> Belief:
    keep = belief.log_weight > np.log(KEEP)
    if keep.sum() > PRUNE_BELOW * len(keep):
        return belief
    lens = Lens(belief.lens.grid, belief.lens.points[keep])
    return Belief(lens, belief.log_weight[keep], belief.mean[:, keep], belief.cov[:, keep])
