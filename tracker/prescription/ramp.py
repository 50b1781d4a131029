"""Ramp sets up to the first working set: common practice, adjustable, loadable, left out where they are pointless.

No published rule fixes a ramp; texts agree on a few sets that get heavier and shorter, with jumps that shrink.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import ROUND_FLOOR, Decimal
from functools import lru_cache

from tracker.errors import BadInputError
from tracker.prescription.changes import disc_changes
from tracker.prescription.floor import RAISE, has_full, lightest_from_floor
from tracker.prescription.kit import BarKit
from tracker.prescription.plates import Loading, load_bar, loadings_for, loadings_near
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
BODY_RAMP = (RampStep(Decimal(0), 5), RampStep(Decimal(50), 3))  # of the added load; common practice
LEAST_DISC: dict[Unit, Decimal] = {"kg": Decimal("1.25"), "lb": Decimal("2.5")}  # common practice
SMALL_DISC: dict[Unit, Decimal] = {"kg": Decimal(5), "lb": Decimal(10)}  # nobody fetches smaller ones for a ramp
LEAST_JUMP = Decimal("0.10")  # a share of the working load; a smaller jump is a set for nothing; design choice
LOWER, HIGHER = (
    Decimal("0.12"),
    Decimal("0.05"),
)  # so far from its step a set may lie for the sake of its discs; own choice
LOOKED_AT, WAYS, KEPT = 6, 2, 8  # loads for each step, choices of discs for each, ramps that are followed further
OFF = Decimal(25)  # a set that lies 4 % off its step is as bad as one disc more to carry; own choice
MANY = 20  # pairs of one disc on a bar at most
SKIP = Decimal(6)  # a step that is left out for what it would carry; own choice
SMALL, EACH = Decimal("1.5"), Decimal("0.5")  # a small disc on the bar, and any disc, beside one to carry; own choice


@dataclass(frozen=True, slots=True)
class RampSet:
    """A ramp set: repetitions, load, discs on each side, and the true percentage of the first working load."""

    reps: int
    load: Mass
    per_side: tuple[Mass, ...]
    percent: Decimal
    note: str = ""  # what else has to be done for it


@lru_cache(maxsize=256)
def ramp_sets(
    first: Mass, kit: BarKit, steps: tuple[RampStep, ...] = COMMON_RAMP, *, from_floor: bool = False
) -> tuple[RampSet, ...]:
    """Plan the ramp up to a first working set of `first`, as people make one: big discs first, and they stay on.

    Each set is loadable, lies near its step (a tenth lighter or a twentieth heavier at most where that saves carrying), has
    no fractional disc, and few small ones. A set is left out where it would be within 10 % of the working load of the set
    before it or of the working load itself; so an empty bar has no ramp. A pull `from_floor` begins with the lightest discs
    of full diameter where the kit has them and they are light enough; each set without any says to raise the bar.
    """
    work, coarse = load_bar(first, kit).load, without_fractions(kit)
    lightest = lightest_from_floor(coarse) if from_floor else None
    if lightest is not None and work.kg - lightest.kg < work.kg * LEAST_JUMP:
        lightest = None
    rows: list[_Row] = [_Row(Decimal(0))]
    for step in steps:
        rows = _best(
            [
                longer
                for row in rows
                for longer in _longer(row, step, work, coarse, lightest, may_skip=step is not steps[-1])
            ]
        )
    ends = loadings_for(work, kit, "nearest", WAYS)
    done = min(rows, key=lambda row: row.cost + min(disc_changes(row.discs, end.per_side) for end in ends))
    return tuple(
        RampSet(
            step.reps, made.load, made.per_side, made.load.kg / work.kg * 100,
            RAISE if from_floor and not has_full(coarse, made.per_side) else "",
        )
        for step, made in done.sets
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class _Row:
    """A ramp up to some step, and what it costs: discs to carry, sets off their step, small discs."""

    cost: Decimal
    sets: tuple[tuple[RampStep, Loading], ...] = ()

    @property
    def discs(self) -> tuple[Mass, ...]:
        return self.sets[-1][1].per_side if self.sets else ()


def _longer(
    row: _Row, step: RampStep, work: Mass, kit: BarKit, lightest: Mass | None, *, may_skip: bool
) -> Iterator[_Row]:
    """Add a set for a step in each way that may be a good one; or leave the step out."""
    jump, wanted = work.kg * LEAST_JUMP, work.kg * step.percent / 100
    found = False
    loads = dict.fromkeys(made for made in _choices(wanted, work, kit, lightest))
    more = (_on_top(row, made, kit) for made in loads)
    for made in (*loads, *(each for each in more if each is not None)):
        kg = made.load.kg
        after = not row.sets or kg - row.sets[-1][1].load.kg >= jump
        if after and work.kg - kg >= jump:
            found = True
            off = abs(kg - max(wanted, lightest.kg if lightest else Decimal(0))) / work.kg
            small = sum(disc.amount < SMALL_DISC[disc.unit] for disc in made.per_side)
            cost = disc_changes(row.discs, made.per_side) + OFF * off + SMALL * small + EACH * len(made.per_side)
            yield _Row(row.cost + cost, (*row.sets, (step, made)))
    if not found:
        yield row
    elif row.sets and may_skip:
        yield replace(row, cost=row.cost + SKIP)


def _on_top(row: _Row, wanted: Loading, kit: BarKit) -> Loading | None:
    """Make a load with what lies on the bar and smaller discs outside it; None where that can't be, or is the same."""
    if not row.discs:
        return None
    left = (wanted.load.kg - row.sets[-1][1].load.kg) / 2
    added: list[Mass] = []
    for disc in sorted(kit.discs, key=lambda each: each.mass.kg, reverse=True):
        at_hand = MANY if disc.pairs is None else disc.pairs - row.discs.count(disc.mass)
        while disc.mass.kg <= min(left, row.discs[-1].kg) and added.count(disc.mass) < at_hand:
            added.append(disc.mass)
            left -= disc.mass.kg
    discs = (*row.discs, *added)
    return None if left or not added or discs == wanted.per_side else replace(wanted, per_side=discs)


def _choices(wanted: Decimal, work: Mass, kit: BarKit, lightest: Mass | None) -> Iterator[Loading]:
    """List what may stand for a step: the nearest load below it and others near, each with its discs; a first one bare."""
    least = lightest.kg if lightest else Decimal(0)
    if wanted == 0:
        yield load_bar(lightest or Mass(Decimal(0), kit.unit), kit)
        return
    first = load_bar(Mass(Mass(max(wanted, least), "kg").to(work.unit), work.unit), kit, "down").load
    loads, lower, higher = [first], first, first
    while len(loads) < LOOKED_AT:
        below = loadings_near(lower, kit)[0]
        if below is None or below.kg < wanted - LOWER * work.kg or below.kg < least:
            break
        loads.append(lower := below)
    for _ in range(LOOKED_AT):
        above = loadings_near(higher, kit)[1]
        if above is None or above.kg > wanted + HIGHER * work.kg:
            break
        loads.append(higher := above)
    for load in loads:
        yield from loadings_for(load, kit, "nearest", WAYS)


def _best(rows: Sequence[_Row]) -> list[_Row]:
    """Keep for each last choice of discs the cheapest row; more ways to get there do not matter."""
    found: dict[tuple[int, tuple[Mass, ...]], _Row] = {}
    for row in rows:
        key = (len(row.sets), row.discs)
        if key not in found or row.cost < found[key].cost:
            found[key] = row
    return sorted(found.values(), key=lambda row: row.cost)[:KEPT]


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


def ramp_of_body(added: Mass, body: Mass | None, step: Decimal) -> tuple[RampSet, ...]:
    """Plan the ramp where the body is lifted with a load: the body alone, then with half of what is added, in whole steps.

    Nothing where nothing is added; `percent` is of all that is moved, where the body's mass is known.
    """
    if added.amount <= 0:
        return ()
    whole = added.kg + (body.kg if body else 0)
    made: list[RampSet] = []
    for each in BODY_RAMP:
        load = Mass((added.amount * each.percent / 100 / step).to_integral_value(ROUND_FLOOR) * step, added.unit)
        if not made or load.kg > made[-1].load.kg:
            share = (load.kg + (body.kg if body else 0)) / whole * 100
            made.append(RampSet(each.reps, load, (), share))
    return tuple(made)
