"""What a percentage of a pull-up is of is one touch at its set, and the loads of all its sets stand there."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, tap, words
from tests.pages.squats import done
from tests.pocket.posts import act, post
from tracker.desk.day import today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log
from tracker.pocket.acts import take
from tracker.pocket.plan import plan_of


@pytest.fixture
def ximena(log: Log) -> MemberRecord:
    member = people.add_member(log, "Ximena")
    pull, day = people.add_lift(log, "pull-up", "body"), this_day() - timedelta(days=7)
    people.weigh(log, member.id, day, kg("74"))
    rep_maxes.add_rep_max(log, member.id, pull.id, day, 3, kg("20"), tested=True)
    sheets.take_sheet(log, [member.id], "Pull-up 4x3 @ 80 % of your 3RM", this_day())
    return member


def test_both_are_offered_and_one_touch_each_is_left(log: Log, ximena: MemberRecord, show: Open):
    at = show(log)
    assert "The sheet leaves open what 80 % is of" in words(at)
    assert not [each for each in at.button if each.key == "log_as_asked"]
    assert at.button(key="percent_of_added").label == "Of the added load alone: body + 16 kg"
    assert at.button(key="percent_of_whole").label == "Of body and load together: body + 1 kg"
    tap(at, "percent_of_added")
    for _ in range(4):
        assert at.button(key="log_as_asked").label == "Done: 3 × body + 16 kg"
        assert "the added load alone, as you said," in words(at)
        tap(at, "log_as_asked")
    assert [row.load.amount for row in done(log, ximena.id)] == [Decimal(16)] * 4


def test_weights_take_it_of_the_same(log: Log, ximena: MemberRecord, show: Open):
    at = show(log, "weights")
    assert "Of body and load together." in words(at)
    tap(at, "percent_of_added")
    assert "Of the added load alone." in words(at)


def test_a_phone_answers_it_too(log: Log, ximena: MemberRecord):
    (ask,) = [each for each in plan_of(log, ximena.id, this_day())["asks"] if each["key"].startswith("percent")]
    body = {"question": ask["key"], "says": ask["answers"][0]["says"], "words": ask["answers"][0]["words"]}
    assert [each.how for each in take(log, ximena.id, post(act("answer", body, 1)), datetime.now(UTC))] == ["done"]
    assert str(today.day_plan(log, ximena.id, this_day()).lines[0].made.load) == "16 kg"
