"""A coach writes down what a member told: as the coach's word, for members who share, to be mended by the member."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.situations import Gym
from tracker.desk.coach import from_message
from tracker.desk.day import today
from tracker.desk.day.next import whats_next
from tracker.desk.history import journal
from tracker.desk.people import accounts
from tracker.errors import BadInputError, TidemarkError
from tracker.log.who import Who, acting


@pytest.fixture
def gym(log) -> Gym:
    made = Gym(log)
    made.plan("Now", sets=3, pieces=("Quay",))
    accounts.share(log, made.who, True)
    return made


COACH = Who("coach", None, "Dag")


def test_what_was_told_is_in_the_log_as_the_coach_s_word(gym: Gym):
    step = gym.step("Now")
    with acting(COACH):
        assert [each.id for each in from_message.sessions_of(gym.log, gym.who, gym.day)] == [step.id]
        words = from_message.write_down(
            gym.log, gym.who, gym.day, step.id, scores={gym.piece("Quay"): "4:10"}, rating=8, message="all done, puh"
        )
    assert words == "Ana: Now, 3 sets; Quay: 4:10; rated 8 of 10"
    with acting(Who("member", gym.who, "Ana")):
        act = journal.acts(gym.log, gym.who)[0]
        assert act.words == "Coach Dag wrote down what you told: Now, 3 sets; Quay: 4:10; rated 8 of 10"
        (entry,) = journal.sessions(gym.log, gym.who)
        assert (len(entry.sets), len(entry.scores), entry.session.rating) == (3, 1, 8)
        assert entry.session.note == "Written down by coach Dag: “all done, puh”"
        assert whats_next(gym.log, gym.who, gym.day).kind == "nothing"
        journal.undo_act(gym.log, act.act_id)
        assert journal.sessions(gym.log, gym.who) == ()
        assert gym.step("Now").state == "planned"


def test_a_part_of_it_leaves_the_rest_open(gym: Gym):
    with acting(COACH):
        from_message.write_down(gym.log, gym.who, gym.day, gym.step("Now").id, sets=2)
    found = whats_next(gym.log, gym.who, gym.day)
    assert (found.kind, len(found.plan.sets)) == ("set", 2)


def test_nothing_half_is_written(gym: Gym):
    step = gym.step("Now").id
    with acting(COACH):
        for wrong in ({"sets": 0}, {"scores": {gym.piece("Quay"): "soon"}}, {"rating": 11}):
            with pytest.raises(BadInputError):
                from_message.write_down(gym.log, gym.who, gym.day, step, **wrong)
    assert today.day_plan(gym.log, gym.who, gym.day).sets == ()


def test_only_a_coach_and_only_for_who_shares(gym: Gym):
    step = gym.step("Now").id
    with acting(Who("member", gym.who, "Ana")), pytest.raises(TidemarkError, match="Only a coach"):
        from_message.write_down(gym.log, gym.who, gym.day, step, rating=5)
    accounts.share(gym.log, gym.who, False)
    with acting(COACH), pytest.raises(TidemarkError, match="another member"):
        from_message.write_down(gym.log, gym.who, gym.day, step, rating=5)


def test_a_session_of_the_day_before_goes_on_that_day(gym: Gym):
    yesterday = gym.day - timedelta(days=1)
    with acting(COACH):
        from_message.write_down(gym.log, gym.who, yesterday, gym.step("Now").id, scores={gym.piece("Quay"): "4:10"})
    (entry,) = journal.sessions(gym.log, gym.who)
    assert (entry.session.day, len(entry.sets)) == (yesterday, 3)


def test_the_coach_takes_back_what_they_wrote_down_and_nothing_else(gym: Gym):
    step = gym.step("Now")
    with acting(COACH):
        from_message.write_down(gym.log, gym.who, gym.day, step.id, sets=2, rating=8)
        told = from_message.newest_told(gym.log, gym.who)
        assert told is not None
        assert from_message.take_back(gym.log, gym.who, told.act_id).endswith("Now, 2 sets; rated 8 of 10")
        assert from_message.newest_told(gym.log, gym.who) is None
        with pytest.raises(BadInputError):
            from_message.take_back(gym.log, gym.who, told.act_id)
    assert today.day_plan(gym.log, gym.who, gym.day).sets == ()
    with acting(Who("member", gym.who, "Ana")):
        gym.do("Now", 1)
        own = journal.acts(gym.log, gym.who)[0]
    with acting(COACH), pytest.raises(BadInputError):
        from_message.take_back(gym.log, gym.who, own.act_id)
    with acting(Who("coach", None, "Una")):  # another coach's word is not theirs to take back
        assert from_message.newest_told(gym.log, gym.who) is None
