"""A sore place or a limited day: what the day offers, what it never proposes, and that it ends by the member's word alone."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.desk.doing import lift_named, squats_and_presses
from tests.loads import kg
from tracker.desk.day import log_set, sore, sore_choice, today, weights
from tracker.desk.day.next import whats_next
from tracker.desk.day.sore import SoreState
from tracker.desk.history import journal
from tracker.desk.people import kit, people
from tracker.errors import BadInputError
from tracker.log.records import KitItemRecord, MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.prescription.body_parts import PARTS, concerned, instead_of, loads_of
from tracker.prescription.sheet.words.names import movement_names


@pytest.fixture
def tova(log: Log) -> MemberRecord:
    """A member with a bar and a wave: today two sets of squats, then two of presses."""
    return squats_and_presses(log, "Tova")


def plan(log: Log, member: MemberRecord) -> today.DayPlan:
    return today.day_plan(log, member.id, this_day())


def did(log: Log, member: MemberRecord) -> None:
    line = plan(log, member).next_line
    assert line is not None
    load = line.made.load if line.made else kg(10)
    new = NewSet(line.lift.id, load, line.reps, planned_set_id=line.planned.id, planned_round=line.number, member_step_id=line.step_id)  # fmt: skip
    log_set.log_set(log, member.id, this_day(), new, sure=True)


def test_every_name_of_the_table_loads_something_and_is_of_a_kind():
    # Common practice: nobody moves without loading a part of the body.
    assert [name for name in movement_names() if loads_of(name) is None or not loads_of(name).parts] == []


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        ("strict press", {"shoulder", "elbow"}), ("back squat", {"knee", "hip", "back"}), ("deadlift", {"back", "hip"}),
        ("pull-ups", {"shoulder", "elbow"}), ("run", {"knee", "ankle"}), ("double unders", {"ankle"}),
        ("biceps curls", {"elbow"}), ("Push-Up", {"wrist", "shoulder"}), ("my own thing", set()),
    ],
)  # fmt: skip
def test_what_a_movement_loads_at_least(name, parts):
    assert parts <= set(concerned(name, PARTS))


@pytest.mark.parametrize("part", PARTS)
def test_nothing_is_offered_that_loads_the_sore_place_or_was_marked_as_painful(part):
    for name in movement_names():
        for other in instead_of(name, [part], ["barbell", "dumbbells"], never=["glute bridge"]):
            assert part not in concerned(other.name, PARTS)
            assert other.name != "glute bridge"
            assert other.implement in ("body", "barbell", "dumbbells")


def test_the_day_offers_and_does_nothing_by_itself(log, tova):
    assert plan(log, tova).sore == SoreState()
    sore.begin(log, tova.id, "shoulder", this_day())
    found = plan(log, tova)
    assert [(each.lift.name, each.parts) for each in found.sore_offers] == [
        ("back squat", ("shoulder",)), ("strict press", ("shoulder",)),
    ]  # fmt: skip
    assert found.sore_offers[1].words == "Strict press loads the shoulder."
    assert len(found.lines) == 4
    assert found.next_line.made is not None  # only the member leaves out
    assert found.easy
    assert dict(found.sore.since) == {"shoulder": this_day()}


def test_what_is_left_out_is_not_asked_for_and_the_session_ends_without_it(log, tova):
    sore.begin(log, tova.id, "shoulder", this_day())
    sore_choice.choose(log, tova.id, lift_named(log, "strict press").id, "leave")
    assert [line.lift.name for line in plan(log, tova).lines] == ["back squat"] * 2
    did(log, tova)
    did(log, tova)
    found = whats_next(log, tova.id, this_day())
    assert (found.kind, found.plan.step.state, found.plan.closed) == ("rating", "done", False)


def test_leaving_the_rest_out_ends_the_session_as_well(log, tova):
    did(log, tova)
    did(log, tova)
    sore.begin(log, tova.id, "shoulder", this_day())
    sore_choice.choose(log, tova.id, lift_named(log, "strict press").id, "leave")
    assert whats_next(log, tova.id, this_day()).kind == "rating"
    assert plan(log, tova).step.state == "done"


def test_another_lift_stands_in_its_place_without_a_load_and_fulfils_the_plan(log, tova):
    sore.begin(log, tova.id, "shoulder", this_day())
    offer = plan(log, tova).sore_offers[0]
    other = next(each for each in offer.others if each.implement == "body")
    sore_choice.choose(log, tova.id, offer.lift.id, "instead", other=other)
    line = plan(log, tova).next_line
    assert (line.lift.name, line.reps, line.made) == (other.name, 5, None)
    people.weigh(log, tova.id, this_day(), kg(70))
    for _ in range(4):
        did(log, tova)
    assert plan(log, tova).step.state == "done"


def test_of_dumbbells_only_what_stands_there_is_offered(log, tova):
    sore.begin(log, tova.id, "knee", this_day())
    names = {each.implement for each in plan(log, tova).sore_offers[0].others}
    assert names <= {"body", "barbell"}
    sore.end(log, tova.id, "knee")
    sore.begin(log, tova.id, "back", this_day())
    (offer,) = [each for each in plan(log, tova).sore_offers if each.lift.name == "strict press"]
    assert "dumbbells" not in {each.implement for each in offer.others}
    kit.put_item(log, tova.place_id, KitItemRecord("", "dumbbell", "", kg(15), 2), tova.id)
    (offer,) = [each for each in plan(log, tova).sore_offers if each.lift.name == "strict press"]
    assert offer.others[0].implement == "dumbbells"


def test_no_load_is_proposed_for_what_was_marked_as_painful_anywhere(log, tova):
    squat = lift_named(log, "back squat")
    did(log, tova)
    sore.mark_painful(log, tova.id, squat.id)
    found = plan(log, tova)
    assert [(line.made, line.painful) for line in found.lines[:2]] == [(None, True)] * 2
    assert found.beats == {}
    assert found.ramp == ()
    assert "no load is proposed" in " ".join(found.next_line.notes)
    reference = weights.typed_reference("100", 5, "kg", this_day())
    with pytest.raises(BadInputError) as told:
        weights.weights(log, tova, squat, reference, "1x5@70", this_day())
    assert "painful" in str(told.value)
    sore.mark_painful(log, tova.id, squat.id, painful=False)
    assert plan(log, tova).next_line.made is not None
    assert weights.weights(log, tova, squat, reference, "1x5@70", this_day())


def test_it_ends_by_the_members_word_and_not_with_the_day(log, tova):
    sore.begin(log, tova.id, "shoulder", this_day() - timedelta(days=30))
    sore_choice.choose(log, tova.id, lift_named(log, "strict press").id, "leave")
    assert dict(plan(log, tova).sore.since) == {"shoulder": this_day() - timedelta(days=30)}
    sore.end(log, tova.id, "shoulder")
    assert plan(log, tova).sore == SoreState()
    assert len(plan(log, tova).lines) == 4
    sore.begin(log, tova.id, "shoulder", this_day())
    assert len(plan(log, tova).lines) == 4  # what was chosen then is over


def test_a_limited_day_asks_nothing_and_lets_nothing_be_beaten(log, tova):
    sore.begin(log, tova.id, sore.LIMITED, this_day())
    found = plan(log, tova)
    assert (found.easy, found.sore_offers, found.beats) == (True, (), {})


def test_each_word_is_undone_and_none_names_a_part(log, tova):
    sore.begin(log, tova.id, "wrist", this_day())
    sore.mark_painful(log, tova.id, lift_named(log, "strict press").id)
    acts = journal.acts(log, tova.id)[:2]
    assert {act.words for act in acts} == {sore.WORDS}
    for act in acts:
        journal.undo_act(log, act.act_id)
    assert plan(log, tova).sore == SoreState()


@pytest.mark.parametrize("place", ["heart", "", "Shoulder"])
def test_a_place_that_is_not_on_the_list_is_told(log, tova, place):
    with pytest.raises(BadInputError):
        sore.begin(log, tova.id, place, this_day())
    assert plan(log, tova).sore == SoreState()


def test_the_movements_of_a_piece_are_told_with_what_needs_nothing():
    said = sore.in_piece(["double under", "push-up", "own thing"], SoreState({"ankle": this_day()}))
    assert len(said) == 1
    assert said[0].startswith("Double under loads the ankle: leave it out, or ")
