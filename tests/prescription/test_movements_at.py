"""Movements to choose from: of the table of names alone, by what stands at a place, and never with what does not."""

from __future__ import annotations

import pytest

from tracker.prescription.movements_at import AS_LIFT, USUAL, movements_at, usual
from tracker.prescription.sheet.words.names import sections

KITS = (
    (), ("dumbbells", "dumbbell"), ("barbell",), ("kettlebell",), ("barbell", "dumbbells", "dumbbell", "kettlebell", "machine"),
)  # fmt: skip


@pytest.mark.parametrize("kit", KITS)
def test_at_least_a_hundred_and_twenty_wherever_one_trains(kit):
    found = movements_at(kit)
    assert len({each.name for each in found}) == len(found) >= 120


@pytest.mark.parametrize("kit", KITS)
def test_nothing_is_offered_with_what_is_not_there(kit):
    held = {each.implement for each in movements_at(kit)}
    assert held <= {*kit, "body", *(AS_LIFT[each] for each in kit if each in AS_LIFT)}


@pytest.mark.parametrize("kit", KITS)
def test_every_name_is_one_of_the_table_that_sheets_are_read_by(kit):
    known = {entry.name for _, names in sections() for entry in names}
    for each in movements_at(kit):
        assert each.name in known


def test_what_most_begin_with_can_be_done_with_it():
    assert [each.name for each in usual(("barbell",))] == list(USUAL["barbell"])
    assert [each.name for each in usual(("dumbbells", "dumbbell"))] == list(USUAL["dumbbells"])
    assert [each.name for each in usual(())] == list(USUAL["body"])
    assert {each.implement for each in usual(("dumbbells", "dumbbell"))} == {"dumbbells", "dumbbell", "body"}


def test_a_goblet_takes_a_dumbbell_where_there_is_no_kettlebell():
    with_kettlebell = {each.name: each.implement for each in movements_at(("kettlebell", "dumbbell"))}
    assert with_kettlebell["goblet squat"] == "kettlebell"
    assert {each.name: each.implement for each in movements_at(("dumbbell",))}["goblet squat"] == "dumbbell"
    assert "goblet squat" not in {each.name for each in movements_at(())}
