"""How a member is before they train: kept, theirs alone, shared by their word, and a sign on the coach's load sheet.

The direction of the scale (5 is best) is that of McLean et al. 2010, Int J Sports Physiol Perform 5:367-383, as printed in a
secondary source; what a coach is shown as low is our own choice.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from tests.day import this_day
from tests.undoing import undo_newest
from tracker.desk.coach import class_print, class_sheet
from tracker.desk.day import readiness, sore, told
from tracker.desk.files import export
from tracker.desk.people import accounts, people
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError
from tracker.log.unit_of_work import Log
from tracker.log.who import RefusedError, Who, acting

SHEET = "Session: Test day\nBack squat, barbell: 3x5 @ RPE 7\n"


@pytest.fixture
def ana(log: Log):
    return people.add_member(log, "Ana")


def answers(log: Log, member_id: str) -> dict[str, int]:
    found = readiness.readiness(log, member_id, this_day()).today
    return dict(found.answers) if found else {}


def test_each_touch_is_kept_the_newest_counts_and_undo_brings_back_the_former(log: Log, ana):
    readiness.say(log, ana.id, this_day(), "sleep", 2)
    readiness.say(log, ana.id, this_day(), "mood", 4)
    readiness.say(log, ana.id, this_day(), "sleep", 3)
    assert answers(log, ana.id) == {"sleep": 3, "mood": 4}
    undo_newest(log, ana.id)
    assert answers(log, ana.id) == {"sleep": 2, "mood": 4}


@pytest.mark.parametrize(("scale", "answer"), [("sleep", 0), ("sleep", 6), ("weight", 3)])
def test_what_is_not_asked_is_refused_and_nothing_is_kept(log: Log, ana, scale, answer):
    with pytest.raises(BadInputError):
        readiness.say(log, ana.id, this_day(), scale, answer)
    assert answers(log, ana.id) == {}


def test_nobody_else_reads_it_until_it_is_shared_and_no_more_once_it_is_not(log: Log, ana):
    coach = Who("coach", people.add_member(log, "Coach").id)
    accounts.share(log, ana.id, True)
    readiness.say(log, ana.id, this_day(), "soreness", 1)
    with acting(coach):
        assert readiness.readiness(log, ana.id, this_day()).today is None
        assert told.told(log, ana.id, this_day()) == ()
    readiness.share(log, ana.id, this_day(), shared=True)
    with acting(coach):
        assert told.told(log, ana.id, this_day()) == ("Soreness 1 of 5.",)
        assert told.told(log, ana.id, this_day() + timedelta(days=1)) == ()  # of that day alone
    readiness.say(log, ana.id, this_day(), "mood", 5)
    with acting(coach):
        assert told.told(log, ana.id, this_day()) == ("Soreness 1, mood 5 of 5.",)
    readiness.share(log, ana.id, this_day(), shared=False)
    with acting(coach):
        assert told.told(log, ana.id, this_day()) == ()


def test_who_shares_no_log_is_read_by_no_coach(log: Log, ana):
    readiness.share(log, ana.id, this_day(), shared=True)
    readiness.say(log, ana.id, this_day(), "sleep", 1)
    with acting(Who("coach", people.add_member(log, "Coach").id)), pytest.raises(RefusedError):
        told.told(log, ana.id, this_day())


def test_less_than_usual_is_said_once_there_is_a_usual(log: Log, ana):
    for days in range(1, 8):
        readiness.say(log, ana.id, this_day() - timedelta(days=days), "sleep", 4)
    readiness.say(log, ana.id, this_day(), "sleep", 4)
    assert readiness.readiness(log, ana.id, this_day()).said == ""
    readiness.say(log, ana.id, this_day(), "sleep", 3)
    assert "Less than your usual 4.0 of 5" in readiness.readiness(log, ana.id, this_day()).said


def test_on_the_load_sheet_it_is_a_sign_in_print_and_words_on_the_coachs_screen(log: Log, ana):
    bo = people.add_member(log, "Bo")
    taken = sheets.take_sheet(log, [ana.id, bo.id], SHEET, this_day())
    (step,) = class_sheet.sessions(log)
    readiness.share(log, ana.id, this_day(), shared=True)
    readiness.say(log, ana.id, this_day(), "sleep", 4)
    sheet = class_sheet.class_sheet(log, step.id, [ana.id, bo.id], this_day())
    plain = class_print.print_sheet(sheet)
    assert not class_print.speaks_first(sheet.rows[0])
    readiness.say(log, ana.id, this_day(), "sleep", 1)
    sheet = class_sheet.class_sheet(log, step.id, [ana.id, bo.id], this_day())
    first, other = sheet.rows
    assert first.told.said == ("Sleep 1 of 5.",)
    assert class_print.speaks_first(first)
    assert not class_print.speaks_first(other)
    printed = class_print.print_sheet(sheet)
    assert "Sleep 1" not in printed
    assert printed.count(class_print.SPEAK_FIRST) > plain.count(class_print.SPEAK_FIRST)
    assert taken


def test_a_limit_is_told_by_its_own_touch_and_ends_with_it(log: Log, ana):
    day = this_day()
    sore.begin(log, ana.id, "knee", day - timedelta(days=2))
    sore.begin(log, ana.id, "shoulder", day)
    assert told.told(log, ana.id, day) == ()
    told.tell_limit(log, ana.id, "knee", day - timedelta(days=2), day)
    (words,) = told.told(log, ana.id, day)
    assert words.startswith("Sore: knee since")
    sore.end(log, ana.id, "knee", day)
    assert told.told(log, ana.id, day) == ()


def test_it_is_in_no_table_that_is_exported(log: Log, ana, tmp_path):
    readiness.say(log, ana.id, this_day(), "stress", 1)
    export.export(log, tmp_path / "out")
    assert "stress" not in (tmp_path / "out" / "changes.csv").read_text(encoding="utf-8")
