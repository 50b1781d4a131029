"""Two processes, two tabs, two taps: no set twice, none lost, no change overwritten unseen."""

from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest

from tests.day import this_day
from tests.faults.children import add_one_to_each, tap
from tests.faults.whole import faults_of
from tests.undoing import undo_newest
from tracker.desk.day import log_set, session_said
from tracker.desk.files import deletion
from tracker.desk.files.check import check_log
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.errors import TidemarkError
from tracker.log.sets import NewSet, one_set, sets_of
from tracker.units import Mass

DAY = date(2026, 1, 5)


def eighty(squat, load=80):
    return NewSet(squat.id, Mass(Decimal(load), "kg"), 5)


def load_of(log, set_id):
    with log.reading() as session:
        found = one_set(session, set_id)
    assert found is not None
    return found.load.amount


def test_two_processes_that_read_and_write_the_same_set_lose_nothing(log, ana, squat, child):
    row = log_set.log_set(log, ana.id, DAY, eighty(squat, 100))
    running = [child(add_one_to_each, log.url.database, row.id, 30) for _ in range(2)]
    for process in running:
        process.join()
        assert process.exitcode == 0
    assert load_of(log, row.id) == 160
    assert faults_of(Path(log.url.database)) == []


def test_a_button_hit_twice_in_two_processes_is_one_set(log, ana, squat, child):
    for token in ("first", "second", "third"):
        running = [child(tap, log.url.database, token, 3, ana.id, squat.id) for _ in range(2)]
        for process in running:
            process.join()
            assert process.exitcode == 0
    with log.reading() as session:
        assert len(sets_of(session, ana.id)) == 3
    assert faults_of(Path(log.url.database)) == []


def test_a_mend_of_values_that_changed_meanwhile_is_refused_with_both_versions(log, ana, squat):
    seen = log_set.log_set(log, ana.id, DAY, eighty(squat))
    log_set.mend_set(log, seen.id, eighty(squat, 85), seen=seen)  # the other tab
    with pytest.raises(TidemarkError) as refused:
        log_set.mend_set(log, seen.id, replace(eighty(squat), reps=6), seen=seen)
    assert "5 x 85 kg" in str(refused.value)
    assert "6 x 80 kg" in str(refused.value)
    assert load_of(log, seen.id) == 85
    with log.reading() as session:
        now = one_set(session, seen.id)
    assert log_set.mend_set(log, seen.id, replace(eighty(squat), reps=6), seen=now).reps == 6


def test_a_mend_of_a_set_that_was_removed_meanwhile_is_refused(log, ana, squat):
    seen = log_set.log_set(log, ana.id, DAY, eighty(squat))
    log_set.remove_set(log, seen.id, today=this_day())
    with pytest.raises(TidemarkError, match="not in the log any more"):
        log_set.mend_set(log, seen.id, eighty(squat, 85), seen=seen)


def test_a_mend_without_what_was_seen_still_keeps_the_former_state(log, ana, squat):
    row = log_set.log_set(log, ana.id, DAY, eighty(squat))
    log_set.mend_set(log, row.id, eighty(squat, 85))
    assert undo_newest(log, ana.id)
    assert load_of(log, row.id) == 80


def test_a_tab_whose_member_was_deleted_in_another_is_told_and_writes_nothing(log, ana, squat):
    deletion.delete_member(log, ana.id, "Ana")
    for act in (
        lambda: log_set.log_set(log, ana.id, DAY, eighty(squat)),
        lambda: people.weigh(log, ana.id, DAY, Mass(Decimal(70), "kg")),
        lambda: rep_maxes.add_rep_max(log, ana.id, squat.id, DAY, 3, Mass(Decimal(90), "kg"), tested=True),
        lambda: people.go_to_place(log, ana.id, None),
        lambda: session_said.rate_session(log, "gone", ana.id, rating=5, minutes=60, note=""),
        lambda: undo_newest(log, ana.id),
        lambda: deletion.delete_member(log, ana.id, "Ana"),
    ):
        with pytest.raises(TidemarkError) as refused:
            act()
        assert refused.value.what
    assert faults_of(Path(log.url.database)) == []
    assert check_log(log.url.database).counts["members"] == 0
