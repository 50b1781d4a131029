"""Few changes of discs from set to set, against all equal choices."""

from __future__ import annotations

import itertools
import random
from decimal import Decimal

import pytest

from tracker.prescription.changes import CHOICES, disc_changes, load_in_turn, share_bar
from tracker.prescription.kit import STANDARD_KIT, BarKit, parse_pairs
from tracker.prescription.plates import load_bar, loadings_for
from tracker.units import Mass


def kg(*amounts: str) -> tuple[Mass, ...]:
    return tuple(Mass(Decimal(amount), "kg") for amount in amounts)


@pytest.mark.parametrize(
    ("before", "after", "changes"),
    [
        ((), (), 0),
        ((), ("20",), 2),
        (("20",), ("20", "2.5"), 2),
        (("20", "2.5"), ("20", "5"), 4),
        (("20", "5", "2.5"), ("25", "5", "2.5"), 12),  # the inner disc comes off last
        (("20", "10"), ("20", "10"), 0),
    ],
)
def test_changes_by_hand(before: tuple[str, ...], after: tuple[str, ...], changes: int) -> None:
    assert disc_changes(kg(*before), kg(*after)) == changes


def test_a_20_stays_on_where_it_costs_no_extra_disc() -> None:
    """60 kg is 20 a side; 80 kg is 25 + 5, 20 + 10 or 15 + 15 a side: the 20 stays and a 10 goes on."""
    first, second = load_in_turn(kg("60", "80"), STANDARD_KIT)
    assert first.per_side == kg("20")
    assert second.per_side == kg("20", "10")
    assert len(load_bar(kg("80")[0], STANDARD_KIT).per_side) == 2


def test_same_loads_and_disc_counts_as_alone_and_as_few_changes_as_all_choices_allow() -> None:
    rng = random.Random(5)
    for _ in range(60):
        kit = BarKit(
            kg("20")[0],
            parse_pairs(
                " ".join(f"{m}:{rng.randint(0, 3)}" for m in ("25", "20", "15", "10", "5", "2.5", "1.25")), "kg"
            ),
        )
        targets = [Mass(Decimal(rng.randint(8, 60)) * Decimal("2.5"), "kg") for _ in range(4)]
        row = load_in_turn(targets, kit)
        for target, made in zip(targets, row, strict=True):
            alone = load_bar(target, kit)
            assert (made.load, made.note, len(made.per_side)) == (alone.load, alone.note, len(alone.per_side))
        choices = [[each.per_side for each in loadings_for(target, kit, "nearest", CHOICES)] for target in targets]
        costs = [total(sides) for sides in itertools.product(*choices)]
        assert total([made.per_side for made in row]) == min(costs)


def total(sides: list[tuple[Mass, ...]] | tuple[tuple[Mass, ...], ...]) -> int:
    return sum(disc_changes(one, two) for one, two in itertools.pairwise(((), *sides)))


def test_partners_take_turns_and_keep_changes_few() -> None:
    shared = share_bar(kg("60", "70", "80"), kg("80", "90"), STANDARD_KIT)
    assert [(each.partner, each.number) for each in shared] in (
        [(0, 1), (1, 1), (0, 2), (1, 2), (0, 3)],
        [(1, 1), (0, 1), (1, 2), (0, 2), (0, 3)],
    )
    loads = {(each.partner, each.number): each.loading.load for each in shared}
    assert loads[0, 3] == kg("80")[0]
    assert loads[1, 2] == kg("90")[0]
    alone = [load_bar(each.loading.load, STANDARD_KIT).per_side for each in shared]
    assert sum(each.changes for each in shared) <= total(alone)
    assert sum(each.changes for each in shared) == total([each.loading.per_side for each in shared])


def test_a_partner_without_sets_leaves_the_other_alone() -> None:
    shared = share_bar(kg("60"), (), STANDARD_KIT)
    assert [(each.partner, each.number, each.changes) for each in shared] == [(0, 1, 2)]
    assert share_bar((), (), STANDARD_KIT) == ()
