"""What Today's page has of a day stands on the phone's as well: the way up to a heavy set, ticks, the warm-up, effort as RPE."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.pocket.posts import act, post, set_of
from tracker.desk.day import today, touches
from tracker.desk.history import journal
from tracker.desk.maxes import rep_maxes
from tracker.desk.maxes.words import set_words
from tracker.desk.people import people
from tracker.desk.pieces.ticks import ticks
from tracker.desk.sheet import sheets
from tracker.log.unit_of_work import Log
from tracker.pocket.acts import take
from tracker.pocket.plan import plan_of

SHEET = """Warm-up
2 rounds of 10 air squats

Split squat 2x8 each leg, 2 x 16 kg dumbbells @ RPE 8
Build to a heavy single clean in 15 min

3 rounds not for time
10 ring rows
8 walking lunges each leg
"""


@pytest.fixture
def day(log: Log, ana):
    people.add_lift(log, "split squat", "dumbbells")  # known already, and not as one that is counted on each side
    sheets.take_sheet(log, [ana.id], SHEET, this_day())
    return lambda: plan_of(log, ana.id, this_day())


def taken(log, member, *acts):
    found = take(log, member.id, post(*acts), datetime.now(UTC))
    assert [each.how for each in found] == ["done"] * len(acts), found
    return found


def test_each_leg_is_said_on_card_in_log_and_journal_though_the_lift_is_known_otherwise(log, ana, day):
    (session,) = day()["sessions"]
    line = session["lines"][0]
    assert (line["each_side"], line["reps"]) == (True, 8)
    assert line["asked"].startswith("8 each side × 16 kg each")
    taken(log, ana, act("set", {**set_of(line, session["id"]), "load": "16", "unit": "kg"}))
    (entry,) = journal.sessions(log, ana.id)
    assert set_words(entry.sets[0]) == "8 each side × 16 kg each"
    assert day()["sets"][0]["said"] == "8 each side × 16 kg each"


def test_where_the_sheet_asks_rpe_it_is_said_as_rpe_and_kept_as_what_it_leaves(log, ana, day):
    plan = day()
    line, clean = plan["sessions"][0]["lines"][0], plan["sessions"][0]["lines"][-1]
    assert (line["rated"], line["left_asked"], clean["rated"]) == (True, True, False)
    # Zourdos et al. 2016: RPE 10 leaves none, 9 one; RPE 8 two
    assert [each for each in plan["ratings"] if each[1] in ("10", "9", "8.5", "8")] == [
        ["0", "10"],
        ["1", "9"],
        ["1.5", "8.5"],
        ["2", "8"],
    ]
    taken(log, ana, act("set", {**set_of(line, plan["on"]), "load": "16", "unit": "kg", "rir": "1.5"}))
    assert today.day_plan(log, ana.id, this_day()).sets[0].rir == Decimal("1.5")


def test_sets_on_the_way_up_to_a_heavy_one_are_logged_and_end_nothing(log, ana, day):
    line = day()["sessions"][0]["lines"][-1]
    assert (line["build_up"], line["title"]) == (True, "clean, barbell")
    beside = {"lift": line["lift"], "load": "50", "unit": "kg", "reps": 1, "outcome": "done"}
    taken(log, ana, act("set", beside), act("set", {**beside, "load": "60"}, 2))
    now = day()
    assert now["sessions"][0]["lines"][-1]["done"] is None
    assert [each["load"] for each in now["sets"]] == ["50", "60"]


def test_a_piece_without_a_score_is_ticked_movement_by_movement_and_a_tick_is_taken_back(log, ana, day):
    plan = day()
    piece = plan["sessions"][0]["pieces"][0]
    assert (piece["way"], piece["ticks"]["rounds"], len(piece["ticks"]["movements"])) == ("done", 3, 2)
    body = {"piece": piece["id"], "step": plan["on"], "done": [[0, 0]]}
    tick = act("tick", body)
    taken(log, ana, tick, act("tick", {**body, "done": [[0, 0], [0, 1]]}, 2))
    assert day()["sessions"][0]["pieces"][0]["ticks"]["done"] == [[0, 0], [0, 1]]
    row = today.day_plan(log, ana.id, this_day()).pieces[0]
    found = ticks(log, ana.id, row.id, row.piece, this_day(), plan["on"])
    assert found.is_whole(0)  # as Today's page reads it
    (bad,) = take(log, ana.id, post(act("tick", {**body, "done": [[9, 0]]}, 3)), datetime.now(UTC))
    assert bad.how == "parked"


def test_a_warm_up_is_left_out_and_asked_for_again(log, ana, day):
    step = day()["on"]
    taken(log, ana, act("warm", {"step": step, "how": "out"}))
    assert day()["sessions"][0]["warm_up"] | {"lines": []} == {"lines": [], "done": False, "out": True}
    taken(log, ana, act("warm", {"step": step, "how": "open"}, 2), act("warm", {"step": step}, 3))
    assert day()["sessions"][0]["warm_up"]["done"] is True


def test_one_bell_of_two_is_kept_with_the_score(log, ana):
    text = "For time, 3 rounds\n10 dumbbell thrusters 2 x 22.5 kg"
    sheets.take_sheet(log, [ana.id], text, this_day())
    plan = plan_of(log, ana.id, this_day())
    piece = plan["sessions"][0]["pieces"][0]
    assert [each["two"] for each in piece["movements"]] == [True]
    body = {"piece": piece["id"], "step": plan["on"], "text": "9:30", "ones": {"0": True}}
    taken(log, ana, act("score", body))
    (score,) = today.day_plan(log, ana.id, this_day()).scores
    assert [(swap.task.implements, str(swap.task.load)) for swap in score.score.swaps] == [(1, "22.5 kg")]


def test_without_a_body_mass_a_lift_of_the_body_says_no_chance_and_asks(log, ana):
    pull = people.add_lift(log, "pull-up", "body")
    rep_maxes.add_rep_max(log, ana.id, pull.id, this_day() - timedelta(days=7), 3, kg(20), tested=True)
    sheets.take_sheet(log, [ana.id], "Pull-up 2x3 @ 80 % of the 3RM, added load only", this_day())
    plan = plan_of(log, ana.id, this_day())
    line = plan["sessions"][0]["lines"][0]
    assert (line["load"], line["chance"], plan["body_known"]) == ("16", "", False)  # 80 % of the 20 kg that are added
    assert plan["ask_body"] == "No body mass is known: enter it once."


def test_a_plan_is_of_one_moment_where_a_set_comes_in_while_it_is_read(log, ana, day, monkeypatch):
    (session,) = day()["sessions"]
    waiting = [act("set", {**set_of(session["lines"][0], session["id"]), "load": "16", "unit": "kg"})]
    read = touches.touches

    def late(*args):
        while waiting:
            taken(log, ana, waiting.pop())
        return read(*args)

    monkeypatch.setattr(touches, "touches", late)
    plan = day()
    known = {made for each in plan["touches"].values() for made in each["made"]}
    assert known
    assert known == {each["id"] for each in plan["sets"]}
    assert [bool(each["done"]) for each in plan["sessions"][0]["lines"][:2]] == [True, False]
