"""Ramp sets up to the first working set: common practice, adjustable, loadable, left out where they are pointless.

No published rule fixes a ramp; texts agree on a few sets that get heavier and shorter, with jumps that shrink.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from tracker.errors import BadInputError
from tracker.prescription.changes import load_in_turn
from tracker.prescription.floor import RAISE, is_full, lightest_from_floor
from tracker.prescription.kit import BarKit
from tracker.prescription.plates import load_bar
from tracker.units import Mass, Unit


@dataclass(frozen=True, slots=True)
class RampStep:
    """One ramp set as a share of the first working load; 0 % is the empty bar."""

    percent: Decimal
    reps: int

    def __post_init__(self) -> None:
        if not 0 <= self.percent < 100 or self.reps < 1:
            raise BadInputError(
                f"A ramp set of {self.reps} at {self.percent} % can't be.",
                where="ramp",
                mend="Write 0 to 99 % of the first working load, and 1 repetition or more.",
            )


COMMON_RAMP = (RampStep(Decimal(0), 8), RampStep(Decimal(50), 5), RampStep(Decimal(70), 3), RampStep(Decimal(85), 2))
LEAST_DISC: dict[Unit, Decimal] = {"kg": Decimal("1.25"), "lb": Decimal("2.5")}  # common practice
LEAST_JUMP = Decimal("0.08")  # a share of the working load; a smaller jump is a set for nothing; design choice


@dataclass(frozen=True, slots=True)
class RampSet:
    """A ramp set: repetitions, load, discs on each side, and the true percentage of the first working load."""

    reps: int
    load: Mass
    per_side: tuple[Mass, ...]
    percent: Decimal
    note: str = ""  # what else has to be done for it


def ramp_sets(
    first: Mass, kit: BarKit, steps: Sequence[RampStep] = COMMON_RAMP, *, from_floor: bool = False
) -> tuple[RampSet, ...]:
    """Plan the ramp up to a first working set of `first`, each set loadable and never heavier than its step asks.

    A set is left out where it would be within 8 % of the working load of the set before it or of the working load
    itself; so an empty bar has no ramp. Discs are chosen so that few change on the way up, and none is fractional.
    A pull `from_floor` begins with the lightest discs of full diameter where the kit has them and they are light enough;
    each set without any says to raise the bar.
    """
    work, coarse = load_bar(first, kit).load, without_fractions(kit)
    loads = [(step, load_bar(_share(work, step), coarse, "down").load) for step in steps]
    lightest = lightest_from_floor(coarse) if from_floor else None
    if lightest is not None and work.kg - lightest.kg >= work.kg * LEAST_JUMP:
        loads = [(step, max(load, lightest, key=lambda each: each.kg)) for step, load in loads]
    kept = _kept(loads, work)
    loadings = load_in_turn([load for _, load in kept] + [load_bar(work, coarse, "down").load], coarse)
    return tuple(
        RampSet(
            step.reps, load, made.per_side, _percent(load, work),
            RAISE if from_floor and not any(map(is_full, made.per_side)) else "",
        )
        for (step, load), made in zip(kept, loadings, strict=False)
    )  # fmt: skip


def without_fractions(kit: BarKit) -> BarKit:
    """Leave out the discs that nobody puts on for a ramp set: those below 1.25 kg or 2.5 lb (common practice)."""
    return replace(kit, discs=tuple(disc for disc in kit.discs if disc.mass.amount >= LEAST_DISC[disc.mass.unit]))


def ramp_of_fixed(
    first: Mass, masses: Sequence[Mass], steps: Sequence[RampStep] = COMMON_RAMP[1:]
) -> tuple[RampSet, ...]:
    """Plan the ramp with fixed dumbbells or kettlebells: for each step the heaviest that is not above it."""
    wanted = [(step, [mass for mass in masses if mass.kg <= _share(first, step).kg]) for step in steps]
    kept = _kept([(step, max(fit, key=lambda mass: mass.kg)) for step, fit in wanted if fit], first)
    return tuple(RampSet(step.reps, load, (), _percent(load, first)) for step, load in kept)


def _kept(made: Sequence[tuple[RampStep, Mass]], work: Mass) -> list[tuple[RampStep, Mass]]:
    """Leave out the sets that are pointless; of two of one load the later, shorter one stays out."""
    jump = work.kg * LEAST_JUMP
    kept: list[tuple[RampStep, Mass]] = []
    for step, load in made:
        after_last = not kept or load.kg - kept[-1][1].kg >= jump
        if after_last and work.kg - load.kg >= jump:
            kept.append((step, load))
    return kept


def _share(work: Mass, step: RampStep) -> Mass:
    return Mass(work.amount * step.percent / 100, work.unit)


def _percent(load: Mass, work: Mass) -> Decimal:
    return load.kg / work.kg * 100
