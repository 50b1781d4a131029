"""One lift left out of a session or replaced, because nothing stands there for it or for no reason that anybody is told."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tests.desk.doing import did as did_then
from tests.desk.doing import lift_named, squats_and_presses
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.coach import due
from tracker.desk.day import line_words, log_set, singly, sore_choice, today, told
from tracker.desk.day.next import whats_next
from tracker.desk.people import people, places
from tracker.log import waves as log_waves
from tracker.log.records import KitItemRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep


@pytest.fixture
def tova(log: Log):
    return squats_and_presses(log, "Tova")


def at_home(log: Log, member):
    """A room with one dumbbell and no bar."""
    home = places.add_place(log, "Home", "kg", (KitItemRecord("", "dumbbell", "", kg(15), 1),))
    return people.go_to_place(log, member.id, home.id)


def plan(log, member):
    return today.day_plan(log, member.id, this_day())


def test_without_anything_sore_a_lift_is_left_out_of_this_session_alone(log, tova):
    squat = lift_named(log, "back squat")
    step = plan(log, tova).step
    sore_choice.choose(log, tova.id, squat.id, "leave", step_id=step.id)
    found = plan(log, tova)
    assert [line.lift.name for line in found.lines] == ["strict press"] * 2
    assert [(lift.name, way.how) for lift, way in singly.chosen(found)] == [("back squat", "leave")]
    assert not found.sore.limited
    for line in found.lines:
        new = NewSet(
            line.lift.id,
            line.made.load,
            5,
            planned_set_id=line.planned.id,
            planned_round=line.number,
            member_step_id=step.id,
        )
        log_set.log_set(log, tova.id, this_day(), new)
    assert whats_next(log, tova.id, this_day()).kind == "rating"
    assert plan(log, tova).step.state == "done"


def do_next(log, member, times=1):
    for _ in range(times):
        line = plan(log, member).next_line
        load = line.made.load if line.made else kg(10)
        new = NewSet(
            line.lift.id, load, line.reps, planned_set_id=line.planned.id, planned_round=line.number,
            member_step_id=line.step_id,
        )  # fmt: skip
        log_set.log_set(log, member.id, this_day(), new, sure=True)


def listed(log, member):
    return [(line.lift.name, line.number, line.done is not None) for line in plan(log, member).lines]


def test_after_one_set_what_is_left_of_the_lift_goes_and_the_done_set_stays(log, tova):
    squat = lift_named(log, "back squat")
    do_next(log, tova)
    step = plan(log, tova).step
    sore_choice.choose(log, tova.id, squat.id, "leave", step_id=step.id)
    assert listed(log, tova) == [("back squat", 1, True), ("strict press", 1, False), ("strict press", 2, False)]
    assert whats_next(log, tova.id, this_day()).line.lift.name == "strict press"
    assert [row.lift.name for row in plan(log, tova).sets] == ["back squat"]
    assert plan(log, tova).step.state == "planned"
    undo_newest(log, tova.id)
    assert len(plan(log, tova).lines) == 4
    sore_choice.choose(log, tova.id, squat.id, "leave", step_id=step.id)
    do_next(log, tova, 2)
    assert plan(log, tova).step.state == "done"
    assert whats_next(log, tova.id, this_day()).kind == "rating"


def test_after_one_set_of_the_last_lift_nothing_is_asked_for_and_the_session_is_over(log, tova):
    do_next(log, tova, 3)
    step = plan(log, tova).step
    sore_choice.choose(log, tova.id, lift_named(log, "strict press").id, "leave", step_id=step.id)
    found = whats_next(log, tova.id, this_day())
    assert (found.kind, found.plan.step.state, found.plan.closed) == ("rating", "done", False)
    assert all(done for _, _, done in listed(log, tova))


def test_taken_back_after_the_session_ended_by_it_the_sets_are_asked_for_again(log, tova):
    do_next(log, tova, 3)
    step, press = plan(log, tova).step, lift_named(log, "strict press")
    sore_choice.choose(log, tova.id, press.id, "leave", step_id=step.id)
    sore_choice.choose(log, tova.id, press.id, "keep", step_id=step.id)
    found = whats_next(log, tova.id, this_day())
    assert (found.kind, found.plan.step.state, found.line.lift.name, found.line.number) == (
        "set", "planned", "strict press", 2,
    )  # fmt: skip


def test_after_one_set_another_lift_stands_in_for_what_is_left_to_its_end(log, tova):
    do_next(log, tova)
    step, squat = plan(log, tova).step, lift_named(log, "back squat")
    other = next(each for each in singly.others(plan(log, tova), plan(log, tova).next_line) if each.implement == "body")
    sore_choice.choose(log, tova.id, squat.id, "instead", other=other, step_id=step.id)
    presses = [("strict press", 1, False), ("strict press", 2, False)]
    assert listed(log, tova) == [("back squat", 1, True), (other.name, 2, False), *presses]
    assert whats_next(log, tova.id, this_day()).line.lift.name == other.name
    people.weigh(log, tova.id, this_day(), kg(70))
    do_next(log, tova)
    assert listed(log, tova) == [("back squat", 1, True), (other.name, 2, True), *presses]
    assert plan(log, tova).step.state == "planned"
    do_next(log, tova, 2)
    assert plan(log, tova).step.state == "done"


def test_what_stands_in_stands_in_for_each_set_after_its_first(log, tova):
    step, squat = plan(log, tova).step, lift_named(log, "back squat")
    other = next(each for each in singly.others(plan(log, tova), plan(log, tova).next_line) if each.implement == "body")
    sore_choice.choose(log, tova.id, squat.id, "instead", other=other, step_id=step.id)
    people.weigh(log, tova.id, this_day(), kg(70))
    do_next(log, tova)
    assert listed(log, tova)[:2] == [(other.name, 1, True), (other.name, 2, False)]
    sore_choice.choose(log, tova.id, squat.id, "leave", step_id=step.id)
    assert [name for name, _, _ in listed(log, tova)] == [other.name, "strict press", "strict press"]


def test_it_is_undone_and_taken_back(log, tova):
    squat = lift_named(log, "back squat")
    step = plan(log, tova).step
    sore_choice.choose(log, tova.id, squat.id, "leave", step_id=step.id)
    undo_newest(log, tova.id)
    assert len(plan(log, tova).lines) == 4
    sore_choice.choose(log, tova.id, squat.id, "leave", step_id=step.id)
    sore_choice.choose(log, tova.id, squat.id, "keep", step_id=step.id)
    assert len(plan(log, tova).lines) == 4
    assert singly.chosen(plan(log, tova)) == ()


def test_another_lift_that_the_kit_allows_stands_in_without_a_load(log, tova):
    squat = lift_named(log, "back squat")
    at_home(log, tova)
    found = plan(log, tova)
    assert singly.nothing_for(found, found.next_line)
    offered = singly.others(found, found.next_line)
    assert offered
    assert {each.implement for each in offered} <= {"body", "dumbbell"}
    other = next(each for each in offered if each.implement == "body")
    sore_choice.choose(log, tova.id, squat.id, "instead", other=other, step_id=found.step.id)
    line = plan(log, tova).next_line
    assert (line.lift.name, line.made) == (other.name, None)


def test_the_coach_is_told_why_only_where_the_member_says_so(log, tova):
    did_then(log, tova, lift_named(log, "back squat"), 3, 60, 5)
    squat = lift_named(log, "back squat")
    sore_choice.choose(log, tova.id, squat.id, "leave", step_id=plan(log, tova).step.id)
    assert due.away(log, [tova.id], this_day())[0].told == ()
    told.tell_left_out(log, tova.id, squat.id, this_day())
    (words,) = due.away(log, [tova.id], this_day())[0].told
    assert words.startswith("Back squat, barbell left out on ")


def test_with_one_dumbbell_where_two_are_asked_the_day_says_so_and_offers_one_at_a_time(log, tova):
    at_home(log, tova)
    lift = people.add_lift(log, "dumbbell front squat", "dumbbells")
    with log.act("a wave", tova.id) as act:
        step = NewStep("Home", 0, [NewPlannedSet(lift.id, 4, 8, load=kg(15))])
        log_waves.start_wave(act, tova.id, log_waves.add_wave(act, "Home", [step]), this_day())
    step = next(each for each in today.steps(log, tova.id) if each.title == "Home")
    found = today.day_plan(log, tova.id, this_day(), member_step_id=step.id)
    line = found.next_line
    assert line.made is None
    assert "Home has one dumbbell of 15 kg, and two are asked. Do it with one at a time" in " ".join(line.notes)
    assert "each" not in line_words.asked(line)
    other = singly.one_at_a_time(found, line)
    assert singly.others(found, line)[0] == other
    sore_choice.choose(log, tova.id, lift.id, "instead", other=other, step_id=step.id)
    line = today.day_plan(log, tova.id, this_day(), member_step_id=step.id).next_line
    assert (line.lift.title, line.lift.per_side, str(line.made.load)) == (
        "dumbbell front squat, dumbbell",
        True,
        "15 kg",
    )
    assert line_words.asked(line) == "8 each side × 15 kg"
    assert line_words.made_of(line, "") == "1 dumbbell of 15 kg"
    assert "One at a time, the repetitions on each side." in line.notes


def test_where_two_stand_nothing_of_it_is_said(log, tova):
    place = places.add_place(log, "Hall", "kg", (KitItemRecord("", "dumbbell", "", kg(15), 2),))
    people.go_to_place(log, tova.id, place.id)
    lift = people.add_lift(log, "dumbbell front squat", "dumbbells")
    assert places.lone_masses(place, lift) == ()


def test_with_one_dumbbell_goblet_squats_stand_in_for_back_squats(log, tova):
    at_home(log, tova)
    squat = lift_named(log, "back squat")
    found = plan(log, tova)
    line = next(line for line in found.lines if line.lift.id == squat.id)
    goblet = singly.others(found, line)[0]
    assert (goblet.name, goblet.implement) == ("goblet squat", "dumbbell")
    sore_choice.choose(log, tova.id, squat.id, "instead", other=goblet, step_id=found.step.id)
    after = [each for each in plan(log, tova).lines if each.lift.name == "goblet squat"]
    before = [each for each in found.lines if each.lift.id == squat.id]
    assert [each.reps for each in after] == [each.reps for each in before]
    assert all(each.percent is None and each.reference is None for each in after)  # no percentage of a back squat
