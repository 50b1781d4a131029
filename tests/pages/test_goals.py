"""Goals on the pages: set by touches on the trend and beside a piece's results, said once when reached, and only shared with a coach."""

from __future__ import annotations

from datetime import timedelta

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, words
from tests.pages.test_trend import names, squat, wren
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.ahead import goals
from tracker.desk.day import log_set
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log


def press(at, label: str):
    next(each for each in at.button if each.label == label).click().run()
    assert not at.exception
    return at


def test_a_goal_is_set_by_touches_drawn_reached_and_put_away(demo_log: Log, show: Open):
    member, lift = wren(demo_log), squat(demo_log)
    key, opened = f"goal_{member}_{lift}_3", {f"goal_set_{lift}_3": True}
    at = show(demo_log, "trend", member, lift=lift, reps=3)
    assert "Set this goal" not in [each.label for each in at.button]  # nothing is worked out while it is closed
    for name, value in opened.items():
        at.session_state[name] = value
    at.run()
    assert not at.exception
    assert "likely by then, if you train on as you have" in words(at)
    at.text_input(key=f"{key}_typed").set_value("ninety").run()
    press(at, "Set this goal")
    assert "'ninety' is not a number" in words(at)
    at.text_input(key=f"{key}_typed").set_value("190 lb").run()
    press(at, "Set this goal")
    assert "Goal set: 3RM 190 lb." in words(at)
    (row,) = goals.goals(demo_log, member)
    assert (row.by, row.made_on) == (this_day() + timedelta(weeks=12), this_day())
    said = words(at)
    assert "3RM 190 lb, by" in said
    assert "your 3RM is there in some week up to" in said
    assert "n course" in said
    assert "goal" in names(at)
    log_set.log_set(demo_log, member, this_day(), NewSet(lift, kg(87), 3), sure=True)
    at = show(demo_log, "trend", member, lift=lift, reps=3)
    assert "Goal reached" in words(at)
    assert "3 × 87 kg" in words(at)
    assert "Goal reached:" in words(show(demo_log, "today", member))
    press(at, "Put it away")
    assert "Goal reached" not in words(at)
    assert [each.ended for each in goals.goals(demo_log, member)] == ["reached"]


def test_a_goal_in_a_piece_is_of_the_version_done_and_can_be_given_up(log: Log, show: Open):
    from tracker.desk.people import people

    member = people.add_member(log, "Bo")
    piece = conditioning.add_piece(log, Piece("Quayside", "for time", (Task("burpee", Steady(40)),), rounds=1))
    conditioning.log_score(log, member.id, piece.id, this_day(), Said("4:10"))
    at = show(log, "conditioning", member.id, piece=piece.id)
    at.session_state[f"piece_goal_set_{piece.id}"] = True
    at.run()
    press(at, "Set this goal")
    assert "4:07, by" in words(at)
    assert "It can't be known yet: 5 more goes at the same version" in words(at)
    (row,) = goals.goals(log, member.id)
    at.session_state[f"goal_change_{row.id}"] = True
    at.run()
    press(at, "Give it up")
    assert [each.ended for each in goals.goals(log, member.id)] == ["given up"]
    assert "4:07, by" not in words(at)
