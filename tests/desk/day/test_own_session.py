"""A day without a sheet: begun from a former session, touched off set by set, with the loads lifted last."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.desk.doing import did, somebody
from tests.loads import kg
from tracker.conditioning.ladder import Steady
from tracker.conditioning.pieces import Piece, Task
from tracker.desk.coach import class_sheet
from tracker.desk.day import after, log_set, own_session, today
from tracker.desk.history import journal
from tracker.desk.maxes import trend
from tracker.desk.people import people
from tracker.desk.pieces import conditioning
from tracker.desk.pieces.piece_entry import Said
from tracker.errors import BadInputError
from tracker.log import waves as log_waves
from tracker.log.records import LiftRecord, MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.waves import NewPlannedSet, NewStep


@pytest.fixture
def noa(log: Log) -> MemberRecord:
    return somebody(log, "Noa")


@pytest.fixture
def lifts(log: Log, noa: MemberRecord) -> tuple[LiftRecord, LiftRecord]:
    return people.add_lift(log, "back squat", "barbell"), people.add_lift(log, "bench press", "barbell")


def asked(log: Log, member: MemberRecord) -> list[tuple[str, int, str]]:
    plan = today.day_plan(log, member.id, this_day())
    return [(line.lift.name, line.reps, str(line.made.load) if line.made else "") for line in plan.lines]


def test_last_weeks_session_is_laid_out_and_touched_off_to_the_end(log, noa, lifts):
    squat, bench = lifts
    for load, reps, lift in ((40, 5, squat), (60, 5, squat), (60, 5, squat), (50, 8, bench)):
        row = did(log, noa, lift, 7, load, reps, kind="ramp" if load == 40 else "work")
    (source,) = own_session.sources(log, noa.id, this_day())
    day = this_day() - timedelta(days=7)
    assert (source.title, source.said) == (
        f"As {day:%a} {day.day} {day:%b}", "back squat, barbell and bench press, barbell",
    )  # fmt: skip
    begun = own_session.begin(log, noa.id, row.session_id, this_day())
    assert own_session.words(begun) == f"{source.title}: 3 sets laid out"
    assert asked(log, noa) == [("back squat", 5, "60 kg"), ("back squat", 5, "60 kg"), ("bench press", 8, "50 kg")]
    for _ in range(3):
        line = today.day_plan(log, noa.id, this_day()).next_line
        assert line is not None
        assert line.made is not None
        log_set.log_set(log, noa.id, this_day(), NewSet(
            line.lift.id, line.made.load, line.reps, planned_set_id=line.planned.id, planned_round=line.number,
            member_step_id=line.step_id,
        ))  # fmt: skip
    plan = today.day_plan(log, noa.id, this_day())
    assert plan.whole
    assert plan.step is not None
    assert plan.step.state == "done"


def test_each_set_has_the_newest_load_that_was_made_for_so_many(log, noa, lifts):
    squat, _ = lifts
    row = did(log, noa, squat, 14, 60, 5)
    did(log, noa, squat, 14, 70, 5)
    did(log, noa, squat, 5, 62.5, 5)
    did(log, noa, squat, 5, 72.5, 6)
    did(log, noa, squat, 3, 90, 2)  # of fewer repetitions: no load for five
    did(log, noa, squat, 2, 80, 5, outcome="missed")  # not made
    own_session.begin(log, noa.id, row.session_id, this_day())
    assert asked(log, noa) == [("back squat", 5, "62.5 kg"), ("back squat", 5, "72.5 kg")]


def test_a_session_is_saved_under_a_name_offered_first_renamed_and_forgotten(log, noa, lifts):
    squat, bench = lifts
    old = did(log, noa, squat, 40, 60, 5)
    for days in range(1, 9):
        did(log, noa, bench, days, 50, 5)
    assert own_session.save_as(log, noa.id, old.session_id, "  Leg  day ") == "Leg day"
    first = own_session.sources(log, noa.id, this_day())[0]
    assert (first.name, first.title, first.session_id) == ("Leg day", "Leg day", old.session_id)
    assert len(own_session.sources(log, noa.id, this_day())) == 1 + own_session.RECENT
    newer = did(log, noa, squat, 1, 62.5, 5)
    own_session.save_as(log, noa.id, newer.session_id, "leg day")
    saved = [each for each in own_session.sources(log, noa.id, this_day()) if each.name]
    assert [(each.name, each.session_id) for each in saved] == [("leg day", newer.session_id)]
    own_session.forget_saved(log, noa.id, "leg day")
    assert not [each for each in own_session.sources(log, noa.id, this_day()) if each.name]
    act = next(each for each in journal.acts(log, noa.id) if each.words.startswith("no longer keeps"))
    journal.undo_act(log, act.act_id)
    assert [each.name for each in own_session.sources(log, noa.id, this_day()) if each.name] == ["leg day"]


def test_the_piece_of_that_day_comes_along(log, noa, lifts):
    squat, _ = lifts
    row = did(log, noa, squat, 3, 60, 5)
    piece = conditioning.add_piece(log, Piece("Quay", "for time", (Task("burpee", Steady(20)),), rounds=1))
    conditioning.log_score(log, noa.id, piece.id, row.day, Said("2:10"))
    own_session.begin(log, noa.id, row.session_id, this_day())
    plan = today.day_plan(log, noa.id, this_day())
    assert [each.piece.title for each in plan.open_pieces] == ["Quay"]


def test_what_was_left_of_ones_own_yesterday_is_in_nobodys_way(log, noa, lifts):
    squat, _ = lifts
    row = did(log, noa, squat, 3, 60, 5)
    yesterday = this_day() - timedelta(days=1)
    own_session.begin(log, noa.id, row.session_id, yesterday)
    assert today.day_plan(log, noa.id, yesterday).step is not None
    plan = today.day_plan(log, noa.id, this_day())
    assert (plan.step, plan.missed) == (None, ())
    own_session.begin(log, noa.id, row.session_id, this_day())
    assert today.day_plan(log, noa.id, this_day()).step is not None
    assert len([step for step in today.steps(log, noa.id) if step.own]) == 1


def test_it_is_undone_as_any_act(log, noa, lifts):
    squat, _ = lifts
    row = did(log, noa, squat, 3, 60, 5)
    own_session.begin(log, noa.id, row.session_id, this_day())
    act = journal.acts(log, noa.id)[0]
    assert act.words.startswith("began a session: As ")
    journal.undo_act(log, act.act_id)
    assert today.day_plan(log, noa.id, this_day()).step is None


def test_ones_own_session_is_no_class_no_wave_that_ends_and_no_span_of_the_trend(log, noa, lifts):
    squat, _ = lifts
    row = did(log, noa, squat, 3, 60, 5)
    own_session.begin(log, noa.id, row.session_id, this_day())
    (step,) = today.steps(log, noa.id)
    today.finish(log, noa.id, step, this_day())
    assert class_sheet.sessions(log) == ()
    assert class_sheet.likely_class(log, this_day())[0] is None
    assert after.wave_ends(log, noa, this_day()) == ()
    assert trend.waves(log, noa.id) == ()


def test_a_wave_that_is_only_called_nearly_so_is_a_wave(log, noa, lifts):
    with log.act("a wave", noa.id) as act:
        step = NewStep("Legs", 0, [NewPlannedSet(lifts[0].id, 1, 5)])
        wave = log_waves.add_wave(act, "own session, legs", [step], private_to=noa.id)
        log_waves.start_wave(act, noa.id, wave, this_day())
    assert [each.own for each in today.steps(log, noa.id)] == [False]
    assert [name for name, *_ in trend.waves(log, noa.id)] == ["own session, legs"]


@pytest.mark.parametrize("wrong", ["another's session", "gone", "nothing in it", "no name"])
def test_what_cant_be_is_told(log, noa, lifts, wrong):
    squat, _ = lifts
    row = did(log, noa, squat, 3, 60, 5)
    if wrong == "no name":
        with pytest.raises(BadInputError):
            own_session.save_as(log, noa.id, row.session_id, "   ")
        return
    other = people.add_member(log, "Ola")
    whose, session_id = (other.id, row.session_id) if wrong == "another's session" else (noa.id, row.session_id)
    if wrong == "nothing in it":
        log_set.remove_set(log, row.id, today=this_day())
    with pytest.raises(BadInputError):
        own_session.begin(log, whose, "none" if wrong == "gone" else session_id, this_day())
    assert today.day_plan(log, whose, this_day()).step is None


def test_a_body_lift_comes_with_what_was_added(log, noa):
    pull = people.add_lift(log, "pull-up", "body")
    people.weigh(log, noa.id, this_day() - timedelta(days=9), kg(70))
    row = did(log, noa, pull, 3, 0, 8, rir=Decimal(1))
    did(log, noa, pull, 3, 10, 5)
    own_session.begin(log, noa.id, row.session_id, this_day())
    assert asked(log, noa) == [("pull-up", 8, "0 kg"), ("pull-up", 5, "10 kg")]
