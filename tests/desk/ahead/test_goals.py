"""Goals from the log: set, judged, reached by what was done alone, changed, given up, and taken back."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.conditioning.compare import sorting_span
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.conditioning.words import parse_score
from tracker.desk.ahead import goal_choices, goal_piece, goals
from tracker.desk.ahead.goal_reached import reached
from tracker.desk.ahead.goal_view import lift_goals, piece_goals, preview, reached_on
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.desk.pieces.piece_history import piece_history
from tracker.errors import BadInputError
from tracker.log.sets import NewSet
from tracker.units import Mass, parse_mass

SOON = timedelta(weeks=12)


def view(log, member, lift):
    return lift_goals(log, member, lift, unit="kg", day=this_day())[0]


def test_a_goal_says_how_likely_from_when_and_what_it_takes(squatted):
    log, member, lift = squatted
    goal = goals.set_lift_goal(log, member.id, lift.id, reps=5, load=kg(100), by=this_day() + SOON, day=this_day())
    seen = view(log, member, lift)
    assert seen.row.id == goal
    assert 0.05 < seen.chance < 0.95
    assert 0 < seen.test < 1
    assert seen.even > this_day()
    said = " ".join(seen.lines)
    assert "likely: your 5RM is there in some week up to" in said
    assert "One in two: from about" in said
    assert "kg a week by then" in said
    assert seen.course.state in ("on course", "not on course")
    assert seen.course.since == this_day()
    assert "your coach's word goes first" in " ".join(seen.why)
    again = preview(log, member, lift, reps=5, load=kg(100), by=this_day() + SOON, day=this_day())
    assert again.split(" %")[0] == said.split(" %")[0]  # before it is set it says the same


def test_no_estimate_reaches_a_goal_and_a_set_does(squatted):
    log, member, lift = squatted
    goal = goals.set_lift_goal(log, member.id, lift.id, reps=1, load=kg(85), by=None, day=this_day())
    seen = view(log, member, lift)
    assert seen.reached is None  # though the estimated 1RM is far above it
    assert seen.even == this_day()
    with pytest.raises(BadInputError, match="Nothing that was done"):
        goals.put_away(log, member.id, goal, this_day())
    did(log, member, lift, 0, 85, 0, outcome="missed")
    assert view(log, member, lift).reached is None
    did(log, member, lift, 0, Decimal("82.5"), 5)
    assert view(log, member, lift).reached is None
    in_pounds = NewSet(lift.id, Mass(Decimal("187.5"), "lb"), 1)  # 85.05 kg
    log_set.log_set(log, member.id, this_day(), in_pounds, sure=True)
    seen = view(log, member, lift)
    assert (seen.reached.day, seen.reached.words) == (this_day(), "1 × 187.5 lb")
    assert [each.row.id for each in reached_on(log, member.id, this_day())] == [goal]
    assert reached_on(log, member.id, this_day() - timedelta(days=1)) == ()
    undo_newest(log, member.id)
    assert view(log, member, lift).reached is None  # what was taken back reaches nothing
    did(log, member, lift, 0, 85, 1)
    goals.put_away(log, member.id, goal, this_day())
    assert lift_goals(log, member, lift, unit="kg", day=this_day()) == ()
    assert [(each.ended, each.ended_on) for each in goals.goals(log, member.id)] == [("reached", this_day())]
    assert undo_newest(log, member.id).startswith("reached a goal: back squat, barbell, 1RM 85 kg")
    assert view(log, member, lift).reached


def test_what_was_done_before_a_goal_was_set_does_not_reach_it(squatted):
    log, member, lift = squatted
    did(log, member, lift, 0, 90, 5)
    goals.set_lift_goal(log, member.id, lift.id, reps=5, load=kg(85), by=None, day=this_day())
    assert view(log, member, lift).reached is None


def test_a_goal_is_changed_given_up_and_taken_back_with_its_history(squatted):
    log, member, lift = squatted
    goal = goals.set_lift_goal(log, member.id, lift.id, reps=3, load=kg(100), by=None, day=this_day())
    with pytest.raises(BadInputError, match="There is a goal already: back squat, barbell, 3RM 100 kg, some day"):
        goals.set_lift_goal(log, member.id, lift.id, reps=3, load=kg(110), by=None, day=this_day())
    goals.change_goal(log, member.id, goal, by=this_day() + SOON, day=this_day(), load=kg(105))
    assert view(log, member, lift).title.startswith("3RM 105 kg, by ")
    undo_newest(log, member.id)
    assert view(log, member, lift).title == "3RM 100 kg, some day"
    goals.give_up(log, member.id, goal, this_day())
    assert lift_goals(log, member, lift, unit="kg", day=this_day()) == ()
    with pytest.raises(BadInputError, match="given up already"):
        goals.give_up(log, member.id, goal, this_day())
    undo_newest(log, member.id)
    assert view(log, member, lift).row.id == goal
    for wrong, what in (
        ({"by": this_day()}, "no day to come"), ({"by": this_day() + timedelta(weeks=105)}, "more than 104 weeks"),
        ({"load": kg(0)}, "can't be"), ({"reps": 20}, "can't be foretold"),
    ):  # fmt: skip
        with pytest.raises(BadInputError, match=what):
            goals.change_goal(log, member.id, goal, **{"by": None, "day": this_day(), **wrong})
    with pytest.raises(BadInputError, match="not in the log"):
        goals.give_up(log, member.id, "0" * 32, this_day())


def test_the_next_goal_puts_a_reached_one_away_in_the_same_act(squatted):
    log, member, lift = squatted
    goals.set_lift_goal(log, member.id, lift.id, reps=5, load=kg(81), by=None, day=this_day())
    did(log, member, lift, 0, 81, 5)
    goals.set_lift_goal(log, member.id, lift.id, reps=5, load=kg(85), by=None, day=this_day())
    assert [each.ended for each in goals.goals(log, member.id)] == ["reached", None]
    undo_newest(log, member.id)
    assert [each.ended for each in goals.goals(log, member.id)] == [None]


def test_of_a_day_gone_by_and_of_little_known_no_chance_is_said(squatted, log):
    _, member, lift = squatted
    day = this_day() - timedelta(days=30)
    goals.set_lift_goal(log, member.id, lift.id, reps=1, load=kg(120), by=day + timedelta(days=20), day=day)
    seen = view(log, member, lift)
    assert (seen.over, seen.chance) == (True, None)
    assert seen.lines[0].startswith("The day is over.")
    press = people.add_lift(log, "press", "barbell")
    goals.set_lift_goal(log, member.id, press.id, reps=1, load=kg(50), by=this_day() + SOON, day=this_day())
    assert "too little of a max" in view(log, member, press).lines[0]


def test_a_goal_of_a_lift_of_the_body_says_body_plus(log):
    member, lift = somebody(log, "Wren"), people.add_lift(log, "pull-up", "body")
    people.weigh(log, member.id, this_day() - timedelta(days=90), kg(70))
    for week in range(10, 0, -1):
        did(log, member, lift, 7 * week, 10, 5, rir=Decimal(2), body_mass=Decimal(70))
    load = goal_choices.load_of("body + 20 kg", lift, "kg")
    assert load == parse_mass("20 kg")
    assert [goal_choices.load_of(text, lift, "kg").amount for text in ("+20", "20", "body + 20", "body")] == [
        20,
        20,
        20,
        0,
    ]
    goals.set_lift_goal(log, member.id, lift.id, reps=3, load=load, by=this_day() + SOON, day=this_day())
    seen = view(log, member, lift)
    assert seen.title.startswith("3RM body + 20 kg, by ")
    assert 0 < seen.chance < 1


@pytest.mark.parametrize(
    ("piece", "said", "offered"),
    [
        # by hand: one more minute kept, and no more than there are
        (Piece("Lock gates", "every minute", (Task("burpee", Steady(12)),), intervals=10, work_s=60, scored_by="completed"), "8/10", ["9/10", "10/10"]),
        # 300 m in all: 303, 309 and 315 m, the first intervals taking what is over
        (Piece("Towpath", "work and rest", (Task("row", Steady(1, 0), measure="m", most=True),), intervals=4, work_s=20, rest_s=40), "75, 75, 76, 74 m", [(76, 76, 76, 75), (78, 77, 77, 77), (79, 79, 79, 78)]),
    ],
)  # fmt: skip
def test_a_piece_in_intervals_has_scores_to_touch(piece, said, offered):
    best = parse_score(piece, this_day(), said)
    found = goal_piece.offered_scores(best)
    assert [f"{each.kept}/10" if each.kept else tuple(one.low for one in each.each) for each in found] == offered
    assert all(sorting_span(each).low > sorting_span(best).high for each in found)


def test_a_piece_needs_results_of_the_same_version_before_a_chance_stands_there(log):
    member = somebody(log, "Wren")
    piece = conditioning.add_piece(log, Piece("Quayside", "for time", (Task("burpee", Steady(40)),), rounds=1))
    for days, said in enumerate(("4:10", "3:55", "3:50", "3:52", "3:47")):
        conditioning.log_score(log, member.id, piece.id, this_day() - timedelta(days=60 - 7 * days), Said(said))
    best = goal_piece.best_of([line.row.score for line in piece_history(log, member.id, "Quayside").like])
    assert [each.time_s for each in goal_piece.offered_scores(best)] == [224, 220, 215]
    wanted = goal_piece.typed_score(best, "3:45", "kg", this_day())
    goals.set_piece_goal(log, member.id, piece.id, score=wanted, by=None, day=this_day())
    seen = piece_goals(log, member.id, "quayside", day=this_day())[0]
    assert seen.chance is None
    assert seen.lines == ("It can't be known yet: 1 more go at the same version, and a chance stands here.",)
    conditioning.log_score(log, member.id, piece.id, this_day() - timedelta(days=20), Said("3:51"))
    seen = piece_goals(log, member.id, "quayside", day=this_day())[0]
    assert 0 < seen.chance < 0.5
    conditioning.log_score(log, member.id, piece.id, this_day(), Said("3:45"))
    goal = goals.goals(log, member.id)[0]
    assert reached(log, member.id, goal).words == "3:45"
    goals.put_away(log, member.id, goal.id, this_day())
    assert piece_goals(log, member.id, "quayside", day=this_day()) == ()


def test_loads_to_touch_are_steps_above_today_and_a_former_best():
    assert [str(each) for each in goal_choices.offered_loads(61.0, [], "kg")] == [
        "62.5 kg",
        "65 kg",
        "67.5 kg",
        "70 kg",
    ]
    assert [each.amount for each in goal_choices.offered_loads(203, [Decimal(250)], "lb")] == [205, 210, 215, 225, 250]
    assert goal_choices.offered_loads(-12.0, [], "kg")[0] == Mass(Decimal(-10), "kg")
    assert goal_choices.offered_loads(None, [], "kg") == ()
