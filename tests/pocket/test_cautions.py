"""What is sore or not answered yet: the plan that a phone takes along proposes no load for it, and says why as Today does."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.with_pieces import put_into_step
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.day import attempts, log_set, sore, sore_choice, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.pocket.plan import plan_of
from tracker.prescription.body_parts import CLINICIAN, NO_DIAGNOSIS, STOP


def the_plan(log, member):
    return plan_of(log, member.id, this_day())


def lines_of(log, member, at=0):
    return the_plan(log, member)["sessions"][at]["lines"]


def lift_of(log, member, lift):
    return next(each for each in the_plan(log, member)["lifts"] if each["id"] == lift.id)


@pytest.fixture
def press(log):
    return people.add_lift(log, "strict press", "barbell")


@pytest.fixture
def planned(log, ana, squat, press):
    """Two squats at 70 % and two presses today, the same in a week; a squat of last week."""
    log_set.log_set(log, ana.id, this_day() - timedelta(days=7), NewSet(squat.id, kg("80"), 5, Decimal(2)))
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=9), 5, kg("100"), tested=True)
    sets = [
        NewPlannedSet(squat.id, 2, 5, percent=Decimal(70), of_reps=5, block=0),
        NewPlannedSet(press.id, 2, 5, load=kg("40"), block=1),
    ]
    with log.act("a wave") as act:
        steps = [NewStep("Quay", 0, sets), NewStep("Quay again", 7, sets)]
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Quay", steps), this_day())
    return today.steps(log, ana.id)[0]


@pytest.fixture
def testing(log, ana, squat, press):
    """A test of the squat's 1RM today, then two presses."""
    log_set.log_set(log, ana.id, this_day() - timedelta(days=3), NewSet(squat.id, kg("90"), 3, Decimal(2)))
    sets = [NewPlannedSet(squat.id, 1, 1, test=True, block=0), NewPlannedSet(press.id, 2, 5, load=kg("40"), block=1)]
    with log.act("a wave") as act:
        wave = log_waves.add_wave(act, "Test week", [NewStep("Test", 0, sets)])
        log_waves.start_wave(act, ana.id, wave, this_day())
    return ana


def offers_nothing(line):
    assert (line["load"], line["load_words"], line["made"], line["discs"], line["near"]) == (None, "", "", [], [])
    assert (line["chance"], line["part"], line["last"]) == ("", "", [])
    assert "kg" not in line["asked"]
    return True


def test_a_lift_that_was_marked_as_painful_has_no_load_on_a_phone_in_no_session(log, ana, planned, squat):
    assert [line["withheld"] for line in lines_of(log, ana)] == [[]] * 4
    sore.mark_painful(log, ana.id, squat.id)
    for at in (0, 1):
        lines = lines_of(log, ana, at)
        assert [line["withheld"] for line in lines] == [[sore.PAINFUL]] * 2 + [[]] * 2
        assert all(offers_nothing(line) for line in lines[:2])
        assert sore.PAINFUL not in lines[0]["notes"]  # said once
        assert lines[2]["load"] == "40"
    assert the_plan(log, ana)["sessions"][0]["ramp"] == []
    sore.mark_painful(log, ana.id, squat.id, painful=False)
    assert [line["load"] for line in lines_of(log, ana)] == ["70", "70", "40", "40"]


def test_a_lift_that_loads_a_sore_place_has_none_until_the_member_has_chosen_a_way_of_it(log, ana, planned, squat):
    assert the_plan(log, ana)["sessions"][0]["ramp"]
    sore.begin(log, ana.id, "knee", this_day())
    for at in (0, 1):
        lines = lines_of(log, ana, at)
        assert [line["withheld"] for line in lines] == [["Back squat loads the knee."]] * 2 + [[]] * 2
        assert all(offers_nothing(line) for line in lines[:2])
    assert the_plan(log, ana)["sessions"][0]["ramp"] == []
    sore_choice.choose(log, ana.id, squat.id, "keep")
    kept = lines_of(log, ana)[0]
    assert (kept["withheld"], kept["load"]) == ([], "70")
    assert "Back squat loads the knee." in kept["notes"]  # it is said beside the load all the same
    sore.mark_painful(log, ana.id, squat.id)
    assert lines_of(log, ana)[0]["withheld"] == [sore.PAINFUL]  # whatever was chosen before


def test_what_is_left_out_on_today_is_not_asked_for_on_a_phone(log, ana, planned, squat):
    sore.begin(log, ana.id, "knee", this_day())
    sore_choice.choose(log, ana.id, squat.id, "leave")
    assert [line["title"] for line in lines_of(log, ana) if not line["left"]] == ["strict press, barbell"] * 2


def test_a_set_beside_the_plan_starts_from_no_load_where_it_hurts(log, ana, planned, squat):
    free = lift_of(log, ana, squat)
    assert (free["load"], free["note"]) == ("80", "")
    sore.begin(log, ana.id, "knee", this_day())
    free = lift_of(log, ana, squat)
    assert (free["load"], free["near"], free["last"], free["note"]) == ("", [], "", "Back squat loads the knee.")
    sore.mark_painful(log, ana.id, squat.id)
    assert lift_of(log, ana, squat)["note"] == sore.FREE_PAINFUL


def test_sore_parts_are_named_before_the_piece_and_when_to_stop(log, ana, planned):
    tasks = (Task("wall ball", Steady(10)), Task("strict pull-up", Steady(5)))
    row = conditioning.add_piece(log, Piece("Tide", "as many as possible", tasks, cap_s=600))
    put_into_step(log, planned.step_id, row.id)
    assert the_plan(log, ana)["sessions"][0]["pieces"][0]["sore"] == []
    assert the_plan(log, ana)["signs"] == []
    sore.begin(log, ana.id, "knee", this_day())
    said = the_plan(log, ana)["sessions"][0]["pieces"][0]["sore"]
    assert said == list(sore.in_piece(["wall ball", "strict pull-up"], sore.state(log, ana.id)))
    assert said[0].startswith("Wall ball loads the knee: leave it out")
    assert the_plan(log, ana)["signs"] == [*STOP, *CLINICIAN, NO_DIAGNOSIS]


def test_no_attempt_is_offered_before_safety_arms_or_a_spotter_are_answered(log, testing):
    first, *rest = lines_of(log, testing)
    assert first["withheld"] == [attempts.ASK_SAFETY]
    assert offers_nothing(first)
    assert [line["withheld"] for line in rest] == [[], []]
    step = today.steps(log, testing.id)[0].id
    answers: tuple[tuple[attempts.Safety, bool], ...] = (("neither", True), ("arms", False))
    for answer, withheld in answers:
        attempts.say_safety(log, testing.id, step, first["planned"], answer, this_day())
        line = lines_of(log, testing)[0]
        words = attempts.SAFETY_SAID[answer]
        assert line["withheld"] == ([words] if withheld else [])
        assert withheld or words in line["notes"]


def test_the_attempts_to_come_are_in_the_plan_by_what_was_tried(log, testing, squat):
    first, *_ = lines_of(log, testing)
    assert first["ahead"] == {}  # nothing before safety is answered
    attempts.say_safety(log, testing.id, today.steps(log, testing.id)[0].id, first["planned"], "arms", this_day())
    first, *others = lines_of(log, testing)
    assert all(line["ahead"] == {} for line in others)
    start = first["ahead"]["|"]
    assert (start["load_words"], start["asked"], start["proposal"]) == (
        f"{start['load']} kg",
        f"1 × {start['load']} kg",
        "",
    )
    assert start["chance"].endswith("likely to make 1 rep")
    made, missed = first["ahead"][f"{start['load']}|"], first["ahead"][f"|{start['load']}"]
    assert float(made["load"]) > float(start["load"]) >= float(missed["load"])
    assert missed["proposal"] == "After a miss nothing heavier is proposed."


def test_after_missed_attempts_the_phone_says_what_today_says(log, testing, squat):
    step, planned = today.steps(log, testing.id)[0].id, lines_of(log, testing)[0]["planned"]
    attempts.say_safety(log, testing.id, step, planned, "arms", this_day())
    said = ("After a miss nothing heavier is proposed.", "Two attempts missed: a good place to end (common practice).")
    for number, words in enumerate(said, 2):
        new = NewSet(squat.id, kg("110"), 0, kind="test", outcome="missed", planned_set_id=planned, planned_round=number, member_step_id=step)  # fmt: skip
        log_set.log_set(log, testing.id, this_day(), new, sure=True)
        assert words in lines_of(log, testing)[0]["notes"]


def test_an_attempt_of_a_lift_that_is_not_under_a_bar_is_not_asked_about(log, ana):
    deadlift = people.add_lift(log, "deadlift", "barbell")
    with log.act("a wave") as act:
        steps = [NewStep("Test", 0, [NewPlannedSet(deadlift.id, 1, 1, test=True)])]
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Test week", steps), this_day())
    assert lines_of(log, ana)[0]["withheld"] == []
