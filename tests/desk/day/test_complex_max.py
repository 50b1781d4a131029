"""Of which max a complex is a percentage is asked once where the sheet's is not known, and never guessed."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest

from tests.day import this_day
from tests.desk.doing import lift_named, somebody
from tests.loads import kg
from tests.pocket.posts import act, post
from tests.undoing import undo_newest
from tracker.desk.day import complex_max, line_words, today
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.log.unit_of_work import Log
from tracker.pocket.acts import take
from tracker.pocket.plan import plan_of

SHEET = "Clean + front squat + jerk 1+1+1 x 2 @ 70 % of clean and jerk"


@pytest.fixture
def cy(log: Log):
    return somebody(log, "Cy")


def has(log, member, name: str, load: int, reps: int = 1) -> None:
    lift = people.add_lift(log, name, "barbell")
    rep_maxes.add_rep_max(log, member.id, lift.id, this_day() - timedelta(days=7), reps, kg(load), tested=True)


def first(log, member):
    return today.day_plan(log, member.id, this_day()).lines[0]


def test_the_max_that_the_sheet_names_counts_where_it_is_known_and_nothing_is_asked(log, cy):
    has(log, cy, "clean and jerk", 100)
    has(log, cy, "clean", 110)
    sheets.take_sheet(log, [cy.id], SHEET, this_day())
    assert (str(first(log, cy).made.load), first(log, cy).max_ways) == ("70 kg", ())  # 70 % of 100 kg


def test_where_it_is_not_known_the_maxes_of_its_parts_are_offered_and_one_answer_is_kept(log, cy):
    has(log, cy, "clean", 110)
    has(log, cy, "jerk", 90)
    has(log, cy, "bench press", 80)
    has(log, cy, "front squat", 120, reps=3)  # a 3RM is no 1RM
    sheets.take_sheet(log, [cy.id], SHEET, this_day())
    line = first(log, cy)
    assert line.made is None
    assert [complex_max.label(*each) for each in line.max_ways] == ["Clean: 1RM 110 kg", "Jerk: 1RM 90 kg"]
    assert line.notes[-1].startswith("Of which of your maxes is it for clean + front squat + jerk?")
    complex_max.say(log, cy.id, line.lift.id, lift_named(log, "jerk").id, this_day())
    line = first(log, cy)
    assert (str(line.made.load), line.max_ways) == ("62.5 kg", ())  # 70 % of 90 kg is 63 kg
    assert "70 % of your 1RM of jerk, barbell" in line_words.part_of(line, this_day())
    undo_newest(log, cy.id)
    assert len(first(log, cy).max_ways) == 2


def test_the_phone_asks_the_same_and_its_answer_is_kept(log, cy):
    has(log, cy, "clean", 100)
    sheets.take_sheet(log, [cy.id], "Clean + front squat + jerk 1+1+1 x 2 @ 70 %", this_day())
    (ask,) = [each for each in plan_of(log, cy.id, this_day())["asks"] if each["key"].startswith("max of ")]
    assert [each["words"] for each in ask["answers"]] == ["Clean: 1RM 100 kg"]
    body = {"question": ask["key"], "says": ask["answers"][0]["says"]}
    (got,) = take(log, cy.id, post(act("answer", body)), datetime.now(UTC))
    assert (got.how, str(first(log, cy).made.load)) == ("done", "70 kg")


def test_with_no_max_of_any_part_it_says_so_and_asks_nothing(log, cy):
    sheets.take_sheet(log, [cy.id], SHEET, this_day())
    assert first(log, cy).max_ways == ()
    assert first(log, cy).notes[-1].startswith("No 1RM of clean and jerk")
