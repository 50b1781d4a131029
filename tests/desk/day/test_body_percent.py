"""A percentage of a lift of the body is of what the sheet says; where it says nothing, it is asked and remembered for the lift."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest

from tests.undoing import undo_newest
from tracker.desk.day import body_percent, line_words, today, weights
from tracker.desk.day.today import DayPlan
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError
from tracker.log.records import MemberRecord
from tracker.log.unit_of_work import Log
from tracker.units import Mass

DAY = date(2026, 3, 2)
WEEK = timedelta(days=7)


def kg(amount: int | str) -> Mass:
    return Mass(Decimal(amount), "kg")


def puller(log: Log, sheet: str, *, body: int | None = 74, lift: str = "pull-up", added: int = 20) -> MemberRecord:
    """A member with a tested 3RM of so much, and a sheet of today."""
    member = people.add_member(log, "Wren")
    pull = people.add_lift(log, lift, "body")
    if body is not None:
        people.weigh(log, member.id, DAY - WEEK, kg(body))
    rep_maxes.add_rep_max(log, member.id, pull.id, DAY - WEEK, 3, kg(added), tested=True)
    sheets.take_sheet(log, [member.id], sheet, DAY)
    return member


def plan_of(log: Log, member: MemberRecord) -> DayPlan:
    return today.day_plan(log, member.id, DAY)


@pytest.mark.parametrize(
    "words",
    [
        "Pull-up 4x3 @ 80 % of the 3RM, of the added load only",
        "Pull-up\n4x3 at 80 % of your 3RM added load",
        "Pull-up 4x3 @ 80 % of 3RM (added weight)",
        "Monday\nPercentages of pull-ups are of the added weight.\nPull-up 4x3 @ 80 % of 3RM",
    ],
)
def test_a_percentage_of_the_added_load_leaves_the_body_out(log: Log, words: str):
    (line, *_) = plan_of(log, puller(log, words)).lines
    assert line.made is not None
    assert str(line.made.load) == "16 kg"  # 80 % of 20 kg
    assert line_words.part_of(line, DAY).startswith(
        "80 % of your 3RM, the added load alone, as the sheet says, = body + 16 kg."
    )
    assert round(line.percent or 0) == 80


def test_the_added_load_asks_for_no_body_mass(log: Log):
    plan = plan_of(log, puller(log, "Pull-up 4x3 @ 80 % of 3RM, of the added load", body=None))
    assert str(plan.lines[0].made and plan.lines[0].made.load) == "16 kg"


def test_a_percentage_of_body_and_load_says_with_which_body_mass(log: Log):
    (line, *_) = plan_of(log, puller(log, "Pull-up 4x3 @ 80 % of 3RM, percentages of body + load")).lines
    assert line.made is not None
    assert 1 <= line.made.load.amount <= Decimal("1.5")  # 80 % of 94 kg are 75.2 kg, less the body's 74
    words = line_words.part_of(line, DAY)
    assert "body and load together, as the sheet says," in words
    assert "With a body mass of 74 kg, 7 days ago." in words


def test_where_nothing_says_it_no_load_stands_there_and_both_are_offered(log: Log):
    member = puller(log, "Pull-up 4x3 @ 80 % of 3RM")
    (line, *_) = plan_of(log, member).lines
    assert line.made is None
    assert line_words.asked(line) == "3 at 80 % of the 3RM"
    assert "The sheet leaves open what 80 % is of" in " ".join(line.notes)
    assert [(of, str(made.load)) for of, made in line.body_ways if made] == [("added", "16 kg"), ("whole", "1 kg")]

    body_percent.say(log, member.id, line.lift.id, "added", DAY)
    lines = plan_of(log, member).lines
    assert {str(each.made.load) for each in lines if each.made} == {"16 kg"}
    assert "the added load alone, as you said," in line_words.part_of(lines[0], DAY)
    assert lines[0].body_ways == ()
    # It is remembered for the lift, and the newest word holds; undo takes it back.
    body_percent.say(log, member.id, line.lift.id, "whole", DAY)
    assert str(plan_of(log, member).lines[0].made.load) == "1 kg"
    undo_newest(log, member.id)
    undo_newest(log, member.id)
    assert plan_of(log, member).lines[0].made is None


def test_without_a_body_mass_the_added_load_is_offered_alone(log: Log):
    (line, *_) = plan_of(log, puller(log, "Dip 4x3 @ 80 % of 3RM", body=None, lift="dip")).lines
    assert [(of, made and str(made.load)) for of, made in line.body_ways] == [("added", "16 kg"), ("whole", None)]


def test_of_a_max_without_a_load_nothing_is_asked(log: Log):
    (line, *_) = plan_of(log, puller(log, "Pull-up 4x3 @ 90 % of 3RM", added=0)).lines
    assert line.body_ways == ()
    # 90 % of the body alone is less than the body
    assert line.made is not None
    assert line.made.load.amount < 0


def test_what_was_said_holds_on_the_page_of_any_percentages(log: Log):
    member = puller(log, "Pull-up 4x3 @ 80 % of 3RM")
    lift = plan_of(log, member).lines[0].lift
    reference = weights.options(log, member, lift, 3, DAY)[0]
    body_percent.say(log, member.id, lift.id, "added", DAY)
    (line,) = weights.weights(log, member, lift, reference, "1x3@80", DAY)
    assert line.made is not None
    assert str(line.made.load) == "16 kg"


def test_neither_of_the_two_is_refused(log: Log):
    member = puller(log, "Pull-up 4x3 @ 80 % of 3RM")
    with pytest.raises(BadInputError):
        body_percent.say(log, member.id, plan_of(log, member).lines[0].lift.id, "", DAY)
