"""The normal distribution. SciPy comes with the first estimate: to import it takes as long as many a command in all."""

from __future__ import annotations

from tracker.strength.curve import Floats


def ndtr(z: Floats) -> Floats:
    """Return the probability that a standard normal variable is at most `z`, element by element."""
    from scipy.special import ndtr as of_scipy  # pyright: ignore[reportMissingTypeStubs]  # SciPy has no types

    return of_scipy(z)
