"""What the log says that it keeps about a member: counted whole, each with who sees it."""

from __future__ import annotations

import pytest

from tests.day import this_day
from tests.loads import kg
from tracker.desk.day import log_set
from tracker.desk.files import deletion
from tracker.desk.people import accounts, people, your_data
from tracker.errors import BadInputError
from tracker.log.columns import Base
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.log.who import RefusedError, Who, acting


def counts(log: Log, member_id: str) -> dict[str, int]:
    return {part.name: part.records for part in your_data.of_member(log, member_id).parts}


def test_a_new_member_is_a_name_and_its_history(log: Log):
    ana = people.add_member(log, "Ana")
    found = counts(log, ana.id)
    assert found["Who you are"] == 1
    assert found["Training"] == found["Maxes"] == found["Pieces"] == found["Body mass"] == 0
    assert found["History"] >= 1


def test_what_is_logged_is_counted_and_the_history_grows_with_it(log: Log):
    ana, bo = people.add_member(log, "Ana"), people.add_member(log, "Bo")
    lift = people.add_lift(log, "Back squat", "barbell")
    before, other = counts(log, ana.id), counts(log, bo.id)
    log_set.log_set(log, ana.id, this_day(), NewSet(lift.id, kg("80"), 5))
    people.weigh(log, ana.id, this_day(), kg("70"))
    after = counts(log, ana.id)
    assert after["Training"] == before["Training"] + 2  # the set and its session
    assert after["Body mass"] == 1
    assert after["History"] > before["History"]
    assert counts(log, bo.id) == other


def test_every_record_that_would_be_deleted_is_counted(log: Log, gym_world):
    gym_world.into(log)
    for member in people.members(log):
        found = your_data.of_member(log, member.id)
        assert sum(part.records for part in found.parts) >= sum(deletion.what_goes(log, member.id).values())


def test_the_tables_named_are_tables_of_the_log():
    named = {table for tables, _ in your_data.PARTS.values() for table in tables}
    assert named <= Base.metadata.tables.keys()


def test_who_sees_it_follows_the_members_own_switch(log: Log):
    ana = people.add_member(log, "Ana")
    assert your_data.of_member(log, ana.id).seen == "household"
    with acting(Who("member", ana.id)):
        assert your_data.of_member(log, ana.id).seen == "alone"
        assert your_data.of_member(log, ana.id).where == ""  # a member of a gym is told no path of the server
        accounts.share(log, ana.id, True)
        assert your_data.of_member(log, ana.id).seen == "coach"


def test_what_is_kept_about_another_is_told_to_nobody_else(log: Log):
    ana, bo = people.add_member(log, "Ana"), people.add_member(log, "Bo")
    accounts.share(log, bo.id, True)
    for person in (Who("member", ana.id), Who("coach", ana.id)):
        with acting(person), pytest.raises(RefusedError):
            your_data.of_member(log, bo.id)


def test_who_was_deleted_has_no_data(log: Log):
    ana = people.add_member(log, "Ana")
    people.add_member(log, "Bo")
    deletion.delete_member(log, ana.id, "Ana")
    with pytest.raises(BadInputError, match="not in the log any more"):
        your_data.of_member(log, ana.id)
