"""What the desk asks of a day comes with a phone's plan as questions; an answer is one touch, and is in the log once."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, lift_named, squats_and_presses
from tests.pocket.posts import act, post, set_of
from tracker.desk.day import today
from tracker.desk.maxes import rep_maxes
from tracker.log.unit_of_work import Log
from tracker.pocket.acts import take
from tracker.pocket.plan import plan_of


@pytest.fixture
def tova(log: Log):
    return squats_and_presses(log, "Tova")


def asks(log, member):
    return {each["key"].split()[0]: each for each in plan_of(log, member.id, this_day())["asks"]}


def answer(log, member, ask, number, seq=1):
    body = {"question": ask["key"], "says": ask["answers"][number]["says"], "words": ask["answers"][number]["words"]}
    touch = act("answer", body, seq)
    assert [each.how for each in take(log, member.id, post(touch), datetime.now(UTC))] == ["done"]
    assert [each.how for each in take(log, member.id, post(touch), datetime.now(UTC))] == ["again"]


def away(log, member, days):
    """Let all of it be from before so many days."""
    for row in rep_maxes.rep_maxes(log, member.id):
        rep_maxes.remove_rep_max(log, member.id, row.id)
    return did(log, member, lift_named(log, "back squat"), days, 100, 5, kind="test")


def test_how_somebody_starts_after_a_break_is_asked_and_answered(log, tova):
    away(log, tova, 40)
    ask = asks(log, tova)["start"]
    assert [each["words"] for each in ask["answers"][:2]] == ["10 % lower", "As asked"]
    answer(log, tova, ask, 1)
    assert "start" not in asks(log, tova)
    assert str(today.day_plan(log, tova.id, this_day()).lines[0].made.load) == "70 kg"


def test_after_nine_months_as_asked_is_no_answer(log, tova):
    away(log, tova, 280)
    ask = asks(log, tova)["start"]
    assert [each["says"].get("start") for each in ask["answers"]] == ["lower", None, None]
    answer(log, tova, ask, 2)
    assert today.day_plan(log, tova.id, this_day()).back.percent == 10


def test_a_max_from_before_the_break_holds_or_is_set_aside(log, tova):
    away(log, tova, 40)
    ask = asks(log, tova)["old"]
    assert "Does it still hold?" in ask["words"]
    answer(log, tova, ask, 1)
    assert "old" not in asks(log, tova)
    assert all(line.reference is None for line in today.day_plan(log, tova.id, this_day()).lines[:2])


def test_whether_a_set_becomes_the_max_is_asked(log, tova):
    did(log, tova, lift_named(log, "back squat"), 0, 105, 5)
    ask = asks(log, tova)["max"]
    answer(log, tova, ask, 0)
    assert "max" not in asks(log, tova)
    assert today.day_plan(log, tova.id, this_day()).new_max is None
    assert max(row.load.amount for row in rep_maxes.rep_maxes(log, tova.id)) == Decimal(105)


def test_a_heavier_set_is_asked_about_and_the_plan_brought_the_question_before(log, tova):
    session = plan_of(log, tova.id, this_day())["sessions"][0]
    lines = session["lines"]
    step = today.day_plan(log, tova.id, this_day()).step
    heavier = {**set_of(lines[0], step.id), "load": "75"}
    take(log, tova.id, post(act("set", heavier)), datetime.now(UTC))
    ask = asks(log, tova)["heavier"]
    assert ask == session["heavier"][f"{lines[0]['lift']} 70 75"]
    answer(log, tova, ask, 0, seq=2)
    assert plan_of(log, tova.id, this_day())["sessions"][0]["lines"][1]["load"] == "75"


def test_an_answer_that_cant_be_read_changes_nothing_and_is_told(log, tova):
    for says in (
        {"start": "lower", "since": "soon"},
        {"max": "none", "reps": 1, "yes": True},
        {"carry": "take", "load": "x"},
    ):
        (one,) = take(log, tova.id, post(act("answer", {"question": "start", "says": says})), datetime.now(UTC))
        assert one.how == "parked"
    assert this_day() - timedelta(days=1) not in {row.day for row in rep_maxes.rep_maxes(log, tova.id)}
