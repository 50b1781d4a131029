"""Another unit for one lift or one day: loads are made in it, sets are kept in it, and tomorrow all is as before."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest

from tests.day import this_day
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import line_words, log_set, today, unit_today
from tracker.desk.maxes import rep_maxes
from tracker.desk.maxes.words import in_unit_words, set_words
from tracker.desk.people import people, places
from tracker.desk.sheet import sheets
from tracker.errors import BadInputError
from tracker.log.records import MemberRecord
from tracker.log.sets import NewSet
from tracker.log.unit_of_work import Log
from tracker.units import Mass


@pytest.fixture
def agathe(log: Log) -> MemberRecord:
    place = places.add_place(log, "Harbour Gym", "kg")
    member = people.go_to_place(log, people.add_member(log, "Agathe").id, place.id)
    squat = people.add_lift(log, "back squat", "barbell")
    rep_maxes.add_rep_max(log, member.id, squat.id, this_day() - timedelta(days=7), 1, kg(110), tested=True)
    sheet = "Back squat 3x5 @ 70 % of 1RM\n\nFloor press, dumbbells 4x10 @ 15 kg"
    sheets.take_sheet(log, [member.id], sheet, this_day())
    return member


def lines(log: Log, member: MemberRecord):
    return today.day_plan(log, member.id, this_day()).lines


def test_all_of_a_day_in_pounds(log: Log, agathe: MemberRecord):
    unit_today.say(log, agathe.id, "lb", this_day())
    squat, *_, press = lines(log, agathe)
    # By hand: 77 kg are 169.8 lb, 170 with discs of 2.5 lb; 15 kg are 33 lb.
    assert line_words.asked(squat) == "5 × 170 lb (77 kg)"
    assert "lb a side" in squat.made.words
    assert line_words.asked(press) == "10 × 33 lb each (15 kg)"
    undo_newest(log, agathe.id)
    assert line_words.asked(lines(log, agathe)[0]).endswith("77.5 kg")


def test_one_lift_in_pounds_leaves_the_others(log: Log, agathe: MemberRecord):
    squat, *_, press = lines(log, agathe)
    unit_today.say(log, agathe.id, "lb", this_day(), lift_id=press.lift.id)
    again, *_, press = lines(log, agathe)
    assert again.made.load == squat.made.load
    assert press.made.load.unit == "lb"


def test_what_was_lifted_is_kept_as_stamped_and_the_next_sets_are_one_touch(log: Log, agathe: MemberRecord):
    press = lines(log, agathe)[-1]
    unit_today.say(log, agathe.id, "lb", this_day(), lift_id=press.lift.id)
    first = next(line for line in lines(log, agathe) if line.lift == press.lift)
    new = NewSet(
        press.lift.id, Mass(Decimal(35), "lb"), 10, planned_set_id=first.planned.id, planned_round=1, member_step_id=first.step_id
    )  # fmt: skip
    row = log_set.log_set(log, agathe.id, this_day(), new, sure=True)
    assert set_words(row) == "10 × 35 lb each"
    assert in_unit_words(row, "kg") == "about 16 kg each"
    second = next(line for line in lines(log, agathe) if line.lift == press.lift and line.open)
    assert str(second.change.done) == "35 lb"  # one touch goes on with it


def test_it_is_over_with_the_day_and_a_unit_that_is_none_is_refused(log: Log, agathe: MemberRecord):
    unit_today.say(log, agathe.id, "lb", this_day() - timedelta(days=1))
    assert {line.made.load.unit for line in lines(log, agathe) if line.made} == {"kg"}
    with pytest.raises(BadInputError):
        unit_today.say(log, agathe.id, "stone", this_day())  # type: ignore[arg-type]
