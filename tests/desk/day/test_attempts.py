"""A test of a max: as many attempts as the member takes, each in the log as what it was, ended by nobody else."""

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
from tracker.desk.day import attempts, log_set, today
from tracker.desk.maxes import rep_maxes, trend
from tracker.desk.maxes.estimates import history
from tracker.desk.maxes.references import references
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.prescription.attempts import SURE
from tracker.units import plain


@pytest.fixture
def testing(log, ana, squat):
    """Ana has a test of her 1RM today, and then a piece."""
    log_set.log_set(log, ana.id, this_day() - timedelta(days=3), NewSet(squat.id, kg("90"), 3, Decimal(2)))
    with log.act("a wave") as act:
        wave = log_waves.add_wave(act, "Test week", [NewStep("Test", 0, [NewPlannedSet(squat.id, 1, 1, test=True)])])
        log_waves.start_wave(act, ana.id, wave, this_day())
    row = conditioning.add_piece(log, LADDER)
    put_into_step(log, today.steps(log, ana.id)[0].step_id, row.id)
    return ana


def plan(log, member):
    return today.day_plan(log, member.id, this_day())


def attempt(log, member, load, *, made=True):
    day = plan(log, member)
    new = attempts.as_attempt(day.next_line, day.member, day.place, kg("60"))
    assert new.planned_round > 1
    outcome = {"reps": 1, "outcome": "done"} if made else {"reps": 0, "outcome": "missed"}
    return log_set.log_set(log, member.id, this_day(), replace(new, load=kg(load), **outcome), sure=True)


def said(log, member):
    return [(str(row.load.amount), row.reps, row.outcome, row.kind) for row in plan(log, member).sets]


def test_four_attempts_to_the_end_and_on_to_the_piece(log, testing, squat):
    for load, made in (("100", True), ("105", True), ("110", False), ("107.5", False)):
        attempt(log, testing, load, made=made)
        assert plan(log, testing).next_line is not None  # nobody but the member ends it
    assert said(log, testing) == [
        ("100", 1, "done", "work"), ("105", 1, "done", "test"), ("110", 0, "missed", "test"), ("107.5", 0, "missed", "test"),
    ]  # fmt: skip
    line = plan(log, testing).next_line
    assert [str(row.load.amount) for row in line.attempts] == ["100", "105", "110", "107.5"]
    attempts.end_test(log, testing.id, line.step_id, line.planned.id, this_day())
    day = plan(log, testing)
    assert (day.next_line, day.step.state, [row.piece.title for row in day.open_pieces]) == (
        None,
        "done",
        ["Lantern ladder"],
    )
    (tested,) = (
        each for each in references(history(log, testing.id, squat), 1, this_day(), "kg") if each.source == "tested"
    )
    assert tested.load == kg("105")
    undo_newest(log, testing.id)
    assert plan(log, testing).next_line is not None


def test_what_counts_as_the_test_follows_what_is_removed_and_mended(log, testing):
    for load in ("100", "105", "107.5"):
        attempt(log, testing, load)
    rows = plan(log, testing).sets
    log_set.remove_set(log, rows[2].id, today=this_day())
    assert said(log, testing) == [("100", 1, "done", "work"), ("105", 1, "done", "test")]
    log_set.mend_set(log, rows[1].id, replace(log_set.as_new(plan(log, testing).sets[1]), reps=0, outcome="missed"))
    assert said(log, testing) == [("100", 1, "done", "test"), ("105", 0, "missed", "test")]


def test_no_heavier_load_is_proposed_after_a_miss(log, testing):
    def proposed():
        day = plan(log, testing)
        return str(attempts.as_attempt(day.next_line, day.member, day.place, kg("60")).load.amount)

    assert proposed() == "60"  # what was lifted last, or the bar
    attempt(log, testing, "100")
    assert proposed() == "102.5"  # the next load of at least 2 % more, of the common kit: 102.5
    attempt(log, testing, "102.5", made=False)
    assert proposed() == "102.5"
    attempt(log, testing, "100")
    assert proposed() == "100"


def test_the_end_is_offered_after_two_misses_and_not_before_there_was_an_attempt(log, testing):
    line = plan(log, testing).next_line
    with pytest.raises(BadInputError, match="Nothing was tried"):
        attempts.end_test(log, testing.id, line.step_id, line.planned.id, this_day())
    for made, offered in ((True, False), (False, False), (False, True)):
        attempt(log, testing, "100", made=made)
        assert attempts.end_is_due(plan(log, testing).next_line) == offered


def test_a_test_that_was_all_misses_ends_without_a_max(log, testing, squat):
    for load in ("100", "97.5"):
        attempt(log, testing, load, made=False)
    line = plan(log, testing).next_line
    attempts.end_test(log, testing.id, line.step_id, line.planned.id, this_day())
    assert plan(log, testing).next_line is None
    assert "tested" not in {each.source for each in references(history(log, testing.id, squat), 1, this_day(), "kg")}


def test_one_set_that_is_logged_as_the_whole_test_still_is_it(log, testing):
    day = plan(log, testing)
    line = day.next_line
    new = NewSet(
        line.lift.id,
        kg("100"),
        1,
        kind="test",
        planned_set_id=line.planned.id,
        planned_round=1,
        member_step_id=line.step_id,
    )
    log_set.log_set(log, testing.id, this_day(), new)
    assert plan(log, testing).next_line is None
    assert said(log, testing) == [("100", 1, "done", "test")]


def at(log, member):
    day = plan(log, member)
    return attempts.next_attempt(log, member, day, day.next_line)


def test_safety_is_asked_about_first_and_the_answer_is_kept_and_undone(log, testing):
    day = plan(log, testing)
    line = day.next_line
    assert at(log, testing).ask_safety
    attempts.say_safety(log, testing.id, line.step_id, line.planned.id, "arms", this_day())
    first = at(log, testing)
    assert (first.ask_safety, first.safety) == (False, "arms")
    assert first.chance >= SURE  # by the rule of the first attempt
    assert first.made.words.endswith("a side")
    attempts.say_safety(log, testing.id, line.step_id, line.planned.id, "neither", this_day())
    alone = at(log, testing)
    assert (alone.made, alone.chance, alone.safety) == (None, None, "neither")
    assert "no attempt is proposed" in " ".join(alone.words)
    undo_newest(log, testing.id)
    undo_newest(log, testing.id)
    assert at(log, testing).ask_safety
    with pytest.raises(BadInputError, match="no answer"):
        attempts.say_safety(log, testing.id, line.step_id, line.planned.id, "maybe", this_day())


def test_a_lift_that_is_let_go_or_needs_no_spotter_is_not_asked_about(log, ana):
    pull = people.add_lift(log, "deadlift", "barbell")
    log_set.log_set(log, ana.id, this_day() - timedelta(days=3), NewSet(pull.id, kg("120"), 3, Decimal(2)))
    with log.act("a wave") as act:
        step = NewStep("Test", 0, [NewPlannedSet(pull.id, 1, 3, test=True, words="within 20:00", rest_s=240)])
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Pulls", [step]), this_day())
    first = at(log, ana)
    assert (first.ask_safety, first.number, first.rest_s) == (False, 1, 240)
    assert (first.clock_s, first.started) == (20 * 60, None)
    line = plan(log, ana).next_line
    attempts.start_clock(log, ana.id, line.step_id, line.planned.id, this_day())
    assert at(log, ana).started is not None
    undo_newest(log, ana.id)
    assert at(log, ana).started is None


def test_attempts_are_proposed_from_the_chance_and_end_with_two_misses(log, testing):
    line = plan(log, testing).next_line
    attempts.say_safety(log, testing.id, line.step_id, line.planned.id, "spotter", this_day())
    loads = []
    for made in (True, True, False, False):
        now = at(log, testing)
        assert not now.end_is_due
        if loads and made:
            assert now.made.load.kg >= loads[-1] * Decimal("1.02")
        if not made and len(loads) == 3:
            assert now.made.load.kg <= loads[-1]  # after a miss nothing heavier
        loads.append(now.made.load.kg)
        attempt(log, testing, str(now.made.load.amount), made=made)
    last = at(log, testing)
    assert last.end_is_due
    assert last.made is None or last.made.load.kg <= min(loads[2:])
    line = plan(log, testing).next_line
    assert attempts.result_words(line) == (
        f"Tested 1RM: {plain(loads[1])} kg. Missed: {plain(loads[2])} kg, {plain(loads[3])} kg."
    )


def ahead_of(log, member):
    day = plan(log, member)
    return attempts.attempts_ahead(log, member, day, day.next_line)


@pytest.mark.parametrize("went", ["xxx", "mmx", "mxm", "xmx"])
def test_what_is_proposed_beforehand_is_what_is_proposed_once_it_was_tried(log, testing, went):
    line = plan(log, testing).next_line
    attempts.say_safety(log, testing.id, line.step_id, line.planned.id, "arms", this_day())
    ahead, best, low = ahead_of(log, testing), None, None
    for made in (each == "m" for each in went):
        now = at(log, testing)
        assert (ahead[best, low].made, ahead[best, low].chance) == (now.made, now.chance)
        load = now.new.load
        attempt(log, testing, str(load.amount), made=made)
        best = max(best or load, load, key=lambda each: each.kg) if made else best
        low = load if not made or low else None


def test_nothing_is_proposed_beforehand_of_a_load_that_nobody_would_have_tried(log, testing):
    line = plan(log, testing).next_line
    attempts.say_safety(log, testing.id, line.step_id, line.planned.id, "neither", this_day())
    assert {each.made for each in ahead_of(log, testing).values()} == {None}
    assert (kg("300"), None) not in ahead_of(log, testing)


def test_without_an_estimate_what_the_kind_begins_with_is_no_proposal(log, ana):
    lift = people.add_lift(log, "hip thrust", "barbell")
    with log.act("a wave") as act:
        step = NewStep("Test", 0, [NewPlannedSet(lift.id, 1, 5, test=True)])
        log_waves.start_wave(act, ana.id, log_waves.add_wave(act, "Hips", [step]), this_day())
    first = at(log, ana)
    assert (first.made, first.guessed) == (None, True)


def test_the_trend_has_the_tested_max_and_what_was_missed_and_says_where_the_estimate_differs(log, testing, squat):
    for load, made in (("100", True), ("105", True), ("110", False), ("107.5", False)):
        attempt(log, testing, load, made=made)
    view = trend.trend(log, testing, squat, reps=1, day=this_day())
    assert [(each.load, each.source) for each in view.facts if each.reps == 1] == [(105.0, "tested")]
    assert [each.load for each in view.missed] == [110.0, 107.5]
    assert view.now.low80 <= 105 <= view.now.high80
    assert view.contradicts == ""
    for ago in (2, 1):
        row = NewSet(squat.id, kg("135"), 3, Decimal(1))
        log_set.log_set(log, testing.id, this_day() + timedelta(days=0) - timedelta(days=ago), row, sure=True)
    later = trend.trend(log, testing, squat, reps=1, day=this_day())
    assert bool(later.contradicts) == (not later.now.low80 <= 105 <= later.now.high80)


def test_a_test_outside_the_band_is_said_and_not_hidden(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=60), 1, kg("100"), tested=True)
    for ago in (40, 33, 26, 19, 12, 5):
        log_set.log_set(
            log, ana.id, this_day() - timedelta(days=ago), NewSet(squat.id, kg("105"), 5, Decimal(1)), sure=True
        )
    view = trend.trend(log, ana, squat, reps=1, day=this_day())
    assert view.now.low80 > 100
    assert view.contradicts.startswith("The tested 1RM lies below what the estimate is 80 % sure of.")


def test_a_missed_attempt_with_a_repetition_made_is_no_tested_max_of_so_many(log):
    """Two at 76 made, then twice one of two at 80: the 1RM of 90 from before stays what is tested for one."""
    member = people.add_member(log, "Volker")
    clean = people.add_lift(log, "clean", "barbell")
    rep_maxes.add_rep_max(log, member.id, clean.id, this_day() - timedelta(days=60), 1, kg(90), tested=True)
    rep_maxes.add_rep_max(log, member.id, clean.id, this_day() - timedelta(days=60), 2, kg(80), tested=True)
    with log.act("a test", member.id) as act:
        wave = log_waves.add_wave(act, "Test", [NewStep("Test", 0, [NewPlannedSet(clean.id, 1, 2, test=True)])])
        log_waves.start_wave(act, member.id, wave, this_day())
    for load, reps, outcome in ((76, 2, "done"), (80, 1, "missed"), (80, 1, "missed")):
        line = today.day_plan(log, member.id, this_day()).lines[0]
        new = attempts.as_attempt(line, member, None, kg(load))
        log_set.log_set(
            log, member.id, this_day(), replace(new, load=kg(load), reps=reps, outcome=outcome, kind="test"), sure=True
        )
    known = history(log, member.id, clean)
    one, two = (references(known, reps, this_day(), "kg")[0] for reps in (1, 2))
    assert (one.source, str(one.load), one.day) == ("tested", "90 kg", this_day() - timedelta(days=60))
    assert (two.source, str(two.load), two.day) == ("tested", "76 kg", this_day())
