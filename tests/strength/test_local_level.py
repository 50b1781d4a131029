"""With known effort, a fixed curve, Gaussian noise, no gain and no lay-off, the filter is a local level model.

Checked against statsmodels' UnobservedComponents (a general reference library), with its variances held fixed.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tracker.strength.belief import Belief
from tracker.strength.grid import STEP, ActivePoints, grid_of
from tracker.strength.motion import SIZE, Gap, move
from tracker.strength.parameters import DEFAULT, Habit, Pace
from tracker.strength.smoothing import back
from tracker.strength.weighing import SPAN, lattice, weigh

WANDER, NOISE, FORM = 0.006, 0.012, 0.018
PLAIN = replace(
    DEFAULT, steepness=(0.0,), shapes=(1.0,), shape_weights=(1.0,), habits=(Habit(1.0, 0.5),), habit_weights=(1.0,),
    fatigue=(0.0,), fatigue_weights=(1.0,), paces=(Pace(0.0, 0.0, 0.0, WANDER),), pace_weights=(1.0,), first_steps=(0,),
    form_sd=FORM, gain=0.0, loss_early=0.0, loss_late=0.0, loss_sd=0.0,
)  # fmt: skip


@pytest.fixture(scope="module")
def series() -> np.ndarray:
    dice = np.random.default_rng(5)
    level = 4.6 + np.cumsum(dice.normal(0, WANDER, 60))
    return level + dice.normal(0, np.hypot(NOISE, FORM), 60)


@pytest.fixture(scope="module")
def reference(series: np.ndarray):
    import statsmodels.api as sm  # takes a second, which each process of a run would take where the module asked for it

    model = sm.tsa.UnobservedComponents(series, level="llevel")
    model.ssm.initialize_known(np.array([4.6]), np.array([[0.05**2]]))
    return model.smooth([NOISE**2 + FORM**2, WANDER**2])


@pytest.fixture(scope="module")
def ours(series: np.ndarray) -> list[tuple[Belief, Belief]]:
    active = ActivePoints(grid_of(PLAIN), np.array([0]))
    mean, cov = np.zeros((SIZE, 1)), np.zeros((SIZE * SIZE, 1))
    mean[0], cov[0] = 4.6, 0.05**2
    expected, found = Belief(active, np.zeros(1), mean, cov), []
    for value in series:
        level, var = expected.level()
        nodes = lattice(level, (var + FORM**2) * (6.5 / SPAN) ** 2, 4.6)
        after, _ = weigh(expected, nodes, -0.5 * ((nodes[None] - value) / NOISE) ** 2, FORM)
        found.append((expected, after))
        expected = after.ahead(Gap(7, 7), PLAIN)
    return found


def test_filtered_levels_equal_the_local_level_model(ours: list[tuple[Belief, Belief]], reference: object):
    assert STEP < NOISE, "the lattice must resolve the noise"
    means = np.array([after.mean[0, 0] for _, after in ours])
    sds = np.sqrt([after.cov[0, 0] for _, after in ours])
    np.testing.assert_allclose(means, reference.filtered_state[0], rtol=0, atol=1e-6)
    np.testing.assert_allclose(sds, np.sqrt(reference.filtered_state_cov[0, 0]), rtol=0, atol=1e-6)


def test_smoothed_levels_equal_the_local_level_model(ours: list[tuple[Belief, Belief]], reference: object):
    last = ours[-1][1]
    smooth = [(last.mean, last.cov)]
    for (_, now), (expected, _) in zip(ours[-2::-1], ours[:0:-1], strict=True):
        smooth.append(
            back((now.mean, now.cov), (expected.mean, expected.cov), smooth[-1], move(Gap(7, 7), PLAIN).transition)
        )
    means = np.array([mean[0, 0] for mean, _ in reversed(smooth)])
    sds = np.sqrt([cov[0, 0] for _, cov in reversed(smooth)])
    np.testing.assert_allclose(means, reference.smoothed_state[0], rtol=0, atol=1e-6)
    np.testing.assert_allclose(sds, np.sqrt(reference.smoothed_state_cov[0, 0]), rtol=0, atol=1e-6)
