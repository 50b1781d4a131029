"""Acts at the same time: members don't wait for each other, no update is lost, and the history is in the order of commits."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import date
from decimal import Decimal
from threading import Barrier, Event, Thread

import pytest
from sqlalchemy import text

from tests.day import this_day
from tests.readings import newest
from tests.stores import address_of
from tests.undoing import newest_act, undo_newest
from tracker.desk.base.opening import open_log
from tracker.desk.day import log_set
from tracker.desk.people import people
from tracker.log import server
from tracker.log.faults import LogBusyError
from tracker.log.models import Lift, LiftedSet, Member
from tracker.log.sets import NewSet, sets_of
from tracker.log.unit_of_work import MovedMeanwhileError
from tracker.units import Mass

DAY = date(2026, 3, 2)
LONG = 60


def of(lift, load):
    return NewSet(lift.id, Mass(Decimal(load), "kg"), 5)


@pytest.fixture
def held(log):
    """Begin an act in a thread of its own and keep it open until `let_go()`: `held(member_id, own=True)`."""
    go, threads = Event(), []

    def hold(member_id=None, *, own=False):
        inside = Event()

        def act():
            with log.act("takes its time", member_id, own=own) as unit:
                if member_id:
                    unit.session.get_one(Member, member_id).no_heavy = True
                    unit.session.flush()
                inside.set()
                assert go.wait(LONG)

        threads.append(Thread(target=act))
        threads[-1].start()
        assert inside.wait(LONG)

    def let_go():
        go.set()
        for thread in threads:
            thread.join(LONG)
            assert not thread.is_alive()

    hold.let_go = let_go
    yield hold
    let_go()


@pytest.fixture
def impatient(log, monkeypatch):
    """The same log for somebody who waits for a tenth of a second only."""
    monkeypatch.setattr(server, "WAIT_S", 0.1)
    opened = open_log(address_of(log))
    yield opened
    opened.close()


def test_a_member_does_not_wait_for_another(impatient, held, ana, ben, squat):
    held(ana.id, own=True)
    assert log_set.log_set(impatient, ben.id, DAY, of(squat, 80)).load.amount == 80


def test_two_acts_of_one_member_wait_for_each_other(impatient, held, ana, squat):
    held(ana.id, own=True)
    with pytest.raises(LogBusyError, match="busy"):
        log_set.log_set(impatient, ana.id, DAY, of(squat, 80))
    held.let_go()
    assert log_set.log_set(impatient, ana.id, DAY, of(squat, 80)).load.amount == 80


def test_what_belongs_to_all_is_changed_by_one_act_at_a_time(impatient, held, ana, squat):
    held()
    with pytest.raises(LogBusyError):
        people.add_lift(impatient, "bench press", "barbell")
    with pytest.raises(LogBusyError):
        log_set.log_set(impatient, ana.id, DAY, of(squat, 80))


def test_reading_waits_for_nobody(impatient, held, ana):
    held()
    assert [each.name for each in people.members(impatient)] == ["Ana"]


def test_an_act_of_one_member_may_not_touch_what_belongs_to_all(log, ana, squat):
    with pytest.raises(RuntimeError, match="lifts, which belong to all"), log.act("too far", ana.id, own=True) as act:
        act.session.get_one(Lift, squat.id).spotted = False
    assert people.lifts(log)[0].spotted


def test_a_set_that_was_moved_to_another_member_meanwhile_is_not_changed(log, ana, ben, squat):
    row = log_set.log_set(log, ana.id, DAY, of(squat, 80))
    log_set.move_set(log, row.id, ben.id, today=this_day())
    with pytest.raises(MovedMeanwhileError, match="another member"), log.act("mends", ana.id, own=True) as act:
        act.session.get_one(LiftedSet, row.id).reps = 3
    with log.reading() as session:
        assert [each.reps for each in sets_of(session, ben.id)] == [5]


def test_whoever_began_first_and_ends_last_stands_last_in_the_history(log, held, ana, ben, squat):
    held(ana.id, own=True)
    log_set.log_set(log, ben.id, DAY, of(squat, 80))
    between = newest(log)
    held.let_go()
    assert newest(log) > between
    with log.reading() as session:
        words = session.execute(text("SELECT act FROM changes ORDER BY number DESC LIMIT 1")).scalar()
    assert words == "takes its time"


def test_the_history_is_numbered_in_the_order_in_which_it_can_be_seen(log, squat):
    members = [people.add_member(log, f"Member {number}") for number in range(8)]
    seen, done = [], Event()

    def look():
        while not done.is_set():
            seen.append(newest(log))

    def train(member):
        for load in range(40, 50):
            log_set.log_set(log, member.id, DAY, of(squat, load), sure=True)

    watcher = Thread(target=look)
    watcher.start()
    with ThreadPoolExecutor(8) as pool:
        list(pool.map(train, members))
    done.set()
    watcher.join(LONG)
    with log.reading() as session:
        assert {len(sets_of(session, member.id)) for member in members} == {10}
        rows = (
            session.execute(text("SELECT pg_xact_commit_timestamp(xmin) FROM changes ORDER BY number")).scalars().all()
        )
    assert len(rows) > 80
    assert rows == sorted(rows)
    assert seen == sorted(seen)


def test_no_update_is_lost(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, of(squat, 80))
    other = open_log(address_of(log))
    start = Barrier(4)

    def add(opened):
        start.wait(LONG)
        for _ in range(10):
            with opened.act("adds one", ana.id, own=True) as act:
                act.session.get_one(LiftedSet, row.id).reps += 1

    with ThreadPoolExecutor(4) as pool:
        list(pool.map(add, (log, log, other, other)))
    other.close()
    with log.reading() as session:
        assert sets_of(session, ana.id)[0].reps == 45
    for _ in range(40):
        assert undo_newest(log, ana.id) == "adds one"
    assert "logged" in newest_act(log, ana.id).words


def test_the_same_tap_on_two_servers_at_once_is_one_set(log, ana, squat):
    other = open_log(address_of(log))
    for number in range(6):
        start = Barrier(2)

        def tap(opened, number=number, start=start):
            start.wait(LONG)
            return log_set.log_set(opened, ana.id, DAY, of(squat, 80), token=f"tap-{number}")

        with ThreadPoolExecutor(2) as pool:
            one, two = pool.map(tap, (log, other))
        assert one == two
    other.close()
    with log.reading() as session:
        assert len(sets_of(session, ana.id)) == 6


def test_an_act_that_fails_lets_the_others_in(log, ana, squat):
    with pytest.raises(ZeroDivisionError), log.act("breaks"):
        raise ZeroDivisionError
    assert log_set.log_set(log, ana.id, DAY, of(squat, 80)).reps == 5
