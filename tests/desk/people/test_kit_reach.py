"""What a kit is said to make, held against every sum of its discs, counted anew; and ready kits, which say what is in them."""

from __future__ import annotations

import random
from decimal import Decimal
from itertools import pairwise
from typing import get_args

import pytest

from tracker.desk.people.first_session import as_place
from tracker.desk.people.kit_reach import reach
from tracker.desk.people.ready_places import Ready, inside, ready_place
from tracker.log.records import KitItemRecord, PlaceRecord
from tracker.units import Mass

MASSES = ("25", "20", "15", "10", "5", "2.5", "1.25", "2", "0.5")


def kg(text: str | Decimal) -> Mass:
    return Mass(Decimal(text), "kg")


def place(*items: KitItemRecord) -> PlaceRecord:
    return PlaceRecord("x", "Hall", "kg", pins=True, items=items)


def sums(discs: list[tuple[Decimal, int]]) -> list[Decimal]:
    reached = {Decimal(0)}
    for mass, pairs in discs:
        reached = {at + mass * n for at in reached for n in range(pairs + 1)}
    return sorted(reached)


@pytest.mark.parametrize("seed", range(40))
def test_span_and_steps_of_a_bar_are_those_of_all_its_loads(seed: int):
    dice = random.Random(f"reach {seed}")
    discs = [(Decimal(mass), dice.randint(1, 3)) for mass in dice.sample(MASSES, dice.randint(1, 4))]
    bar = dice.choice((Decimal(20), Decimal(15), Decimal("19.8")))
    items = [KitItemRecord(str(n), "disc", str(mass), kg(mass), pairs) for n, (mass, pairs) in enumerate(discs)]
    (said,) = reach(place(KitItemRecord("bar", "bar", "bar", kg(bar), 1), *items))
    loads = [bar + 2 * side for side in sums(discs)]
    gaps = {after - before for before, after in pairwise(loads)}
    assert said.most is not None
    assert said.least.amount == loads[0]
    assert said.most.amount <= loads[-1] if said.sleeve else said.most.amount == loads[-1]
    assert said.sleeve == ("about" in said.span)
    if len(loads) <= 60:
        assert said.step is not None
        assert said.step.amount == min(gaps)
        assert said.even == (len(gaps) == 1)
        assert said.steps == (f"by {said.step}" if len(gaps) == 1 else f"by {said.step} or more")


def test_a_bar_is_said_to_carry_what_its_sleeves_take_and_not_all_that_lies_there():
    """By hand: 38.5 cm of sleeve take four of 8 cm (25 kg) and one of 6 (10 kg); 29 cm three of 8 and one of 3 (5 kg)."""
    heap = [KitItemRecord(m, "disc", m, kg(m), 4) for m in ("25", "20", "15", "10", "5")]
    long, short = (KitItemRecord(m, "bar", "bar", kg(m), 1) for m in ("20", "15"))
    assert [each.span for each in reach(place(long, short, *heap))] == ["20 to about 240 kg", "15 to about 170 kg"]
    few = [KitItemRecord(m, "disc", m, kg(m), 1) for m in ("20", "15", "10", "5", "2.5")]
    assert [each.span for each in reach(place(long, *few))] == ["20 to 125 kg"]


def test_without_an_end_it_says_where_it_begins():
    items = (KitItemRecord("b", "bar", "bar", kg("20"), 1), KitItemRecord("d", "disc", "5", kg("5"), None))
    (said,) = reach(place(*items))
    assert (said.what, said.span, said.steps) == ("Bar", "from 20 kg", "by 10 kg")


def test_collars_count_and_a_bar_alone_is_one_load():
    items = (KitItemRecord("b", "bar", "bar", kg("20"), 1), KitItemRecord("c", "collars", "pair", kg("5"), 1))
    (said,) = reach(place(*items))
    assert (said.span, said.steps) == ("25 kg", "one load")


def test_fixed_weights_say_the_smallest_and_the_widest_step_of_each_unit():
    bells = [KitItemRecord(m, "dumbbell", m, kg(m), 2) for m in ("10", "12.5", "20")]
    pound = KitItemRecord("p", "dumbbell", "35", Mass(Decimal(35), "lb"), 2)
    none = KitItemRecord("n", "dumbbell", "40", kg("40"), 0)
    assert [(each.span, each.steps) for each in reach(place(*bells, pound, none))] == [
        ("10 to 20 kg", "by 2.5 to 7.5 kg"), ("35 lb", "one load"),
    ]  # fmt: skip


@pytest.mark.parametrize("unit", ["kg", "lb"])
@pytest.mark.parametrize("kind", get_args(Ready))
def test_a_ready_kit_says_what_is_in_it(kind, unit):
    ready, words = ready_place(kind, unit), inside(kind, unit)
    assert {item.mass.unit for item in ready.items if item.mass} <= {unit}
    for said in reach(as_place(ready)):  # type: ignore[arg-type]
        if said.most is not None and said.what != "Kettlebells":
            assert str(said.most) in words, said
    assert len(words) < 90
