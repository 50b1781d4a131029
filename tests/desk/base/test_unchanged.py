"""What is kept of a log is true after every act, whoever did it, and is read once between two acts."""

from __future__ import annotations

import gc
import weakref
from contextlib import closing
from datetime import date
from decimal import Decimal

from tracker.desk.base.cached import cached_until_write, page_snapshot
from tracker.desk.base.opening import open_log
from tracker.desk.day import dismissed_cautions as seen
from tracker.desk.day import log_set, today
from tracker.desk.files import deletion
from tracker.desk.history import journal
from tracker.desk.people import people, places
from tracker.log.sets import NewSet
from tracker.units import Mass

DAY = date(2026, 3, 2)


def test_a_day_is_read_once_between_two_acts_and_never_told_from_before_one(log):
    ana = people.add_member(log, "Ana")
    squat = people.add_lift(log, "back squat", "barbell")
    empty = today.day_plan(log, ana.id, DAY)
    assert today.day_plan(log, ana.id, DAY) is empty
    log_set.log_set(log, ana.id, DAY, NewSet(squat.id, Mass(Decimal(60), "kg"), 5))
    filled = today.day_plan(log, ana.id, DAY)
    assert (len(empty.sets), len(filled.sets)) == (0, 1)
    journal.undo_act(log, journal.acts(log, ana.id)[0].act_id)
    assert today.day_plan(log, ana.id, DAY).sets == ()
    assert [act.undone for act in journal.acts(log, ana.id) if "60" in act.words] == [False, True]


def test_what_another_process_wrote_is_seen(fresh):
    address = fresh()
    with closing(open_log(address)) as here, closing(open_log(address)) as there:
        ana = people.add_member(here, "Ana")
        before = journal.acts(here, ana.id)
        people.add_member(there, "Bo")
        squat = people.add_lift(there, "back squat", "barbell")
        log_set.log_set(there, ana.id, DAY, NewSet(squat.id, Mass(Decimal(60), "kg"), 5))
        assert len(journal.acts(here, ana.id)) == len(before) + 1


def test_a_day_that_is_kept_serves_a_log_that_was_closed_and_opened_again(fresh):
    address = fresh()
    with closing(open_log(address)) as log:
        ana = people.add_member(log, "Ana")
        people.add_lift(log, "back squat", "barbell")
        before = today.day_plan(log, ana.id, DAY)
    gc.collect()
    closed = weakref.ref(log)
    del log
    gc.collect()
    assert closed() is None, "what is kept holds the log"
    with closing(open_log(address)) as again:
        assert today.day_plan(again, ana.id, DAY) is before


def test_two_members_two_days_and_two_choices_are_kept_apart(log):
    asked = []

    @cached_until_write
    def read(_log, member, *, prefer=None):
        asked.append((member, dict(prefer or {})))
        return len(asked)

    people.add_member(log, "Ana")
    prefer = {"squat": "tested"}
    assert [read(log, "a"), read(log, "b"), read(log, "a")] == [1, 2, 1]
    first = read(log, "a", prefer=prefer)
    prefer["squat"] = "estimated"  # the page changes its own mapping
    assert (first, read(log, "a", prefer=prefer), read(log, "a", prefer={"squat": "tested"})) == (3, 4, 3)


def test_an_empty_log_keeps_nothing(log):
    asked = []

    @cached_until_write
    def read(_log):
        asked.append(1)
        return len(asked)

    assert [read(log), read(log)] == [1, 2]


def test_within_one_moment_what_one_writes_oneself_is_seen_and_what_another_writes_is_seen_after_it(fresh):
    address = fresh()
    with closing(open_log(address)) as here, closing(open_log(address)) as there:
        people.add_member(here, "Ana")
        with page_snapshot():
            assert len(people.members(here)) == 1
            people.add_member(there, "Bo")
            assert [each.name for each in people.members(here)] == ["Ana"]
            people.add_member(here, "Cyr")
            assert [each.name for each in people.members(here)] == ["Ana", "Bo", "Cyr"]
        with page_snapshot():
            assert len(people.members(here)) == 3


def test_the_log_is_asked_once_in_one_moment_whether_it_was_written_to(log, monkeypatch):
    ana, asked = people.add_member(log, "Ana"), []
    reading = type(log).reading
    today.day_plan(log, ana.id, DAY), people.members(log), places.places(log)
    monkeypatch.setattr(type(log), "reading", lambda self: (asked.append(1), reading(self))[1])
    with page_snapshot():
        today.day_plan(log, ana.id, DAY), people.members(log), places.places(log)
    assert len(asked) == 1


def test_nothing_kept_tells_of_a_member_who_was_deleted(log):
    bo = people.add_member(log, "Bo")
    people.add_member(log, "Ana")  # the newest act is about another one
    with page_snapshot():
        assert len(people.members(log)) == 2
        deletion.delete_member(log, bo.id, "Bo")
        assert [each.name for each in people.members(log)] == ["Ana"]


def test_cautions_put_away_and_got_back_are_seen_at_once(log):
    ana = people.add_member(log, "Ana")
    assert seen.put_away_on(log, ana.id, DAY) == frozenset()
    seen.put_away(log, ana.id, ["alone"], DAY)
    assert seen.put_away_on(log, ana.id, DAY) == {"alone"}
    seen.show_again(log, ana.id, DAY)
    assert seen.put_away_on(log, ana.id, DAY) == frozenset()
