"""How somebody begins: all of it in one act, or nothing; and the way to a first max."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from sqlalchemy import func, select

from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import first_max, log_set, weights
from tracker.desk.people import beginning, people, places
from tracker.desk.people.beginning import FirstMax, begin, gym, home, masses_of
from tracker.errors import BadInputError
from tracker.log.models import Change, Lift, Member, Place
from tracker.log.unit_of_work import Log
from tracker.units import Mass

DAY = date(2026, 3, 2)


def rows(log: Log) -> int:
    with log.reading() as session:
        return sum(
            session.scalar(select(func.count()).select_from(table)) or 0 for table in (Change, Lift, Member, Place)
        )


def test_name_unit_place_and_rep_max_are_one_act_and_one_undo(log):
    member = begin(log, " Wren ", "kg", gym("kg"), FirstMax("Front squat", 3, kg(90), tested=False), day=DAY)
    assert (member.name, member.unit) == ("Wren", "kg")
    place = places.place_of(log, member)
    assert [str(bar.mass) for bar in place.of_kind("bar")] == ["20 kg", "15 kg"]
    squat = weights.lift_choices(log, member)[0]
    known = weights.options(log, member, next(x for x in people.lifts(log) if x.name == "front squat"), 3, DAY)
    assert [(each.source, str(each.load)) for each in known] == [("declared", "90 kg")]
    assert squat.implement == "barbell"
    undo_newest(log, member.id)
    assert people.members(log) == ()
    assert places.places(log) == ()
    assert people.lifts(log) == ()


@pytest.mark.parametrize(
    ("name", "first"),
    [
        ("", None),
        ("x" * 201, None),
        ("Wren", FirstMax("front squat", 0, Mass(Decimal(90), "kg"), tested=True)),
        ("Wren", FirstMax("front squat", 3, Mass(Decimal(-1), "kg"), tested=True)),
        ("Wren", FirstMax("front squat", 3, Mass(Decimal(1001), "kg"), tested=True)),
        ("Wren", FirstMax("  ", 3, Mass(Decimal(90), "kg"), tested=True)),
    ],
)
def test_bad_input_writes_nothing_at_all(log, name, first):
    with pytest.raises(BadInputError):
        begin(log, name, "kg", gym("kg"), first, day=DAY)
    assert rows(log) == 0


def test_a_tested_max_stays_a_tested_one(log):
    member = begin(
        log, "Wren", "lb", gym("lb"), FirstMax("deadlift", 5, Mass(Decimal(225), "lb"), tested=True), day=DAY
    )
    lift = next(each for each in people.lifts(log) if each.name == "deadlift")
    assert weights.options(log, member, lift, 5, DAY)[0].words(DAY) == "tested 5RM 225 lb, today"


def test_a_home_without_a_bar_has_the_dumbbells_that_were_named_and_someone_alone(log):
    member = begin(log, "Mirela", "kg", home("kg", bar=False, dumbbells=masses_of("10 12,5", "kg", where="x")), day=DAY)
    place = places.place_of(log, member)
    assert [(item.kind, str(item.mass), item.number) for item in place.items] == [
        ("dumbbell", "10 kg", 2), ("dumbbell", "12.5 kg", 2),
    ]  # fmt: skip
    assert member.alone


def test_an_empty_home_is_empty_and_a_second_one_gets_a_number(log):
    begin(log, "Mirela", "kg", home("kg", bar=False), day=DAY)
    begin(log, "Sunniva", "kg", home("kg", bar=False), day=DAY)
    assert [(place.name, place.items) for place in places.places(log)] == [("Home", ()), ("Home 2", ())]


def test_masses_are_read_with_their_unit_and_a_bad_one_is_named():
    assert masses_of("20, 10 10 35lb", "kg", where="dumbbells") == (kg(10), Mass(Decimal(35), "lb"), kg(20))
    for bad in ("ten", "10 -5", "nan", "10kg20"):
        with pytest.raises(BadInputError) as caught:
            masses_of(bad, "kg", where="dumbbells")
        assert caught.value.where.startswith("dumbbells")


@pytest.fixture
def wren(log):
    return begin(log, "Wren", "kg", gym("kg"), day=DAY)


def squat_of(log):
    return next(lift for lift in people.lifts(log) if lift.name == "front squat")


def test_the_way_to_a_first_max_starts_with_the_empty_bar_and_rises(log, wren):
    now = first_max.rising(log, wren, squat_of(log), DAY)
    assert (str(now.made.load), now.made.words, now.reps) == ("20 kg", "empty bar", 5)
    loads = []
    while now.made is not None:
        loads.append(now.made.load.kg)
        left = 6 if len(loads) < 4 else 3
        log_set.log_set(log, wren.id, DAY, first_max.as_set(now, left), sure=True)
        now = first_max.rising(log, wren, squat_of(log), DAY)
    assert loads == sorted(set(loads))
    assert len(loads) == 4
    assert now.finished
    estimated = [each for each in weights.options(log, wren, squat_of(log), 5, DAY) if each.source == "estimated"]
    assert estimated[0].load.kg > loads[-1]  # three were left


def test_a_miss_ends_the_rising_sets(log, wren):
    now = first_max.rising(log, wren, squat_of(log), DAY)
    log_set.log_set(log, wren.id, DAY, first_max.as_set(now, 0, missed=True, reps=2))
    assert first_max.rising(log, wren, squat_of(log), DAY).finished


def test_yesterday_s_sets_are_another_day(log, wren):
    now = first_max.rising(log, wren, squat_of(log), DAY)
    log_set.log_set(log, wren.id, DAY, first_max.as_set(now, 2))
    assert first_max.rising(log, wren, squat_of(log), DAY + timedelta(days=1)).done == ()


def test_without_a_bar_it_says_another_way(log):
    member = begin(log, "Mirela", "kg", home("kg", bar=False), day=DAY)
    now = first_max.rising(log, member, squat_of(log), DAY)
    assert now.made is None
    assert not now.finished
    assert "lightest" in now.words


def test_without_a_bar_the_common_lifts_are_done_with_dumbbells(log):
    begin(log, "Mirela", "kg", home("kg", bar=False), day=DAY)
    assert {lift.implement for lift in people.lifts(log)} == {"dumbbells"}


def test_the_common_lifts_are_there_to_choose_from(log, wren):
    assert {lift.name for lift in people.lifts(log)} == set(beginning.COMMON_LIFTS[:4])
