"""Rest after each set, also where nobody gave one; and the minutes of a session from its touches."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set, resting, session_said, sore, today
from tracker.desk.day.minutes import minutes_of
from tracker.desk.history import journal, training_load
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.models import LiftedSet
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep
from tracker.prescription.rest import usual_rest


@pytest.fixture
def kai(log: Log) -> MemberRecord:
    return people.add_member(log, "Kai")


@pytest.fixture
def squat(log: Log, kai: MemberRecord) -> LiftRecord:
    return people.add_lift(log, "back squat", "barbell")


def rest(log: Log, member: MemberRecord) -> resting.Rest:
    found = today.day_plan(log, member.id, this_day()).rest
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("kind", "reps", "seconds"),
    [
        ("test", 1, 240),
        ("work", 1, 180),
        ("work", 5, 180),
        ("work", 6, 120),
        ("work", 9, 120),
        ("work", 10, 90),
        ("ramp", 5, 60),
    ],
)
def test_the_usual_rest_lies_where_the_position_stand_has_it(kind, reps, seconds):
    # ACSM 2009, from memory: 2 to 3 min after heavy sets, 1 to 2 after lighter ones; attempts and ramps: common practice.
    assert usual_rest(kind, reps).seconds == seconds


def test_a_free_set_has_its_rest_too_and_a_change_is_remembered_for_the_lift(log, kai, squat):
    bench = people.add_lift(log, "bench press", "barbell")
    assert today.day_plan(log, kai.id, this_day()).rest is None
    row = log_set.log_set(log, kai.id, this_day(), NewSet(squat.id, kg(60), 5))
    found = rest(log, kai)
    assert (found.seconds, found.source, found.ends) == (180, "usual", row.logged_at + timedelta(seconds=180))
    assert found.words == "usual after a set of up to 5"
    resting.rest_for(log, kai.id, squat.id, 150)
    assert (rest(log, kai).seconds, rest(log, kai).source) == (150, "own")
    log_set.log_set(log, kai.id, this_day(), NewSet(bench.id, kg(40), 8))
    assert (rest(log, kai).seconds, rest(log, kai).source) == (120, "usual")
    log_set.log_set(log, kai.id, this_day(), NewSet(squat.id, kg(60), 5))
    assert rest(log, kai).seconds == 150
    resting.rest_for(log, kai.id, squat.id, None)
    assert (rest(log, kai).seconds, rest(log, kai).source) == (180, "usual")


def test_after_a_set_of_a_movement_marked_as_painful_no_rest_is_counted_down(log, kai, squat):
    log_set.log_set(log, kai.id, this_day(), NewSet(squat.id, kg(60), 5))
    sore.mark_painful(log, kai.id, squat.id)
    assert today.day_plan(log, kai.id, this_day()).rest is None
    sore.mark_painful(log, kai.id, squat.id, painful=False)
    assert rest(log, kai).seconds == 180


def test_the_coachs_rest_goes_before_the_usual_one_and_ones_own_before_it_for_that_rest_alone(log, kai, squat):
    with log.act("a wave", kai.id) as act:
        step = NewStep("Squat", 0, [NewPlannedSet(squat.id, 3, 5, load=kg(60), rest_s=90)])
        log_waves.start_wave(act, kai.id, log_waves.add_wave(act, "Tide", [step]), this_day())
    resting.rest_for(log, kai.id, squat.id, 240)  # for sets without a rest of the coach's
    line = today.day_plan(log, kai.id, this_day()).next_line
    assert line is not None
    log_set.log_set(log, kai.id, this_day(), NewSet(
        squat.id, kg(60), 5, planned_set_id=line.planned.id, planned_round=1, member_step_id=line.step_id
    ))  # fmt: skip
    assert (rest(log, kai).seconds, rest(log, kai).source) == (90, "coach")
    resting.rest_for(log, kai.id, squat.id, 120, prescribed=90)
    assert (rest(log, kai).seconds, rest(log, kai).source) == (120, "own")


def test_sound_and_vibration_are_switched_off_each_and_remembered(log, kai, squat):
    assert (resting.ways(log, kai.id).sound, resting.ways(log, kai.id).vibration) == (True, True)
    resting.tell_by(log, kai.id, sound=False, vibration=True)
    assert today.day_plan(log, kai.id, this_day()).rest_ways.sound is False
    resting.tell_by(log, kai.id, sound=False, vibration=False)
    assert (resting.ways(log, kai.id).sound, resting.ways(log, kai.id).vibration) == (False, False)
    journal.undo_act(log, journal.acts(log, kai.id)[0].act_id)
    assert (resting.ways(log, kai.id).sound, resting.ways(log, kai.id).vibration) == (False, True)


@pytest.mark.parametrize("seconds", [0, -5, 14, 901])
def test_a_rest_that_cant_be_is_told(log, kai, squat, seconds):
    with pytest.raises(BadInputError):
        resting.rest_for(log, kai.id, squat.id, seconds)
    assert resting.ways(log, kai.id).own == ()


NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


@pytest.mark.parametrize(
    ("minutes", "wanted"),
    [
        ([], None),
        ([0], None),
        ([0, 3, 6, 9], 11),
        ([0, 3, 6, 180, 183, 186], 14),
        ([0, 0.1, 0.2, 0.3], None),
        ([0, 40], 42),
    ],
    ids=["none", "one touch", "a set each three minutes", "lunch in between", "logged in one go", "two far apart"],
)
def test_minutes_from_touches(minutes, wanted):
    moments = [NOON + timedelta(minutes=each) for each in minutes]
    assert minutes_of(reversed(moments), NOON.date()) == wanted


def test_touches_of_another_day_say_nothing():
    assert minutes_of([NOON + timedelta(days=9), NOON + timedelta(days=9, minutes=9)], NOON.date()) is None


def test_what_was_typed_wins_and_stays_and_the_week_counts_the_touched_minutes_till_then(log, kai, squat):
    rows = [log_set.log_set(log, kai.id, this_day(), NewSet(squat.id, kg(60), 5)) for _ in range(3)]
    with log.act("moments", kai.id) as act:
        for number, row in enumerate(rows):
            act.session.get_one(LiftedSet, row.id).logged_at = row.logged_at - timedelta(minutes=3 * (2 - number))
    session = rows[0].session_id
    plan = today.day_plan(log, kai.id, this_day())
    assert plan.minutes == 8
    session_said.rate_session(log, session, kai.id, rating=5, minutes=None, note="")
    report = training_load.load_report(log, kai.id, this_day())
    assert report.unrated == ()
    assert report.weeks[-1].week.minutes == 8
    session_said.rate_session(log, session, kai.id, rating=5, minutes=35, note="")
    log_set.log_set(log, kai.id, this_day(), NewSet(squat.id, kg(60), 5))
    assert today.day_plan(log, kai.id, this_day()).minutes == 35
    assert training_load.load_report(log, kai.id, this_day()).weeks[-1].week.minutes == 35
