"""Fewer discs to carry: of equal choices of discs for a row of loads, the one that changes least from set to set.

A load never gets an extra disc for it. Discs lie on the sleeve heaviest inside, so that an inner one comes off only after
the outer ones (common practice).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import zip_longest

from tracker.prescription.kit import BarKit
from tracker.prescription.plates import Loading, Rounding, loadings_for
from tracker.units import Mass

CHOICES = 16  # equal choices looked at for each load; more never helped in trials on common kits


def disc_changes(before: Sequence[Mass], after: Sequence[Mass]) -> int:
    """Count the discs put on or taken off, both sides together, between two loads given per side, heaviest first."""
    same = 0
    for one, two in zip(before, after, strict=False):
        if one != two:
            break
        same += 1
    return 2 * (len(before) + len(after) - 2 * same)


def load_in_turn(targets: Sequence[Mass], kit: BarKit, rounding: Rounding = "nearest") -> tuple[Loading, ...]:
    """Load one bar for each target in turn: every load as `load_bar` makes it, with the fewest discs changed over all.

    Starts from the empty bar; of equal rows the one with heavier discs.

    Raises:
        BadInputError: if a target is over 1,000 kg.
    """
    rows: list[tuple[int, tuple[Loading, ...]]] = [(0, ())]
    for target in targets:
        choices = loadings_for(target, kit, rounding, CHOICES)
        rows = [
            min(((cost + disc_changes(_last(row), choice.per_side), (*row, choice)) for cost, row in rows), key=_cost)
            for choice in choices
        ]
    return min(rows, key=_cost)[1]


@dataclass(frozen=True, slots=True)
class SharedSet:
    """One set on a shared bar: whose (0 the first partner, 1 the second), which of theirs, and how the bar is loaded."""

    partner: int
    number: int
    loading: Loading
    changes: int


def share_bar(
    first: Sequence[Mass], second: Sequence[Mass], kit: BarKit, rounding: Rounding = "nearest"
) -> tuple[SharedSet, ...]:
    """Take turns at one bar, set by set; whoever begins, and of equal discs those, that change least."""
    orders = (_alternate(first, second, 0), _alternate(second, first, 1))
    shared = [_shared(order, kit, rounding) for order in orders]
    return min(shared, key=lambda sets: sum(each.changes for each in sets))


def _alternate(one: Sequence[Mass], two: Sequence[Mass], begins: int) -> list[tuple[int, int, Mass]]:
    pairs = enumerate(zip_longest(one, two), 1)
    turns = [
        (who, number, target) for number, pair in pairs for who, target in zip((begins, 1 - begins), pair, strict=True)
    ]
    return [(who, number, target) for who, number, target in turns if target is not None]


def _shared(order: list[tuple[int, int, Mass]], kit: BarKit, rounding: Rounding) -> tuple[SharedSet, ...]:
    loadings = load_in_turn([target for _, _, target in order], kit, rounding)
    before = ((), *(each.per_side for each in loadings))
    return tuple(
        SharedSet(who, number, loading, disc_changes(last, loading.per_side))
        for (who, number, _), loading, last in zip(order, loadings, before, strict=False)
    )


def _last(row: tuple[Loading, ...]) -> tuple[Mass, ...]:
    return row[-1].per_side if row else ()


def _cost(row: tuple[int, tuple[Loading, ...]]) -> int:
    return row[0]
