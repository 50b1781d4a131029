"""After a miss: less, the same again, or enough; never a heavier load that day; and pain ends the lift."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.ladders import LADDER
from tests.loads import kg
from tests.undoing import undo_newest
from tests.with_pieces import put_into_step
from tracker.desk.day import after_miss, log_set, today
from tracker.desk.day.lines import chance_words
from tracker.desk.day.next import over_words
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people, places
from tracker.desk.pieces import conditioning
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.records import KitItemRecord
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep

PERCENTS = (75, 80, 85)


@pytest.fixture
def squatting(log, ana, squat):
    """Ana squats five at 75, 80 and 85 % of a tested 5RM of 100 kg, then presses, then has a piece."""
    press = people.add_lift(log, "press", "barbell")
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=10), 5, kg(100), tested=True)
    rep_maxes.add_rep_max(log, ana.id, press.id, this_day() - timedelta(days=10), 5, kg(50), tested=True)
    with log.act("a wave") as act:
        sets = [NewPlannedSet(squat.id, 1, 5, Decimal(each), 5) for each in PERCENTS]
        sets.append(NewPlannedSet(press.id, 1, 5, Decimal(70), 5, block=1))
        wave = log_waves.add_wave(act, "Heavy week", [NewStep("Heavy", 0, sets)])
        log_waves.start_wave(act, ana.id, wave, this_day())
    return ana


def plan(log, member):
    return today.day_plan(log, member.id, this_day())


def do_next(log, member, *, made=None):
    """Log the next set as it is offered; with `made` repetitions it was missed."""
    line = plan(log, member).next_line
    new = NewSet(
        line.lift.id, line.made.load, line.reps, planned_set_id=line.planned.id, planned_round=line.number,
        member_step_id=line.step_id,
    )  # fmt: skip
    if made is not None:
        new = replace(new, reps=made, outcome="missed")
    return log_set.log_set(log, member.id, this_day(), new)


def now(log, member):
    return after_miss.what_now(log, member, plan(log, member))


def loads(log, member):
    return [str(line.made.load) for line in plan(log, member).lines if line.done is None and line.made]


def test_after_a_miss_nothing_heavier_is_offered_and_the_three_ways_stand_with_their_reasons(log, squatting):
    assert now(log, squatting) is None
    do_next(log, squatting)
    assert now(log, squatting) is None
    do_next(log, squatting, made=3)  # 80 kg
    assert loads(log, squatting) == ["80 kg", "35 kg"]  # 85 was planned; the press has nothing to do with it
    line = plan(log, squatting).next_line
    assert "85 kg was asked; after today's miss nothing heavier than 80 kg." in line.notes
    less, same, stop = now(log, squatting).ways
    assert (less.how, same.how, stop.how) == ("less", "same", "stop")
    assert less.made.load.kg < 80
    assert less.made.words.endswith("a side")
    assert less.chance > same.chance
    assert less.reason.startswith(f"By all your sets {chance_words(less.chance)}")
    assert same.label == "The same again: 5 × 80 kg"
    assert "1 set of it left: not asked any more" in stop.reason


def test_the_estimate_offers_nothing_heavier_either(log, squatting, squat):
    do_next(log, squatting)
    do_next(log, squatting, made=3)
    day = plan(log, squatting)
    line = day.next_line
    for source in ("tested", "estimated"):
        made = today.made_by(log, squatting.id, this_day(), line.key, source, prefer={})
        assert made.load.kg <= 80
    assert after_miss.most_today(log, squatting.id, squat.id, this_day()) == kg(80)
    assert after_miss.most_today(log, squatting.id, squat.id, this_day() + timedelta(days=1)) is None


def test_a_heavier_load_that_somebody_types_is_logged_and_said(log, squatting):
    do_next(log, squatting, made=2)
    most = plan(log, squatting).next_line.most
    assert after_miss.heavier_words(kg("77.5"), most).startswith("That is heavier than 75 kg")
    assert after_miss.heavier_words(kg(75), most) == ""
    assert after_miss.heavier_words(kg(300), None) == ""


def test_less_is_kept_for_the_rest_of_the_day_and_undone(log, squatting):
    do_next(log, squatting, made=3)  # 75 kg
    asked = now(log, squatting)
    less = asked.ways[0]
    after_miss.take(log, squatting.id, asked.missed.id, "less", less.made.load)
    assert now(log, squatting) is None
    assert loads(log, squatting)[:2] == [str(less.made.load)] * 2
    undo_newest(log, squatting.id)
    assert loads(log, squatting)[:2] == ["75 kg", "75 kg"]
    assert now(log, squatting) is not None


def test_the_same_again_needs_no_more_than_the_answer(log, squatting):
    do_next(log, squatting, made=3)
    after_miss.take(log, squatting.id, now(log, squatting).missed.id, "same")
    assert now(log, squatting) is None
    assert loads(log, squatting)[:2] == ["75 kg", "75 kg"]
    do_next(log, squatting, made=2)  # missed once more: asked once more
    assert now(log, squatting).missed.reps == 2


def test_enough_of_a_lift_leaves_the_rest_of_the_session(log, squatting):
    put_into_step(log, today.steps(log, squatting.id)[0].step_id, conditioning.add_piece(log, LADDER).id)
    do_next(log, squatting, made=3)
    after_miss.take(log, squatting.id, now(log, squatting).missed.id, "stop")
    day = plan(log, squatting)
    assert day.next_line.lift.name == "press"
    assert [each.words for each in after_miss.stopped(day)] == [
        "Back squat is ended for today. Left out: 2 sets of it."
    ]
    do_next(log, squatting)
    day = plan(log, squatting)
    assert (day.next_line, day.step.state, day.closed) == (None, "done", False)
    assert [row.piece.title for row in day.open_pieces] == ["Lantern ladder"]  # the piece is still asked for
    after_miss.take(log, squatting.id, after_miss.stopped(day)[0].set_id, "go on")
    assert plan(log, squatting).next_line.lift.name == "back squat"
    assert after_miss.stopped(plan(log, squatting)) == ()


def test_ending_the_last_lift_ends_the_session_and_undo_opens_it(log, squatting):
    for _ in PERCENTS:
        do_next(log, squatting)
    do_next(log, squatting, made=1)
    after_miss.take(log, squatting.id, now(log, squatting).missed.id, "stop")
    assert plan(log, squatting).step.state == "done"


def test_ending_a_lift_with_nothing_else_left_is_done_and_undone(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=10), 5, kg(100), tested=True)
    with log.act("a wave") as act:
        step = NewStep("One lift", 0, [NewPlannedSet(squat.id, 3, 5, Decimal(80), 5)])
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Short", [step]), this_day())
    do_next(log, ana, made=4)
    after_miss.take(log, ana.id, now(log, ana).missed.id, "stop")
    day = plan(log, ana)
    assert (day.step.state, day.closed, day.next_line, day.whole) == ("done", False, None, True)
    undo_newest(log, ana.id)
    assert (plan(log, ana).step.state, plan(log, ana).next_line.number) == ("planned", 2)


def test_with_pain_the_lift_ends_a_clinician_is_named_and_no_load_is_offered(log, squatting, squat):
    do_next(log, squatting, made=3)
    after_miss.take(log, squatting.id, now(log, squatting).missed.id, "hurt")
    day = plan(log, squatting)
    assert all(line.lift.name == "press" for line in day.lines if line.open)
    (ended,) = after_miss.stopped(day)
    assert ended.hurt
    assert "clinician" in ended.words
    assert not any("hurt" in each.words or "pain" in each.words for each in journal.acts(log, squatting.id, limit=9))


def test_with_pain_no_rest_is_counted_down_and_with_enough_of_a_lift_it_is(log, squatting):
    do_next(log, squatting, made=3)
    missed = now(log, squatting).missed
    after_miss.take(log, squatting.id, missed.id, "hurt")
    assert plan(log, squatting).rest is None
    after_miss.take(log, squatting.id, missed.id, "go on")
    assert plan(log, squatting).rest is not None
    after_miss.take(log, squatting.id, missed.id, "stop")
    assert plan(log, squatting).rest is not None
    assert not after_miss.stopped(plan(log, squatting))[0].hurt


def test_a_late_miss_is_often_a_tired_set_and_an_early_one_is_not(log, squatting):
    do_next(log, squatting)
    do_next(log, squatting)
    do_next(log, squatting, made=4)
    assert now(log, squatting).words[0] == "It was the 3rd hard set of the day: so late it is often a tired set."
    assert now(log, squatting).words[1] == "One miss says little of your max; today may still be a lower day."
    rows = plan(log, squatting).sets
    for row in rows[:2]:
        log_set.remove_set(log, row.id, today=this_day())
    assert "slip" in now(log, squatting).words[0]


def test_two_days_with_a_miss_count_in_full(log, squatting, squat):
    missed = NewSet(squat.id, kg(80), 3, outcome="missed")
    log_set.log_set(log, squatting.id, this_day() - timedelta(days=40), missed)
    do_next(log, squatting, made=3)
    assert "little" in now(log, squatting).words[1]
    log_set.log_set(log, squatting.id, this_day() - timedelta(days=20), missed)
    assert "two count in full" in now(log, squatting).words[1]


def test_a_miss_without_a_sheet_has_its_ways_too(log, ana, squat):
    log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg(80), 2, outcome="missed"))
    less, same, stop = now(log, ana).ways
    assert (less.label, same.label) == ("Less: 3 × 77.5 kg", "The same again: 3 × 80 kg")
    assert "left" not in stop.reason
    log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg("77.5"), 3))
    assert now(log, ana) is None  # it went on: nothing is asked any more


def test_a_planned_lighter_set_stays_lighter(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=10), 5, kg(100), tested=True)
    with log.act("a wave") as act:
        sets = [NewPlannedSet(squat.id, 1, 5, Decimal(each), 5) for each in (90, 60)]
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Back off", [NewStep("Day", 0, sets)]), this_day())
    do_next(log, ana, made=3)
    less, as_planned, _ = now(log, ana).ways
    assert as_planned.label == "As planned: 5 × 60 kg"
    assert less.made.load.kg < 60


def test_a_home_with_two_pairs_of_dumbbells_goes_down_to_the_lighter_one(log, ana):
    press = people.add_lift(log, "press", "dumbbells")
    pairs = [KitItemRecord("", "dumbbell", mass, kg(mass), 2) for mass in ("10", "15")]
    member = people.go_to_place(log, ana.id, places.add_place(log, "Home", "kg", pairs).id)
    for load, ways in (("15", ["less", "same", "stop"]), ("10", ["same", "stop"])):
        log_set.log_set(log, member.id, this_day(), NewSet(press.id, kg(load), 5, outcome="missed"))
        asked = after_miss.what_now(log, member, today.day_plan(log, member.id, this_day()))
        assert [way.how for way in asked.ways] == ways
    assert asked.ways[0].label == "The same again: 6 × 10 kg each"


def test_what_is_no_answer_is_refused(log, squatting):
    row = do_next(log, squatting, made=3)
    with pytest.raises(BadInputError, match="how much less"):
        after_miss.take(log, squatting.id, row.id, "less")
    log_set.remove_set(log, row.id, today=this_day())
    with pytest.raises(BadInputError, match="not in the log"):
        after_miss.take(log, squatting.id, row.id, "same")
    assert loads(log, squatting)[0] == "75 kg"


def test_what_an_ended_lift_and_an_ended_session_leave_out_is_named(log, squatting, squat):
    do_next(log, squatting)
    step = plan(log, squatting).step
    after_miss.enough(log, squatting.id, step.id, squat.id, this_day())
    assert after_miss.stopped(plan(log, squatting))[0].words == "Back squat is ended for today. Left out: 2 sets of it."
    do_next(log, squatting)
    assert over_words(plan(log, squatting)) == "All of Heavy is done, but for 2 sets of back squat."


def test_a_session_that_is_ended_names_its_sets_and_its_piece(log, squatting):
    put_into_step(log, plan(log, squatting).step.step_id, conditioning.add_piece(log, LADDER).id)
    do_next(log, squatting)
    today.finish(log, squatting.id, plan(log, squatting).step, this_day())
    words = over_words(plan(log, squatting))
    assert words == (
        f"Heavy is ended with what was done; left out: 2 sets of back squat, 1 set of press, {LADDER.title}."
    )
