"""A member's day: loads that the place makes, reasons beside them, cautions, other repetitions, and a step's own calendar."""

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.readings import begun
from tests.undoing import undo_newest
from tracker.desk.base.cached import page_snapshot
from tracker.desk.day import log_set, today
from tracker.desk.day.next import whats_next
from tracker.desk.history import journal
from tracker.desk.maxes import estimates, rep_maxes
from tracker.desk.maxes.words import day_words
from tracker.desk.people import people, places
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.records import KitItemRecord
from tracker.log.sets import NewSet
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.units import Mass


def lb(amount):
    return Mass(Decimal(amount), "lb")


def plan_wave(log, member, *planned, start=None, steps=1):
    with log.act("wave") as act:
        wave = log_waves.add_wave(
            act, f"Tide of {member.name}", [NewStep(f"day {n + 1}", n * 2, planned) for n in range(steps)]
        )
        log_waves.start_wave(act, member.id, wave, start or this_day())


def plan(log, member, day=None, **options):
    return today.day_plan(log, member.id, day or this_day(), **options)


def test_a_tested_max_of_the_same_repetitions_is_what_the_percentage_refers_to(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=35), 3, kg("92.5"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 2, 4, Decimal(72), 3))
    line = plan(log, ana).lines[0]
    # By hand: 92.5 x 0.72 = 66.6 kg; a 20 kg bar with 20 + 2.5 + 1.25 kg a side is 67.5, with 20 + 2.5 it is 65.
    assert line.reference.words(this_day()) == "tested 3RM 92.5 kg, 5 weeks ago"
    assert (line.made.load, line.made.words) == (kg("67.5"), "20 + 2.5 + 1.25 kg a side")
    assert line.percent == pytest.approx(72.97, abs=0.01)


def test_training_alone_rounds_down(log, ana, squat):
    people.prefer(log, ana.id, name="Ana", unit="kg", place_id=None, no_heavy=False, minor=False, alone=True)
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=35), 3, kg("92.5"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 4, Decimal(72), 3))
    assert plan(log, ana).lines[0].made.load == kg("65")


def test_an_old_declared_max_stands_behind_the_estimate_and_can_still_be_chosen(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=200), 3, kg("80"), tested=False)
    for ago in (9, 6, 3):
        log_set.log_set(log, ana.id, this_day() - timedelta(days=ago), NewSet(squat.id, kg("90"), 5, Decimal(2)))
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 4, Decimal(72), 3))
    assert [option.source for option in plan(log, ana).lines[0].options] == ["estimated", "declared"]
    assert plan(log, ana, prefer={squat.id: "declared"}).lines[0].reference.source == "declared"


def test_without_any_max_there_is_a_word_and_no_guess(log, ana, squat):
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 4, Decimal(72), 3))
    line = plan(log, ana).lines[0]
    assert line.made is None
    (note,) = line.notes
    assert note.startswith("No 3RM of back squat, barbell is known yet. Ask your coach, or start by feel")


def test_the_own_switch_holds_back_heavy_loads_and_tests_without_asking_why(log, ana, squat):
    people.prefer(log, ana.id, name="Ana", unit="kg", place_id=None, no_heavy=True, minor=False, alone=False)
    log_set.log_set(log, ana.id, this_day() - timedelta(days=3), NewSet(squat.id, kg("100"), 1, kind="test"))
    plan_wave(
        log, ana, NewPlannedSet(squat.id, 1, 1, Decimal(95), 1), NewPlannedSet(squat.id, 1, 5, Decimal(60), 1),
        NewPlannedSet(squat.id, 1, 5, test=True),
    )  # fmt: skip
    heavy, light, test = plan(log, ana).lines
    assert heavy.made is None
    assert "nothing heavy" in heavy.held.text
    assert light.made.load == kg("60")
    assert test.held.key == "own switch"


def test_after_two_weeks_away_a_test_is_held_back_and_the_break_is_said(log, ana, squat):
    log_set.log_set(log, ana.id, this_day() - timedelta(days=20), NewSet(squat.id, kg("100"), 3, kind="test"))
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, test=True), NewPlannedSet(squat.id, 1, 3, Decimal(70), 3))
    day = plan(log, ana)
    assert (day.days_off, day.lay_off.no_test, day.lay_off.stale) == (19, True, False)
    assert day.lines[0].held.key == "lay-off"
    assert "return" in {caution.key for caution in day.lines[1].cautions}


def test_alone_without_pins_a_heavy_squat_carries_its_caution(log, ana, squat):
    home = places.add_place(log, "Shed", "kg", pins=False)
    people.prefer(log, ana.id, name="Ana", unit="kg", place_id=home.id, no_heavy=False, minor=False, alone=True)
    log_set.log_set(log, ana.id, this_day() - timedelta(days=3), NewSet(squat.id, kg("100"), 1, kind="test"))
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 1, Decimal(97), 1), NewPlannedSet(squat.id, 1, 5, Decimal(60), 1))
    heavy, light = plan(log, ana).lines
    assert "alone" in {caution.key for caution in heavy.cautions}
    assert "alone" not in {caution.key for caution in light.cautions}


def test_fixed_dumbbells_that_do_not_meet_the_load_change_the_repetitions(log, ana):
    press = people.add_lift(log, "press", "dumbbells")
    items = [KitItemRecord("", "dumbbell", m, kg(m), 2) for m in ("10", "15", "20")]
    kitchen = places.add_place(log, "Kitchen", "kg", items, pins=False)
    people.prefer(log, ana.id, name="Ana", unit="kg", place_id=kitchen.id, no_heavy=False, minor=False, alone=False)
    for ago in (9, 6, 3):
        log_set.log_set(
            log, ana.id, this_day() - timedelta(days=ago), NewSet(press.id, kg("15"), 8, Decimal(0), kind="test")
        )
    plan_wave(log, ana, NewPlannedSet(press.id, 1, 8, Decimal(80), 8))
    line = plan(log, ana).lines[0]
    # 80 % of an 8RM near 15 kg is near 12 kg: neither 10 nor 15 kg. Heavier with fewer, or lighter with more.
    assert line.made.load in (kg("10"), kg("15"))
    assert line.instead is not None
    assert (line.reps > 8) == (line.made.load == kg("10"))
    assert str(line.reps) in line.notes[0]


def test_a_place_without_a_bar_says_so(log, ana, squat):
    kitchen = places.add_place(log, "Kitchen", "kg", [KitItemRecord("", "dumbbell", "10", kg("10"), 2)])
    people.prefer(log, ana.id, name="Ana", unit="kg", place_id=kitchen.id, no_heavy=False, minor=False, alone=False)
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day(), 3, kg("90"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 4, Decimal(72), 3))
    line = plan(log, ana).lines[0]
    assert line.made is None
    assert "Ask your coach for another way" in line.notes[0]


def test_where_both_units_stand_about_a_bar_gets_discs_of_its_own_unit(log, ana, squat):
    items = [
        KitItemRecord("", "bar", "long", kg("20"), 1), KitItemRecord("", "bar", "pound", lb("45"), 1),
        *(KitItemRecord("", "disc", m, kg(m), 2) for m in ("20", "10", "5", "2.5")),
        *(KitItemRecord("", "disc", m, lb(m), 2) for m in ("45", "25", "10", "5", "2.5")),
    ]  # fmt: skip
    gym = places.add_place(log, "Gym", "kg", items)
    pat = people.add_member(log, "Pat", "lb")
    for member, load in ((ana, kg("100")), (pat, lb("225"))):
        people.prefer(
            log,
            member.id,
            name=member.name,
            unit=member.unit,
            place_id=gym.id,
            no_heavy=False,
            minor=False,
            alone=False,
        )
        rep_maxes.add_rep_max(log, member.id, squat.id, this_day(), 3, load, tested=True)
        plan_wave(log, member, NewPlannedSet(squat.id, 1, 3, Decimal(80), 3))
    for member in (ana, pat):
        made = plan(log, member).lines[0].made
        assert {disc.unit for disc in made.per_side} == {member.unit}
        assert made.load.unit == member.unit


def test_when_one_unit_has_too_few_discs_the_others_go_on_too(log, ana, squat):
    items = [
        KitItemRecord("", "bar", "long", kg("20"), 1), KitItemRecord("", "disc", "20", kg("20"), 1),
        KitItemRecord("", "disc", "45", lb("45"), 2),
    ]  # fmt: skip
    gym = places.add_place(log, "Gym", "kg", items)
    people.prefer(log, ana.id, name="Ana", unit="kg", place_id=gym.id, no_heavy=False, minor=False, alone=False)
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day(), 3, kg("100"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, Decimal(100), 3))
    made = plan(log, ana).lines[0].made
    # 20 + 2 x (20 kg + 45 lb) = 20 + 2 x 40.41 = 100.8 kg
    assert float(made.load.kg) == pytest.approx(100.82, abs=0.01)


def test_the_ramp_leads_up_to_the_first_set_and_is_gone_once_one_is_done(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day(), 3, kg("100"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 2, 3, Decimal(80), 3))
    day = plan(log, ana)
    loads = [step.load.kg for step in day.ramp]
    assert loads == sorted(loads)
    assert loads[0] == 20
    assert loads[-1] < 80
    log_line(log, ana, day.lines[0])
    assert plan(log, ana).ramp == ()


def test_the_ramp_of_a_deadlift_has_no_empty_bar_in_it(log, ana):
    deadlift = people.add_lift(log, "deadlift", "barbell")
    plan_wave(log, ana, NewPlannedSet(deadlift.id, 1, 3, load=kg("120")))
    assert [str(step.load) for step in plan(log, ana).ramp] == ["40 kg", "60 kg", "80 kg", "100 kg"]


def log_line(log, member, line, day=None):
    new = NewSet(
        line.lift.id, line.made.load, line.reps, planned_set_id=line.planned.id, planned_round=line.number,
        member_step_id=line.step_id,
    )  # fmt: skip
    return log_set.log_set(log, member.id, day or this_day(), new)


def test_a_step_is_done_when_its_last_set_is_and_undo_opens_it_again(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day(), 3, kg("100"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 2, 3, Decimal(80), 3), steps=2)
    for line in plan(log, ana).lines:
        log_line(log, ana, line)
    assert [step.state for step in today.steps(log, ana.id)] == ["done", "planned"]
    day = plan(log, ana)
    assert (day.next_line, day.step.title, day.ahead.title) == (None, "day 1", "day 2")
    undo_newest(log, ana.id)
    assert [step.state for step in today.steps(log, ana.id)] == ["planned", "planned"]
    assert plan(log, ana).next_line.number == 2


def test_postponing_moves_what_follows_and_skipping_goes_on_to_the_next(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day(), 3, kg("100"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, Decimal(80), 3), steps=3)
    first = plan(log, ana).step
    today.postpone(log, ana.id, first, 2, today=this_day(), with_later=True)
    assert [(step.due - this_day()).days for step in today.steps(log, ana.id)] == [2, 4, 6]
    assert plan(log, ana).step is None
    assert plan(log, ana).ahead.title == "day 1"
    undo_newest(log, ana.id)
    today.skip(log, ana.id, first)
    assert plan(log, ana, this_day() + timedelta(days=2)).step.title == "day 2"


def test_one_session_is_moved_and_no_other(log, ana, squat):
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, load=kg("80")), steps=3)
    today.postpone(log, ana.id, plan(log, ana).step, 2, today=this_day())
    assert [(step.title, (step.due - this_day()).days) for step in today.steps(log, ana.id)] == [
        ("day 1", 2), ("day 2", 2), ("day 3", 4),
    ]  # fmt: skip
    friday = this_day() + timedelta(days=2)
    found = whats_next(log, ana.id, friday)
    assert {found.session.words, found.planned.words} == {
        "Day 1, today, moved from " + day_words(this_day(), friday),
        "Day 2, today",
    }


def states(log, member):
    return [step.state for step in today.steps(log, member.id)]


def test_a_set_that_goes_from_an_older_session_leaves_its_step_closed(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=30), 3, kg("100"), tested=True)
    week_ago = this_day() - timedelta(days=7)
    plan_wave(
        log, ana, NewPlannedSet(squat.id, 2, 3, Decimal(80), 3), start=week_ago, steps=5
    )  # the last one is tomorrow
    for line in plan(log, ana, week_ago).lines:
        log_line(log, ana, line, week_ago)
    for step in today.steps(log, ana.id)[1:4]:
        today.skip(log, ana.id, step)
    closed = ["done", "skipped", "skipped", "skipped", "planned"]
    assert states(log, ana) == closed
    first, second = plan(log, ana, week_ago).sets
    log_set.remove_set(log, first.id, today=this_day())
    assert (states(log, ana), plan(log, ana).step) == (closed, None)
    log_set.move_set(log, second.id, ana.id, this_day() - timedelta(days=8), today=this_day())
    assert (states(log, ana), plan(log, ana).step) == (closed, None)


def test_a_whole_older_session_that_is_moved_leaves_its_step_closed(log, ana, squat):
    week_ago = this_day() - timedelta(days=7)
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, load=kg("80")), start=week_ago)
    (line,) = plan(log, ana, week_ago).lines
    row = log_line(log, ana, line, week_ago)
    journal.move_session(log, row.session_id, ana.id, this_day() - timedelta(days=8), today=this_day())
    assert (states(log, ana), plan(log, ana).step) == (["done"], None)


def test_a_set_of_the_day_that_goes_opens_its_step_again_but_not_one_closed_by_hand(log, ana, squat):
    plan_wave(log, ana, NewPlannedSet(squat.id, 2, 3, load=kg("80")))
    rows = [log_line(log, ana, line) for line in plan(log, ana).lines]
    log_set.remove_set(log, rows[1].id, today=this_day())
    assert states(log, ana) == ["planned"]
    today.finish(log, ana.id, today.steps(log, ana.id)[0], this_day())
    log_set.remove_set(log, rows[0].id, today=this_day())
    assert states(log, ana) == ["done"]


def test_a_moved_session_of_the_day_opens_its_step_again(log, ana, squat):
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, load=kg("80")), steps=2)
    row = log_line(log, ana, plan(log, ana).lines[0])
    journal.move_session(log, row.session_id, ana.id, this_day() - timedelta(days=1), today=this_day())
    assert states(log, ana) == ["planned", "planned"]


def test_a_session_is_put_off_from_the_reader_s_day_and_not_the_server_s(log, ana, squat):
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, load=kg("80")), start=this_day() - timedelta(days=4))
    step = plan(log, ana).step
    for here in (this_day() - timedelta(days=1), this_day() + timedelta(days=1)):
        today.postpone(log, ana.id, step, 2, today=here)
        assert today.steps(log, ana.id)[0].due == here + timedelta(days=2)


def test_each_lift_s_history_is_worked_out_once_for_all_its_sets(log, ana, squat, monkeypatch):
    bench = people.add_lift(log, "bench press", "barbell")
    plan_wave(log, ana, *(NewPlannedSet(lift.id, 2, 3, load=kg("80")) for lift in (squat, bench, squat, squat)))
    asked = []
    real = estimates.worked_out
    monkeypatch.setattr(estimates, "worked_out", lambda stored: asked.append(stored.lift.name) or real(stored))
    assert len(plan(log, ana).lines) == 8
    assert sorted(asked) == ["back squat", "bench press"]


def day_of_three_lifts(log, ana, squat):
    """A member at a place, with one lift by a max of another one, and something done of each."""
    place = places.add_place(log, "Shed", "kg")
    people.go_to_place(log, ana.id, place.id)
    bench, front = (people.add_lift(log, name, "barbell") for name in ("bench press", "front squat"))
    for lift in (squat, bench, front):
        log_set.log_set(log, ana.id, this_day() - timedelta(days=7), NewSet(lift.id, kg("80"), 5, Decimal(2)))
    planned = [
        NewPlannedSet(lift.id, 2, 3, load=kg("80"), words="43/30 kg, one of the two is yours")
        for lift in (squat, bench)
    ]
    plan_wave(log, ana, *planned, NewPlannedSet(front.id, 3, 3, Decimal(80), 1, of_lift_id=squat.id))
    return bench


def test_a_day_is_read_in_one_transaction_and_once_more_only_to_see_that_nothing_was_written(log, ana, squat):
    day_of_three_lifts(log, ana, squat)
    with page_snapshot():
        people.members(log)  # the newest entry of the history is known in this moment
        with begun() as readings:
            day = plan(log, ana)
    assert (len(readings), len(day.lines), len({line.lift.id for line in day.lines})) == (1, 7, 3)
    with begun() as readings:
        assert plan(log, ana) is day
    assert len(readings) == 1
    log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg("80"), 5, Decimal(2)))
    with begun() as readings:
        assert plan(log, ana) is not day
    assert len(readings) == 2


def test_no_reading_waits_while_something_is_worked_out(log, ana, squat, monkeypatch):
    """An act of another process could not end so long, and a long history takes seconds."""
    day_of_three_lifts(log, ana, squat)
    free, real = [], estimates.worked_out
    monkeypatch.setattr(
        estimates, "worked_out", lambda stored: free.append(log.engine.pool.checkedout()) or real(stored)
    )
    plan(log, ana)
    assert free == [0, 0, 0]


def test_repeating_puts_the_step_into_the_calendar_once_more(log, ana, squat):
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, Decimal(80), 3))
    first = plan(log, ana).step
    today.finish(log, ana.id, first, this_day())
    today.repeat(log, ana.id, first, this_day() + timedelta(days=7))
    assert [(step.state, step.repeat) for step in today.steps(log, ana.id)] == [("done", 0), ("planned", 1)]


def test_easing_off_takes_ten_percent_of_every_load_and_refuses_what_can_not_be(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day(), 3, kg("100"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, Decimal(80), 3))
    step = plan(log, ana).step
    today.ease_off(log, ana.id, step, Decimal(10))
    assert plan(log, ana).lines[0].made.load == kg("72.5")  # 100 x 0.8 x 0.9 = 72; 72.5 is nearer than 70
    for wrong in (Decimal(0), Decimal(-5), Decimal(51), Decimal("NaN")):
        with pytest.raises(BadInputError, match="ease off"):
            today.ease_off(log, ana.id, step, wrong)


@pytest.mark.parametrize(
    ("chance", "words"),
    [(None, ""), (1.0, "99 % likely"), (0.95, "95 % likely"), (0.8, "80 % likely: may not go up"),
     (0.5, "50 % likely: probably too heavy today"), (0.0, "1 % likely: probably too heavy today")],
)  # fmt: skip
def test_the_chance_is_said_in_words_and_never_as_a_certainty(chance, words):
    assert today.chance_words(chance) == words


def test_of_equal_choices_of_discs_the_one_that_changes_least_from_set_to_set_is_taken(log, ana, squat):
    items = [
        KitItemRecord("", "bar", "long", kg("20"), 1),
        *(KitItemRecord("", "disc", m, kg(m), n) for m, n in (("20", 2), ("15", 2), ("10", 2), ("5", 2))),
    ]
    gym = places.add_place(log, "Gym", "kg", items)
    people.prefer(log, ana.id, name="Ana", unit="kg", place_id=gym.id, no_heavy=False, minor=False, alone=False)
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day(), 3, kg("100"), tested=True)
    plan_wave(log, ana, NewPlannedSet(squat.id, 1, 3, Decimal(50), 3), NewPlannedSet(squat.id, 1, 3, Decimal(70), 3))
    first, second = plan(log, ana).lines
    # By hand: 50 kg is 15 a side. 70 kg is 25 a side: 20 + 5 or 15 + 10, two discs each. After 15 the second changes least.
    assert first.made.words == "15 kg a side"
    assert second.made.words == "15 + 10 kg a side"
