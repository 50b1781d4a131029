"""How I am before I train: a touch an answer, kept at once, shared by a switch of its own, and offered limits told one by one."""

from __future__ import annotations

from tests.day import this_day
from tests.pages.conftest import Open, opened, tap, words
from tracker.desk.day import own_session, readiness, sore, told
from tracker.log.unit_of_work import Log


def test_each_answer_is_one_touch_and_the_coach_sees_them_only_by_the_switch(log: Log, noa, show: Open):
    at = opened(show(log), "how_i_am")
    assert "Only you see this." in words(at)
    at.button_group(key=f"feel_sleep_{noa.id}").set_value(2).run()
    at.button_group(key=f"feel_mood_{noa.id}").set_value(4).run()
    assert dict(readiness.readiness(log, noa.id, this_day()).today.answers) == {"sleep": 2, "mood": 4}
    assert "Warm up longer" in words(at)
    assert told.told(log, noa.id, this_day()) == ()
    at.toggle(key=f"feel_share_{noa.id}").set_value(True).run()
    assert told.told(log, noa.id, this_day()) == ("Sleep 2, mood 4 of 5.",)
    assert "The coach sees them before the class." in words(at)


def test_a_sore_place_is_told_to_the_coach_by_a_touch_of_its_own(log: Log, noa, show: Open):
    (source,) = own_session.sources(log, noa.id, this_day())
    own_session.begin(log, noa.id, source.session_id, this_day())
    sore.begin(log, noa.id, "knee", this_day())
    at = tap(show(log), "tell_knee")
    assert "The coach was told: knee." in words(at)
    assert told.told(log, noa.id, this_day())[0].startswith("Sore: knee since")
    tap(at, "sore_end_knee")
    assert told.told(log, noa.id, this_day()) == ()
