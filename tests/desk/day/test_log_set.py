"""Logging a set: what is refused, what is asked about, what a second tap does, and what undo takes back."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
import time_machine

from tests.day import this_day
from tests.loads import kg
from tests.undoing import undo_newest
from tracker.desk.day import log_set, session_said
from tracker.desk.day.log_set import UnitSlipError
from tracker.desk.maxes import rep_maxes
from tracker.desk.people import people
from tracker.errors import BadInputError
from tracker.log import sessions as log_sessions
from tracker.log import sets as log_sets
from tracker.log.sets import NewSet
from tracker.units import Mass


def lb(amount):
    return Mass(Decimal(amount), "lb")


def stored(log, member):
    with log.reading() as session:
        return log_sets.sets_of(session, member.id)


GOOD = NewSet("", kg("100"), 5)
BAD = [
    ("a load of nothing", replace(GOOD, load=kg("0")), "load"),
    ("a load below nothing", replace(GOOD, load=kg("-60")), "load"),
    ("over 1,000 kg", replace(GOOD, load=kg("1000.5")), "load"),
    ("over 1,000 kg in pounds", replace(GOOD, load=lb("2300")), "load"),
    ("no number", replace(GOOD, load=kg("NaN")), "load"),
    ("without end", replace(GOOD, load=kg("Infinity")), "load"),
    ("repetitions below nothing", replace(GOOD, reps=-1), "repetitions"),
    ("absurd repetitions", replace(GOOD, reps=201), "repetitions"),
    ("done with none", replace(GOOD, reps=0), "repetitions"),
    ("reserve below nothing", replace(GOOD, rir=Decimal(-1)), "in reserve"),
    ("a third in reserve", replace(GOOD, rir=Decimal("0.3")), "in reserve"),
    ("no number in reserve", replace(GOOD, rir=Decimal("NaN")), "in reserve"),
    ("a note without end", replace(GOOD, note="x" * 2001), "note"),
]


@pytest.mark.parametrize(("new", "where"), [pytest.param(new, where, id=name) for name, new, where in BAD])
def test_what_can_not_have_happened_is_refused_with_its_field_and_nothing_is_written(log, ana, squat, new, where):
    with pytest.raises(BadInputError) as told:
        log_set.log_set(log, ana.id, this_day(), replace(new, lift_id=squat.id))
    assert told.value.where == where
    assert told.value.mend
    assert stored(log, ana) == ()


def test_weighing_in_and_the_set_are_one_act_refused_and_undone_together(log, ana):
    pull_up = people.add_lift(log, "pull-up", "body")
    people.weigh(log, ana.id, this_day(), kg("80"))

    def weighed():
        return [str(mass) for _, mass in people.body_masses(log, ana.id)]

    new = NewSet(pull_up.id, kg("10"), 5, body_mass=Decimal("81.5"))
    for wrong in (replace(new, reps=0), replace(new, body_mass=Decimal(8)), replace(new, load=kg("NaN"))):
        with pytest.raises(BadInputError):
            log_set.log_set(log, ana.id, this_day(), wrong, weighed=True)
        assert (weighed(), stored(log, ana)) == (["80 kg"], ())
    log_set.log_set(log, ana.id, this_day(), new, weighed=True)
    assert (weighed(), str(stored(log, ana)[0].body_mass)) == (["81.5 kg"], "81.5 kg")
    undo_newest(log, ana.id)
    assert (weighed(), stored(log, ana)) == (["80 kg"], ())


def test_a_session_note_that_is_too_long_is_refused_and_never_cut(log, ana, squat):
    row = log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg("100"), 5))
    session_said.rate_session(log, row.session_id, ana.id, rating=6, minutes=None, note="x" * 2000)
    with pytest.raises(BadInputError) as told:
        session_said.rate_session(log, row.session_id, ana.id, rating=7, minutes=None, note="y" * 2001)
    assert told.value.where == "note"
    with log.reading() as session:
        (kept,) = log_sessions.sessions_of(session, ana.id)
    assert (kept.rating, kept.note) == (6, "x" * 2000)


def test_all_that_is_wrong_with_a_set_is_told_at_once(log, ana, squat):
    with pytest.raises(BadInputError) as told:
        log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg("-5"), 0, Decimal(-1), note="x" * 2001))
    assert all(each in str(told.value) for each in ("Load:", "Repetitions:", "In reserve:", "Note:"))


def test_all_that_is_wrong_with_a_rating_is_told_at_once(log, ana, squat):
    row = log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg("100"), 5))
    with pytest.raises(BadInputError) as told:
        session_said.rate_session(log, row.session_id, ana.id, rating=11, minutes=0, note="x" * 2001)
    assert all(each in str(told.value) for each in ("Rating:", "Minutes:", "Note:"))


@pytest.mark.parametrize("ahead", [True, False])
def test_a_day_to_come_or_long_gone_is_refused(log, ana, squat, ahead):
    day = this_day() + timedelta(days=2) if ahead else date(1949, 12, 31)
    with pytest.raises(BadInputError, match="date"):
        log_set.log_set(log, ana.id, day, replace(GOOD, lift_id=squat.id))
    assert stored(log, ana) == ()


@pytest.mark.parametrize("server", ["Pacific/Pago_Pago", "UTC", "Pacific/Kiritimati"])
def test_what_is_the_day_anywhere_is_taken_wherever_the_server_is(log, ana, squat, server):
    """At 10:30 UTC a new day has begun 14 hours ahead of it, on Kiritimati, and nowhere at 9:30 (tz database)."""
    new = replace(GOOD, lift_id=squat.id)
    with time_machine.travel(datetime(2026, 3, 2, 9, 30, tzinfo=UTC).astimezone(ZoneInfo(server))):
        with pytest.raises(BadInputError, match="still to come"):
            log_set.log_set(log, ana.id, date(2026, 3, 3), new)
        log_set.log_set(log, ana.id, date(2026, 3, 2), new)
    with time_machine.travel(datetime(2026, 3, 2, 10, 30, tzinfo=UTC).astimezone(ZoneInfo(server))):
        log_set.log_set(log, ana.id, date(2026, 3, 3), new)
    assert [row.day for row in stored(log, ana)] == [date(2026, 3, 2), date(2026, 3, 3)]


@pytest.mark.parametrize(
    ("load", "values"),
    [
        (kg("92.50"), {"rir": Decimal("1.5"), "note": "heavy, and a – sign of its own"}),
        (lb("225"), {"outcome": "missed", "reps": 3}),
        (kg("1E+2"), {"kind": "ramp", "rir": Decimal("3.0")}),
        (kg("60"), {"left_out": "another bar"}),
    ],
)
def test_what_is_told_of_a_set_is_what_the_log_has(log, ana, squat, load, values):
    """It is told as the act leaves it, without reading it again."""
    logged = log_set.log_set(log, ana.id, this_day(), replace(NewSet(squat.id, load, 5), **values), sure=True)
    assert stored(log, ana) == (logged,)
    mended = log_set.mend_set(log, logged.id, replace(log_set.as_new(logged), note="", rir=Decimal("0.50")), sure=True)
    assert stored(log, ana) == (mended,)
    assert mended.note == ""


def test_a_load_far_from_the_usual_is_held_to_all_earlier_ones_and_not_only_to_the_newest(log, ana, squat):
    for days, load in (
        (20, "45"),
        *((days, "100") for days in range(15, 1, -1)),
    ):  # one light set before 14 heavier ones
        log_set.log_set(log, ana.id, this_day() - timedelta(days), NewSet(squat.id, kg(load), 5), sure=True)
    assert log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg("46"), 5)).load == kg("46")
    with pytest.raises(UnitSlipError):
        log_set.log_set(log, ana.id, this_day(), NewSet(squat.id, kg("220"), 5))


def test_the_same_tap_twice_is_one_set(log, ana, squat):
    first = log_set.log_set(log, ana.id, this_day(), replace(GOOD, lift_id=squat.id), token="tap-1")
    again = log_set.log_set(log, ana.id, this_day(), replace(GOOD, lift_id=squat.id), token="tap-1")
    other = log_set.log_set(log, ana.id, this_day(), replace(GOOD, lift_id=squat.id), token="tap-2")
    assert first.id == again.id != other.id
    assert len(stored(log, ana)) == 2


@pytest.mark.parametrize(
    ("load", "asked"), [(kg("220"), True), (kg("45"), True), (kg("110"), False), (kg("85"), False), (lb("225"), False)]
)
def test_a_load_that_looks_like_the_other_unit_is_asked_about_and_not_refused(log, ana, squat, load, asked):
    for ago in range(1, 6):
        log_set.log_set(log, ana.id, this_day() - timedelta(days=ago), replace(GOOD, lift_id=squat.id))
    new = replace(GOOD, lift_id=squat.id, load=load)
    if asked:
        with pytest.raises(UnitSlipError, match="Was it"):
            log_set.log_set(log, ana.id, this_day(), new)
        assert len(stored(log, ana)) == 5
        log_set.log_set(log, ana.id, this_day(), new, sure=True)
    else:
        log_set.log_set(log, ana.id, this_day(), new)
    assert len(stored(log, ana)) == 6


def test_a_load_with_a_digit_too_many_is_asked_about(log, ana, squat):
    log_set.log_set(log, ana.id, this_day() - timedelta(days=1), replace(GOOD, lift_id=squat.id, load=kg("87.5")))
    new = replace(GOOD, lift_id=squat.id, load=kg("875"))
    with pytest.raises(
        UnitSlipError, match=r"875 kg is about 10\.0 times the usual 87\.5 kg\. Is there a digit too many\?"
    ):
        log_set.log_set(log, ana.id, this_day(), new)
    assert len(stored(log, ana)) == 1
    log_set.log_set(log, ana.id, this_day(), new, sure=True)
    assert len(stored(log, ana)) == 2


def test_without_an_earlier_set_the_known_max_tells_a_digit_too_many(log, ana, squat):
    rep_maxes.add_rep_max(log, ana.id, squat.id, this_day() - timedelta(days=3), 3, kg("50"), tested=True)
    new = replace(GOOD, lift_id=squat.id, load=kg("425"))
    with pytest.raises(UnitSlipError, match=r"425 kg is about 8\.5 times the usual 50 kg"):
        log_set.log_set(log, ana.id, this_day(), new)
    assert not stored(log, ana)
    log_set.log_set(log, ana.id, this_day(), replace(new, load=kg("60")))


def test_a_lift_of_the_body_takes_the_newest_body_mass_or_asks_for_it(log, ana):
    pull_up = people.add_lift(log, "pull-up", "body")
    with pytest.raises(BadInputError, match="body mass"):
        log_set.log_set(log, ana.id, this_day(), NewSet(pull_up.id, kg("10"), 5))
    people.weigh(log, ana.id, this_day() - timedelta(days=9), kg("64"))
    people.weigh(log, ana.id, this_day() - timedelta(days=2), kg("65"))
    row = log_set.log_set(log, ana.id, this_day(), NewSet(pull_up.id, kg("-10"), 5))
    assert (row.body_mass, row.moved_kg) == (kg("65.0"), 55.0)


def test_mend_move_leave_out_and_remove_are_each_taken_back_by_undo(log, ana, squat):
    ben = people.add_member(log, "Ben")
    row = log_set.log_set(log, ana.id, this_day(), replace(GOOD, lift_id=squat.id))
    log_set.mend_set(log, row.id, replace(log_set.as_new(row), reps=4, outcome="missed"))
    assert [(s.reps, s.outcome) for s in stored(log, ana)] == [(4, "missed")]
    undo_newest(log, ana.id)
    log_set.move_set(log, row.id, ben.id, today=this_day())
    assert (len(stored(log, ana)), len(stored(log, ben))) == (0, 1)
    undo_newest(log, ana.id)
    log_set.mend_set(log, row.id, replace(log_set.as_new(row), left_out="a spotter helped"))
    assert stored(log, ana)[0].left_out == "a spotter helped"
    undo_newest(log, ana.id)
    log_set.remove_set(log, row.id, today=this_day())
    assert stored(log, ana) == ()
    undo_newest(log, ana.id)
    assert [(s.reps, s.outcome, s.left_out) for s in stored(log, ana)] == [(5, "done", None)]


@pytest.mark.parametrize(("rating", "minutes"), [(11, 60), (-1, 60), (5, 0), (5, 1441)])
def test_a_session_rating_that_can_not_be_is_refused(log, ana, squat, rating, minutes):
    row = log_set.log_set(log, ana.id, this_day(), replace(GOOD, lift_id=squat.id))
    with pytest.raises(BadInputError):
        session_said.rate_session(log, row.session_id, ana.id, rating=rating, minutes=minutes, note="")


def test_the_session_rating_is_kept_and_undone(log, ana, squat):
    row = log_set.log_set(log, ana.id, this_day(), replace(GOOD, lift_id=squat.id))
    session_said.rate_session(log, row.session_id, ana.id, rating=7, minutes=55, note=" windy ")
    with log.reading() as session:
        kept = log_sessions.sessions_of(session, ana.id)[0]
    assert (kept.rating, kept.minutes, kept.note) == (7, 55, "windy")
    undo_newest(log, ana.id)
    with log.reading() as session:
        assert log_sessions.sessions_of(session, ana.id)[0].rating is None
