"""Something hurts: said on the day's page in a touch, with offers, no load for what is painful, and signs to stop at."""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.pages.conftest import Open, field, opened, tap, words
from tracker.desk.day import own_session, sore, today, told
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log


@pytest.fixture
def begun(log: Log, noa: MemberRecord) -> MemberRecord:
    (source,) = own_session.sources(log, noa.id, this_day())
    own_session.begin(log, noa.id, source.session_id, this_day())
    return noa


def test_a_sore_knee_is_one_touch_and_the_day_only_offers(log: Log, begun: MemberRecord, show: Open):
    at = opened(show(log), "sore_ask")
    tap(at, "sore_begin_knee")
    text = words(at)
    assert "Back squat loads the knee." in text
    assert "See a clinician soon" in text
    assert "5 × 60 kg" in text  # until somebody touches, all is as planned
    squat = today.day_plan(log, begun.id, this_day()).lines[0].lift
    tap(at, f"sore_leave_{squat.id}_")
    assert today.day_plan(log, begun.id, this_day()).lines == ()
    tap(at, "sore_end_knee")
    assert len(today.day_plan(log, begun.id, this_day()).lines) == 2
    assert "Back squat loads the knee." not in words(at)


def test_what_was_marked_as_painful_has_no_load_in_any_field(log: Log, begun: MemberRecord, show: Open):
    squat = today.day_plan(log, begun.id, this_day()).lines[0].lift
    sore.mark_painful(log, begun.id, squat.id)
    at = show(log)
    assert "no load is proposed" in words(at)
    assert not [each for each in at.button if each.key in ("log_as_asked", "change_it", "missed_it")]
    opened(at, "free")
    assert field(at, "text_input", "_load", "free_").value == ""
    tap(at, "painful_end")
    assert at.button(key="log_as_asked").label == "Done: 5 × 60 kg"


def test_whoever_is_ill_has_no_load_and_the_signs_and_tells_the_coach_by_choice(
    log: Log, begun: MemberRecord, show: Open
):
    at = tap(opened(show(log), "sore_ask"), "sore_begin_ill")
    text = words(at)
    assert "No training with fever" in text
    assert "no load is offered" in text
    assert not [each for each in at.button if each.key in ("log_as_asked", "change_it")]
    assert told.told(log, begun.id, this_day()) == ()
    tap(at, "tell_ill")
    assert told.told(log, begun.id, this_day())
    tap(at, "sore_end_ill")
    assert at.button(key="log_as_asked").label == "Done: 5 × 60 kg"


def test_after_an_illness_the_rule_of_the_way_back_is_said(log: Log, begun: MemberRecord, show: Open):
    sore.begin(log, begun.id, sore.ILL, this_day() - timedelta(days=4))
    sore.end(log, begun.id, sore.ILL, this_day())
    at = show(log)
    assert "After 4 days ill loads start 10 % lower" in words(at)
    assert not [each for each in at.button if each.key == "trained_meanwhile"]
    assert at.button(key="log_as_asked").label == "Done: 5 × 52.5 kg"  # 54 by the rule, down to 52.5 with these discs


def test_aching_muscles_offer_an_easier_day_and_withhold_nothing(log: Log, begun: MemberRecord, show: Open):
    at = tap(opened(show(log), "sore_ask"), "sore_begin_aching muscles")
    assert at.button(key="log_as_asked").label == "Done: 5 × 60 kg"
    assert "nothing is withheld" in words(at)
    tap(at, "aches_ease")
    assert "you said that your muscles ache" in words(at)
    assert at.button(key="log_as_asked").label != "Done: 5 × 60 kg"


def test_one_lift_is_left_out_of_today_without_anything_sore(log: Log, begun: MemberRecord, show: Open):
    squat = today.day_plan(log, begun.id, this_day()).lines[0].lift
    at = tap(opened(show(log), f"singly_{squat.id}"), f"singly_leave_{squat.id}_")
    assert "Back squat: left out today" in words(at)
    assert today.day_plan(log, begun.id, this_day()).lines == ()
    tap(at, f"singly_keep_{squat.id}")
    assert len(today.day_plan(log, begun.id, this_day()).lines) == 2


def test_the_rest_of_a_lift_is_left_out_after_a_set_of_it(log: Log, begun: MemberRecord, show: Open):
    squat = today.day_plan(log, begun.id, this_day()).lines[0].lift
    at = opened(tap(show(log), "log_as_asked"), f"singly_{squat.id}")
    at = tap(at, f"singly_leave_{squat.id}_")
    assert "Back squat: the rest is left out today" in words(at)
    assert not [each for each in at.button if each.key == "log_as_asked"]
    assert [line.done is not None for line in today.day_plan(log, begun.id, this_day()).lines] == [True]
    tap(at, f"singly_keep_{squat.id}")
    assert at.button(key="log_as_asked").label == "Done: 5 × 60 kg"


def test_a_rest_is_told_after_a_free_set_too_and_its_ways_are_kept(log: Log, begun: MemberRecord, show: Open):
    at = tap(show(log), "log_as_asked")
    text = words(at)
    assert 'role="timer"' in text
    opened(at, "rest_ways")
    tap(at, "rest_more")
    assert today.day_plan(log, begun.id, this_day()).rest.seconds == 210
    opened(at, "rest_ways")
    tap(at, "rest_sound")
    plan = today.day_plan(log, begun.id, this_day())
    assert (plan.rest_ways.sound, plan.rest_ways.vibration) == (False, True)
    rest = plan.rest.ends - plan.sets[-1].logged_at
    assert rest == timedelta(seconds=210)
    assert plan.sets[-1].load == kg(60)
