"""What is next, in every situation of a training day; and what stands beside it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta

import pytest

from tests.day import this_day
from tests.situations import BOTH, NOW, SITUATIONS, SQUAT, WARM_UP, Gym, Situation
from tracker.desk.day import session_said, today
from tracker.desk.day.next import Next, whats_next
from tracker.desk.day.next_record import next_record
from tracker.desk.history import journal
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.conditioning import Said
from tracker.desk.sheet import sheets
from tracker.log import sessions as log_sessions


@pytest.fixture
def gym(log) -> Gym:
    return Gym(log)


def found(gym: Gym, **named) -> Next:
    return whats_next(gym.log, gym.who, gym.day, **named)


def sessions(gym: Gym) -> dict[str, int | None]:
    with gym.log.reading() as session:
        return {row.label: row.rating for row in log_sessions.sessions_of(session, gym.who) if row.day == gym.day}


@pytest.mark.parametrize("situation", SITUATIONS, ids=lambda each: each.name)
def test_what_is_next_in_each_situation(in_situation: Callable[[Situation], Gym], situation: Situation):
    gym = in_situation(situation)
    now = found(gym)
    assert (now.kind, now.title) == (situation.kind, situation.title)
    if situation.session:
        assert now.session is not None
        assert now.session.title == situation.session
    assert (now.planned.title if now.planned else "") == situation.planned
    assert tuple(each.title for each in now.missed) == situation.missed
    assert now.words
    assert (now.line is not None, now.piece is not None) == (now.kind == "set", now.kind == "piece")
    assert next_record(now)["next"] == now.kind


def test_there_are_situations_enough_and_each_has_a_name_of_its_own():
    assert len({each.name for each in SITUATIONS}) == len(SITUATIONS) >= 40


def test_the_warm_up_comes_first_is_ticked_off_and_holds_nothing_up(gym: Gym):
    step = gym.plan("Now", text=WARM_UP)
    warm_up = found(gym).warm_up
    assert warm_up is not None
    assert (warm_up.lines, warm_up.due, found(gym).kind) == (("5 min easy row", "10 air squats"), True, "set")
    gym.warm_up("Now")
    gym.warm_up("Now")  # a second touch is the same
    assert (found(gym).warm_up.done, found(gym).warm_up.due) == (True, False)
    assert journal.acts(gym.log, gym.who)[0].words.startswith("ticked the warm-up off")
    session_said.untick_warm_up(gym.log, gym.who, step, gym.day)
    assert found(gym).warm_up.due
    gym.warm_up("Now")
    gym.undo()
    assert found(gym).warm_up.due
    gym.do("Now", 1)
    assert (found(gym).warm_up.due, found(gym).warm_up.done, found(gym).kind) == (False, False, "set")


def test_a_warm_up_is_left_out_and_that_is_said(gym: Gym):
    step = gym.plan("Now", text=WARM_UP)
    gym.no_warm_up("Now")
    gym.no_warm_up("Now")  # a second touch is the same
    warm_up = found(gym).warm_up
    assert (warm_up.due, warm_up.done, warm_up.left_out, warm_up.state) == (False, False, True, "left out")
    assert next_record(found(gym))["warm_up"]["left_out"] is True
    session_said.untick_warm_up(gym.log, gym.who, step, gym.day)
    assert (found(gym).warm_up.due, found(gym).warm_up.left_out) == (True, False)


def test_a_session_is_not_begun_by_leaving_its_warm_up_out(gym: Gym):
    gym.plan("Morning", text=WARM_UP)
    gym.plan("Evening", text=WARM_UP)
    gym.no_warm_up("Evening")
    assert found(gym).session.title == "Morning"


def test_what_is_left_of_a_session_says_so_and_keeps_its_day(gym: Gym):
    step = gym.plan("Old", -1, pieces=("Quay",))
    gym.do("Old", 99, -1)
    (missed,) = found(gym).missed
    assert missed.words == "Old, yesterday, its piece is still open"
    gym.begin("Old")
    assert gym.step("Old").due == step.due
    gym.score("Quay", "Old")
    gym.rate("Old")
    assert (found(gym).missed, found(gym).kind) == ((), "nothing")


def test_a_warm_up_is_of_its_day_and_of_its_session(gym: Gym):
    gym.plan("Now", text=f"Be on time\n{WARM_UP}\nCool-down: walk", sets=1)
    gym.warm_up("Now")
    gym.move("Now")
    later = whats_next(gym.log, gym.who, gym.day + timedelta(days=1))
    assert later.warm_up is not None
    assert later.warm_up.due
    assert later.warm_up.lines == ("5 min easy row", "10 air squats")


def test_each_session_of_a_day_has_its_own_rating(gym: Gym):
    BOTH(gym)
    gym.do("Morning")
    session_said.rate(gym.log, gym.who, gym.day, gym.step("Morning"), 9)
    gym.do("Evening")
    session_said.rate(gym.log, gym.who, gym.day, gym.step("Evening"), 6, minutes=40)
    assert sessions(gym) == {"": 9, "Evening": 6}
    gym.undo()
    assert sessions(gym) == {"": 9, "Evening": None}
    assert (found(gym).kind, found(gym).title) == ("rating", "Evening")


def test_a_rating_keeps_the_minutes_and_the_note_that_were_said_before(gym: Gym):
    NOW(gym)
    gym.do("Now")
    row = found(gym).plan.session
    session_said.rate_session(gym.log, row.id, gym.who, rating=None, minutes=50, note="hot in the hall")
    gym.rate("Now")
    row = found(gym).plan.session
    assert (row.rating, row.minutes, row.note) == (7, 50, "hot in the hall")


def test_what_was_done_yesterday_of_a_session_counts_today(gym: Gym):
    gym.plan("Old", -1, 3)
    gym.do("Old", 1, -1)
    gym.begin("Old")
    now = found(gym)
    assert (now.which, [line.done is not None for line in now.plan.lines]) == ("set 2 of 3", [True, False, False])
    assert now.plan.sets == ()  # of today
    gym.do("Old")
    assert (today.steps(gym.log, gym.who)[0].state, found(gym).plan.closed) == ("done", False)


def test_a_ramp_is_offered_again_on_another_day(gym: Gym):
    gym.plan("Old", -1, 3)
    gym.do("Old", 1, -1)
    assert found(gym).ramp
    gym.do("Old", 1)
    assert not found(gym).ramp


def test_the_session_that_somebody_chose_counts_until_nothing_is_left_of_it(gym: Gym):
    BOTH(gym)
    evening = {"member_step_id": gym.step("Evening").id}
    assert found(gym, **evening).session.title == "Evening"
    gym.do("Evening")
    assert (found(gym, **evening).kind, found(gym, **evening).title) == ("rating", "Evening")
    gym.rate("Evening")
    assert (found(gym, **evening).kind, found(gym, **evening).session.title) == ("set", "Morning")


def test_what_is_still_to_come_is_said_in_order(gym: Gym):
    gym.plan("Now", 0, 3, pieces=("Quay", "Pier"))
    assert [(each.kind, each.title, each.words) for each in found(gym).then] == [
        ("set", SQUAT, "2 sets of 3 × 80 kg"),
        ("piece", "Quay", "3 rounds for time; 5 burpees"),
        ("piece", "Pier", "3 rounds for time; 5 burpees"),
        ("rating", "Now", "how hard it was"),
    ]


def test_a_set_that_somebody_takes_first_is_next(gym: Gym):
    gym.plan("Now", 0, 3)
    last = found(gym).plan.lines[-1].key
    assert (found(gym, first=last).which, found(gym, first="none").which) == ("set 3 of 3", "set 1 of 3")


@pytest.mark.parametrize(
    ("text", "said", "score", "amount"),
    [
        ("AMRAP 9:\n10 burpees\n10 air squats", "131", "6 rounds, plus 11 (in round 7: 1 air squat)", "131 reps"),
        (
            "9 min ascending ladder: 3-6-9-12...\nburpees\nair squats",
            "40",
            "40 reps (in the round of 12: 4 burpees)",
            "",
        ),
    ],
)
def test_a_piece_that_is_done_says_its_place_and_once_how_much_that_is_in_all(log, ana, text, said, score, amount):
    sheets.take_sheet(log, [ana.id], text, this_day())
    found = whats_next(log, ana.id, this_day())
    assert found.piece is not None
    conditioning.log_score(log, ana.id, found.piece.piece_id, this_day(), Said(said))
    (piece,) = whats_next(log, ana.id, this_day()).pieces
    assert (piece.score, piece.amount) == (score, amount)
