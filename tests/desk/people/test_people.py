"""Members, what they prefer, their body mass, and their lifts."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import func, select

from tests.day import this_day
from tests.loads import kg
from tests.taking_in import import_sets
from tests.undoing import undo_newest
from tracker.desk.coach.take_results import NEW, take_results
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.exchange.result import Result, ResultSet
from tracker.exchange.result_line import write_line
from tracker.log import members as log_members
from tracker.log.columns import now
from tracker.log.models import Change
from tracker.log.unit_of_work import Log
from tracker.units import Mass

DAY = date(2026, 3, 2)


def changes(log: Log) -> int:
    with log.reading() as session:
        return session.scalar(select(func.count()).select_from(Change)) or 0


def test_a_body_mass_is_dated_corrected_removed_and_brought_back(log, wren):
    people.weigh(log, wren.id, DAY, kg("65.1"))
    people.weigh(log, wren.id, DAY, kg("66"))
    assert people.body_masses(log, wren.id) == ((DAY, kg("66")),)
    people.unweigh(log, wren.id, DAY)
    assert people.body_masses(log, wren.id) == ()
    undo_newest(log, wren.id)
    assert people.body_masses(log, wren.id) == ((DAY, kg("66")),)


@pytest.mark.parametrize("amount", ["0", "-60", "24.9", "350.1", "NaN", "Infinity"])
def test_a_body_mass_that_can_t_be_is_refused(log, wren, amount):
    before = changes(log)
    with pytest.raises(BadInputError):
        people.weigh(log, wren.id, DAY, Mass(Decimal(amount), "kg"))
    with pytest.raises(BadInputError):
        people.weigh(log, wren.id, this_day() + timedelta(days=3), kg("65"))
    with pytest.raises(BadInputError):
        people.unweigh(log, wren.id, DAY)
    assert changes(log) == before


def test_preferences_change_in_one_act_and_come_back(log, wren):
    people.prefer(log, wren.id, name="Wren B", unit="lb", place_id=None, no_heavy=True, minor=True, alone=True)
    changed = people.member(log, wren.id)
    assert (changed.name, changed.unit, changed.no_heavy, changed.minor, changed.alone) == ("Wren B", "lb", *[True] * 3)
    undo_newest(log, wren.id)
    assert people.member(log, wren.id) == wren


def test_a_name_is_whose_it_is_in_any_case(log, wren):
    people.add_member(log, "Tobin")
    before = changes(log)
    for name in ("wren", " WREN ", "", "\x07"):
        with pytest.raises(BadInputError):
            people.add_member(log, name)
    with pytest.raises(BadInputError):
        people.prefer(log, wren.id, name="tobin", unit="kg", place_id=None, no_heavy=False, minor=False, alone=False)
    assert changes(log) == before


def test_a_lift_with_another_implement_is_another_lift_and_the_same_one_is_the_same(log):
    bar = people.add_lift(log, "Front  Squat", "barbell")
    bells = people.add_lift(log, "front squat", "dumbbells", per_side=False)
    assert people.add_lift(log, "FRONT SQUAT", "barbell") == bar
    assert (bar.spotted, bar.implements) == (True, 1)
    assert (bells.spotted, bells.implements) == (False, 2)


def imported(log: Log, name: str):
    with log.act("brought a file") as act:
        return log_members.add_lift(act, name, "unasked")


def test_an_imported_lift_is_told_its_implement_once(log, wren):
    lift = imported(log, "pull-up")
    told = people.say_implement(log, lift.id, "body", wren.id)
    assert (told.implement, told.body) == ("body", True)
    undo_newest(log, wren.id)
    assert people.lifts(log)[0].implement == "unasked"


def test_two_histories_are_never_thrown_together(log, wren):
    people.add_lift(log, "press", "barbell")
    lift = imported(log, "press")
    before = changes(log)
    with pytest.raises(BadInputError, match="already"):
        people.say_implement(log, lift.id, "barbell", wren.id)
    with pytest.raises(BadInputError):
        people.say_implement(log, "gone", "barbell", wren.id)
    assert changes(log) == before


TWIN = "Wr\u0435n"  # with a Cyrillic e


def test_a_name_that_looks_like_another_member_s_is_refused_by_every_way(log, wren, tmp_path):
    bo = people.add_member(log, "Bo")
    with pytest.raises(BadInputError, match="looks like that of another member"):
        people.add_member(log, TWIN)
    with pytest.raises(BadInputError, match="looks like"):
        people.prefer(log, bo.id, name=TWIN, unit="kg", place_id=None, no_heavy=False, minor=False, alone=False)
    path = tmp_path / "sets.csv"
    path.write_text(f"member,date,lift,load,unit,reps\n{TWIN},2026-03-02,squat,50,kg,5\n", encoding="utf-8")
    with pytest.raises(BadInputError, match="looks like"):
        import_sets(log, path)
    result = Result(TWIN, date(2026, 3, 2), now(), (ResultSet("squat", "barbell", Mass(Decimal(50), "kg"), 5),))
    takings = take_results(log, write_line(result), whom={TWIN: NEW})
    assert "looks like" in takings.broken[0].what
    assert {each.name for each in people.members(log)} == {"Wren", "Bo"}


def test_whoever_has_such_a_name_already_keeps_it(log, wren):
    with log.act("as before there was a rule") as act:
        twin = log_members.add_member(act, TWIN, "kg")
    kept = people.prefer(log, twin.id, name=TWIN, unit="lb", place_id=None, no_heavy=False, minor=False, alone=False)
    assert kept.unit == "lb"
