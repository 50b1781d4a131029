"""Which caution belongs to which act, what each rests on, and that none of them clears or diagnoses anyone."""

from datetime import date, timedelta
from itertools import product

import pytest

from tracker import safety
from tracker.safety import (
    ALONE,
    BREATH,
    BREATH_ASK,
    ECCENTRIC,
    HEAT,
    LET_GO,
    MINOR,
    NEW,
    NO_CLEARANCE,
    PREGNANCY_STOP_SIGNS,
    RETURN,
    SPOT,
    STALE,
    STATUS_WORDS,
    STOP_SIGNS,
    STOP_SIGNS_STATUS,
    TEST,
    WATCH,
    Around,
    Caution,
    Person,
    for_days_after,
    for_piece,
    for_test,
    for_working_set,
    held_back,
    spotting_of,
    still_shown,
)

ANYONE, GYM, HOME = Person(), Around(), Around(alone=True, pins=False)

CAUTIONS = [each for each in vars(safety).values() if isinstance(each, Caution)]  # none can be forgotten


def test_an_ordinary_set_has_no_caution():
    assert for_working_set("front squat", ANYONE, GYM, percent=75) == ()
    assert for_working_set("front squat", ANYONE, HOME, percent=75) == ()


@pytest.mark.parametrize(
    ("percent", "rep_out", "shown"), [(90, False, False), (90.5, False, True), (60, True, True), (None, True, True)]
)
@pytest.mark.parametrize("lift", ["front squat", "back squat", "bench press"])
def test_alone_without_pins_no_rep_out_and_nothing_over_ninety_on_squat_or_bench(lift, percent, rep_out, shown):
    """Status of the rule: from memory."""
    assert (ALONE in for_working_set(lift, ANYONE, HOME, percent=percent, rep_out=rep_out)) is shown
    assert ALONE not in for_working_set(lift, ANYONE, Around(alone=True, pins=True), percent=percent, rep_out=rep_out)
    assert ALONE not in for_working_set(lift, ANYONE, GYM, percent=percent, rep_out=rep_out)


def test_a_very_heavy_lift_over_the_body_wants_a_spotter_or_pins():
    assert SPOT in for_working_set("press", ANYONE, GYM, percent=95)
    assert SPOT in for_working_set("back squat", ANYONE, Around(alone=True, pins=True), percent=95)
    assert SPOT not in for_working_set("deadlift", ANYONE, GYM, percent=95)
    assert SPOT not in for_working_set("front squat", ANYONE, GYM, rep_out=True, implement="dumbbells")


def test_lifts_that_are_let_go_are_never_spotted():
    assert LET_GO in for_working_set("power clean", ANYONE, GYM, percent=92)
    assert SPOT not in for_working_set("power clean", ANYONE, GYM, percent=92)
    assert [spotting_of(lift) for lift in ("split jerk", "snatch", "bench press", "deadlift")] == [
        "let go",
        "let go",
        "spot",
        "none",
    ]


@pytest.mark.parametrize(("percent", "shown"), [(80, False), (81, True)])
def test_held_breath_above_eighty_per_cent_or_to_failure(percent, shown):
    """MacDougall et al. 1992, J Appl Physiol 73(4):1590-1597, abstract: unavoidable above about 80 % of maximal effort;
    Hackett & Chow 2013, JSCR 27(8):2338-2345, abstract: over 80 % or to failure."""
    found = for_working_set("deadlift", ANYONE, GYM, percent=percent)
    assert (BREATH in found) is shown
    assert (BREATH_ASK in found) is shown
    assert BREATH in for_working_set("deadlift", ANYONE, GYM, percent=50, rep_out=True)
    assert BREATH.status == "published"


@pytest.mark.parametrize(
    ("person", "shown"),
    [
        (Person(days_off=13), False),
        (Person(days_off=14), True),
        (Person(days_off=2, days_back=10), True),
        (Person(days_off=2, days_back=27), True),
        (Person(days_off=2, days_back=28), False),
        (Person(), False),
    ],
)
def test_the_first_weeks_after_two_weeks_off(person, shown):
    """Caterisano et al. 2019, Strength Cond J 41(3):1-23, abstract: upper limits for the first two to four weeks."""
    for found in (for_working_set("press", person, GYM, percent=60), for_piece(person, GYM)):
        assert (RETURN in found) is shown


def test_after_four_weeks_off_stored_maxes_are_stale():
    assert STALE not in for_working_set("press", Person(days_off=27), GYM)
    assert STALE in for_working_set("press", Person(days_off=28), GYM)


@pytest.mark.parametrize("person", [Person(days_off=20), Person(days_back=5), Person(days_since_first=10)])
def test_many_eccentric_repetitions_when_unaccustomed(person):
    found = for_piece(person, GYM, eccentric_reps=60)
    assert ECCENTRIC in found
    assert WATCH in found
    assert ECCENTRIC not in for_piece(person, GYM, eccentric_reps=20)
    assert ECCENTRIC not in for_piece(Person(days_since_first=400, days_off=2), GYM, eccentric_reps=300)
    assert [bool(for_days_after(days, found)) for days in (0, 1, 4, 5)] == [True, True, True, False]
    assert for_days_after(1, for_piece(person, GYM)) == ()


def test_heat_minors_and_first_weeks():
    assert for_piece(ANYONE, Around(hot=True)) == (HEAT,)
    assert for_piece(Person(minor=True), GYM) == (MINOR,)
    assert for_working_set("press", Person(days_since_first=3), GYM, percent=60) == (NEW,)


def test_a_test_carries_its_own_caution_and_those_of_its_last_set():
    assert for_test("back squat", ANYONE, GYM) == (TEST, SPOT, BREATH, BREATH_ASK)
    assert for_test("back squat", ANYONE, HOME)[:2] == (TEST, ALONE)


def test_what_is_held_back_and_why():
    own = Person(nothing_heavy=True)
    assert held_back(own, test=True).key == "own switch"
    assert held_back(own, percent=81).key == "own switch"
    assert held_back(own, percent=80) is None
    assert held_back(Person(days_off=14), test=True).key == "lay-off"
    assert held_back(Person(days_off=14), percent=95) is None
    assert held_back(Person(minor=True), test=True).key == "minor"
    assert held_back(ANYONE, test=True) is None
    assert "reason" not in held_back(own, test=True).text


def test_a_caution_put_away_comes_back_the_next_day():
    today = date(2026, 3, 2)
    found = (BREATH, SPOT, BREATH)
    assert still_shown(found, {"breath": today}, today) == (SPOT,)
    assert still_shown(found, {"breath": today}, today + timedelta(days=1)) == (BREATH, SPOT)


def test_every_caution_says_what_it_rests_on_and_only_published_ones_show_a_source():
    assert len({caution.key for caution in CAUTIONS}) == len(CAUTIONS)
    for caution in CAUTIONS:
        assert len(caution.text) + len(caution.advice) < 300
        assert caution.text.endswith(".")
        assert caution.advice.endswith(".")
        plainly = STATUS_WORDS.get(caution.status, caution.status)
        assert caution.basis == (caution.source if caution.status == "published" else plainly)
        assert caution.basis


def test_nobody_is_cleared_and_nothing_is_diagnosed():
    said = [part for caution in CAUTIONS if caution is not NO_CLEARANCE for part in (caution.text, caution.advice)]
    every = " ".join([*said, *(sign.text for sign in STOP_SIGNS), *PREGNANCY_STOP_SIGNS]).casefold()
    for word in ("safe to", "you are fine", "cleared", "fit to train", "you have", "diagnos", "rhabdo", "no risk"):
        assert word not in every
    assert "coach" in NO_CLEARANCE.advice
    assert "clinician" in NO_CLEARANCE.advice


def test_stop_signs_name_the_emergencies():
    """From memory of the lists of a guideline; chest, fainting, confusion, headache, vision and heat are emergencies."""
    emergencies = " ".join(sign.text for sign in STOP_SIGNS if sign.emergency)
    for word in ("chest", "faint", "confusion", "headache", "vision", "sweat"):
        assert word in emergencies
    assert STOP_SIGNS_STATUS == "from memory"


def test_cautions_never_shrink_when_the_act_grows_harder():
    for lift, person, around in product(("back squat", "press", "snatch"), (ANYONE, Person(minor=True)), (GYM, HOME)):
        shown = [len(for_working_set(lift, person, around, percent=percent)) for percent in (50, 75, 85, 95)]
        assert shown == sorted(shown)
